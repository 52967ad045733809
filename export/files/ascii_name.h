#pragma once

#include <string>
#include <string_view>

namespace dryfit::exporting {

/// A name in printable ASCII for files that carry nothing else: German umlauts and common accented
/// Latin letters are spelt out ("Tür" becomes "Tuer"), dashes and quotation marks become plain
/// ones, control characters and all other letters become `_`.
[[nodiscard]] std::string asciiName(std::string_view utf8);

}  // namespace dryfit::exporting
