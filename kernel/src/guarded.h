#pragma once

#include <Standard_Failure.hxx>
#include <exception>
#include <string>
#include <type_traits>

#include "kernel/result.h"

namespace dryfit::kernel {

/// Takes the geometry library's own printers off its default messenger, once in the life of the
/// program, so that nothing but Dryfit writes to the console. Cheap to call again.
void quietLibrary();

/// Runs `work`, which returns a Result, and turns whatever the geometry library throws into the
/// error `libraryFailure` with `task` ("cutting") named in it. The one place where exceptions stop.
template <class Work>
[[nodiscard]] std::invoke_result_t<Work> guarded(const char* task, Work&& work) {
  quietLibrary();
  // A thrown library failure often carries an empty text; its class then says more.
  const auto told = [&](const std::string& text) {
    return fail(ErrorCode::libraryFailure,
                std::string("the geometry library failed while ") + task + " (" + text + ")");
  };
  try {
    return std::forward<Work>(work)();
  } catch (const Standard_Failure& failure) {
    const char* text = failure.GetMessageString();
    return told(text && *text ? text : failure.DynamicType()->Name());
  } catch (const std::exception& failure) {
    return told(failure.what());
  }
}

}  // namespace dryfit::kernel
