#pragma once

#include <string>
#include <type_traits>
#include <utility>

#include "kernel/caught.h"
#include "kernel/result.h"

namespace dryfit::kernel {

/// Takes the geometry library's own printers off its default messenger, once in the life of the
/// program, so that nothing but Dryfit writes to the console. Cheap to call again.
void quietLibrary();

/// Runs `work`, which returns a Result, and turns whatever is thrown in it into the error
/// `libraryFailure` with `task` ("cutting") named in it. The one place where exceptions stop.
template <class Work>
[[nodiscard]] std::invoke_result_t<Work> guarded(const char* task, Work&& work) {
  quietLibrary();
  try {
    return std::forward<Work>(work)();
  } catch (...) {
    return fail(ErrorCode::libraryFailure, std::string("the geometry library failed while ") +
                                               task + " (" + caughtText() + ")");
  }
}

}  // namespace dryfit::kernel
