#pragma once

#include <string>

#include "joinery/file/json_place.h"
#include "joinery/model/model.h"

namespace dryfit::joinery {

// Values of a file that stand by themselves: they read no names. Each reports what is wrong at its
// place and then gives 0, or the least that is allowed.

/// A size in mm from a number in `unit` or text such as "1 3/8 in"; see checkSize.
[[nodiscard]] double sizeAt(const JsonPlace& place, Unit unit);
/// A length in mm from 0 to the largest size, such as an allowance or a place on a board.
[[nodiscard]] double lengthAt(const JsonPlace& place, Unit unit);
/// A plain JSON number from `least` to `most`. `what` names it: "a price".
[[nodiscard]] double numberAt(const JsonPlace& place, const std::string& what, double least,
                              double most);
/// The same for whole numbers.
[[nodiscard]] int countAt(const JsonPlace& place, const std::string& what, int least, int most);
/// A price: 0 or more, at most a thousand million.
[[nodiscard]] double priceAt(const JsonPlace& place);
/// true or false.
[[nodiscard]] bool truthAt(const JsonPlace& place);
/// True for a list of exactly `count` entries; reports otherwise, with `mend` to say what it holds.
[[nodiscard]] bool isListOf(const JsonPlace& place, std::size_t count, const std::string& mend);

}  // namespace dryfit::joinery
