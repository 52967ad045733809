#pragma once

#include <string>

namespace dryfit::test {

/// A rack of pigeonholes for sorting, as the text of a model file written part by part: `bays` bays
/// of `rows` shelves between uprights, a top and a bottom; every shelf housed in both uprights.
/// Sizes are invented. It goes together; its dimensions are bay_width, row_height and rack_depth.
[[nodiscard]] std::string sortingRack(int bays, int rows);

}  // namespace dryfit::test
