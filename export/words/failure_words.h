#pragma once

#include <string>

namespace dryfit::exporting {

/// What the exception that is being handled says, whatever it is: the geometry library's own are no
/// std::exception. One line. REQUIRES: called within a handler.
[[nodiscard]] std::string failureWords();

}  // namespace dryfit::exporting
