#pragma once

#include <optional>
#include <string>
#include <vector>

#include "joinery/layout/cutting_stock.h"
#include "joinery/layout/guillotine_knapsack.h"
#include "joinery/layout/limited_knapsack.h"

namespace dryfit::test {

/// Where published instances are kept: DRYFIT_DATASETS, else ../shared/datasets beside the sources.
[[nodiscard]] std::string datasetFolder();

/// m; length and width of the sheet; m times length, width, value.
struct WorthRectInstance {
  joinery::cutting::Size length = 0, width = 0;
  std::vector<joinery::cutting::WorthRect> items;
};
/// The same with the most copies before the value.
struct LimitedInstance {
  joinery::cutting::Size length = 0, width = 0;
  std::vector<joinery::cutting::LimitedItem> items;
};
/// Bars in tenths of the file's unit, equal items put together.
struct BarInstance {
  std::string name;
  joinery::cutting::Size room = 0;
  std::vector<joinery::cutting::BarItem> items;
};

/// Nothing when the folder does not hold the file.
[[nodiscard]] std::optional<WorthRectInstance> readWorthRects(const std::string& file);
[[nodiscard]] std::optional<LimitedInstance> readLimitedItems(const std::string& file);
[[nodiscard]] std::optional<std::vector<BarInstance>> readBars(const std::string& file);

}  // namespace dryfit::test
