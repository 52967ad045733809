#pragma once

#include <optional>
#include <string_view>

namespace dryfit::joinery {

/// Units a model file or a report may use. Inside the program every length is in millimetres.
enum class Unit { mm, cm, inch };

/// Millimetres in one of `unit`.
[[nodiscard]] double millimetresIn(Unit unit);
[[nodiscard]] std::string_view nameOf(Unit unit);  ///< "mm", "cm", "in"
[[nodiscard]] std::optional<Unit> unitNamed(std::string_view name);

}  // namespace dryfit::joinery
