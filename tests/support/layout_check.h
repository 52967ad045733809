#pragma once

#include <string>
#include <vector>

#include "joinery/layout/layout.h"

namespace dryfit::test {

/// What is wrong with a layout, in words; empty when nothing is. Judged from the layout, its blanks
/// and the stock alone: the cuts are made again one by one and what comes off the saw is measured.
[[nodiscard]] std::vector<std::string> faultsOf(const joinery::Layout& layout,
                                                const joinery::StockList& stock);

}  // namespace dryfit::test
