#pragma once

#include <functional>
#include <string>
#include <string_view>

namespace dryfit::joinery {

/// The text of an expression or a condition with each word that starts with a letter put through
/// `change`. Dotted names count as one word; functions in front of a bracket are left alone.
[[nodiscard]] std::string withWords(const std::string& text,
                                    const std::function<std::string(std::string_view)>& change);

}  // namespace dryfit::joinery
