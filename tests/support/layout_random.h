#pragma once

#include <random>

#include "joinery/layout/layout.h"

namespace dryfit::test {

/// A list of blanks, stock for some, most or all of them, and settings.
struct LayoutJob {
  std::vector<joinery::Blank> blanks;
  joinery::StockList stock;
  joinery::LayoutSettings settings;
};

/// A random job of up to `blanksMost` blanks of one or two materials; boards taper, have knots and
/// crooked outlines, sheets have defects, offcuts, prices, grain; some parts match.
[[nodiscard]] LayoutJob randomLayoutJob(std::mt19937_64& random, int blanksMost);

/// A random job as a workshop has it: frames and panels of one wood, 12 to 40 blanks many of which
/// are equal, and twice as much wood as that takes: priced boards of all widths and lengths, some
/// tapered, some with knots and splits, and a few offcuts.
[[nodiscard]] LayoutJob randomBoardJob(std::mt19937_64& random);

}  // namespace dryfit::test
