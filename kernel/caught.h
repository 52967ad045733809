#pragma once

#include <string>

namespace dryfit::kernel {

/// What the exception being handled says: its own words, or its class where it has none, or that it
/// is of an unknown kind. Knows the geometry library's exceptions, which are no std::exception. To
/// be called in a catch clause.
[[nodiscard]] std::string caughtText();

}  // namespace dryfit::kernel
