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

}  // namespace dryfit::test
