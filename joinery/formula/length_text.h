#pragma once

#include <string>
#include <string_view>

#include "joinery/base/unit.h"
#include "kernel/result.h"
#include "kernel/units.h"

namespace dryfit::joinery {

/// A length for people: mm to 0.1, cm to 0.01, inches to the nearest 1/64 as a reduced fraction
/// ("1 3/8"), trailing zeros dropped, without the unit's name.
/// Rounding to 1/64 in moves a length by at most 0.2 mm (1/128 in).
[[nodiscard]] std::string lengthText(Length length, Unit unit);

/// A length as fine as a fit asks for: below 10 mm to 0.01 mm (0.001 cm); below 1 in to the nearest
/// 1/64 or thousandth of an inch, whichever is nearer ("1/16", "0.059"); from there on as
/// `lengthText`. What would round to nothing keeps two digits ("0.0034"), unless it is less than
/// kernel::kContact.
[[nodiscard]] std::string fineLengthText(Length length, Unit unit);
/// A length as a number to type in, in its unit: to 0.01 mm, 0.001 cm or 0.001 in ("400.25").
[[nodiscard]] std::string typedLengthText(Length length, Unit unit);
/// The nearest length that is not more, or not less, and that `fineLengthText` tells exactly. What
/// is within 0.000001 of such a length counts as it.
[[nodiscard]] Length toldAtMost(Length length, Unit unit);
[[nodiscard]] Length toldAtLeast(Length length, Unit unit);

/// `text` with the lengths that stand in braces told in `unit`: "deeper than {610 mm}" gives
/// "deeper than 24 in". Error: badExpression, for what stands in braces and is no length.
[[nodiscard]] Result<std::string> lengthsTold(const std::string& text, Unit unit);

/// A length as typed by a person: "62", "6.2 cm", "2 1/4 in", "3/8 in", "23mm". A bare number is in
/// `unit`. Error: badExpression.
[[nodiscard]] Result<Length> parseLength(std::string_view text, Unit unit);

}  // namespace dryfit::joinery
