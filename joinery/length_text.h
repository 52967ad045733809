#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "joinery/model.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// Millimetres in one of `unit`.
[[nodiscard]] double millimetresIn(Unit unit);
[[nodiscard]] std::string_view nameOf(Unit unit);  ///< "mm", "cm", "in"
[[nodiscard]] std::optional<Unit> unitNamed(std::string_view name);

/// A length for people: mm to 0.1, cm to 0.01, inches to the nearest 1/64 as a reduced fraction
/// ("1 3/8"), trailing zeros dropped, without the unit's name.
/// Rounding to 1/64 in moves a length by at most 0.2 mm (1/128 in).
[[nodiscard]] std::string lengthText(Length length, Unit unit);

/// A length as typed by a person: "58", "5.8 cm", "2 1/4 in", "3/8 in", "22mm". A bare number is in
/// `unit`. Error: badExpression.
[[nodiscard]] Result<Length> parseLength(std::string_view text, Unit unit);

}  // namespace dryfit::joinery
