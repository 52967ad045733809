#pragma once

#include <functional>
#include <vector>

#include "joinery/layout/layout.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// How far the search is: `share` from 0 to 1. Return false to stop; the best so far is kept.
using LayoutProgress = std::function<bool(double share)>;

/// Lays all blanks out on the stock: least cost of stock, then fewest cuts, then the largest
/// usable offcut. Every blank is either placed once or listed as unplaced. Same input, same
/// layout. Trims that the stock list tells win over those of the settings. Errors: badStock (sizes
/// of stock, blanks or settings that are no sizes). Boards and sheets are cut for one wood
/// each; an offcut at hand weighs half of what new stock of its cost does, and an unpriced board as
/// much more as it is thicker than the thinnest that suits.
[[nodiscard]] Result<Layout> layOut(std::vector<Blank> blanks, const StockList& stock,
                                    const LayoutSettings& settings,
                                    const LayoutProgress& progress = {});

}  // namespace dryfit::joinery
