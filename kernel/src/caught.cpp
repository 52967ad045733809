#include "kernel/caught.h"

#include <Standard_Failure.hxx>
#include <Standard_Type.hxx>
#include <exception>

namespace dryfit::kernel {

std::string caughtText() {
  try {
    throw;
  } catch (const Standard_Failure& failure) {
    // A thrown library failure often carries an empty text; its class then says more.
    const char* text = failure.GetMessageString();
    return text != nullptr && *text != '\0' ? text : failure.DynamicType()->Name();
  } catch (const std::exception& failure) {
    return failure.what();
  } catch (...) {
    return "a failure of an unknown kind";
  }
}

}  // namespace dryfit::kernel
