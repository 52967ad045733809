#include "tests/support/sorting_rack.h"

#include <fmt/format.h>

#include <iterator>

namespace dryfit::test {

std::string sortingRack(int bays, int rows) {
  std::string parts, joints;
  const auto part = std::back_inserter(parts);
  for (int i = 0; i <= bays; ++i) {
    fmt::format_to(part,
                   R"~({}"upright_{}": {{"material": "ash",
      "length": {{"along": "z", "from": 0, "to": "row_height * {} + 40"}},
      "width": {{"along": "y", "from": 0, "to": "rack_depth"}},
      "thickness": {{"along": "x", "from": "{} * (bay_width + ash.thickness)"}}}})~",
                   i == 0 ? "" : ",\n", i, rows + 1, i);
  }
  for (int bay = 0; bay < bays; ++bay) {
    for (int row = 0; row < rows; ++row) {
      // Neighbours stand half a row apart, so that no upright is housed from both sides at a place.
      fmt::format_to(part,
                     R"~(,
    "shelf_{0}_{1}": {{"material": "ash",
      "length": {{"along": "x", "from": "upright_{0}.right", "to": "upright_{2}.left"}},
      "width": {{"along": "y", "from": 0, "to": "rack_depth"}},
      "thickness": {{"along": "z", "from": "row_height * {3} + 20"}}}})~",
                     bay, row, bay + 1, bay % 2 == 0 ? row + 0.0 : row + 0.5);
      fmt::format_to(std::back_inserter(joints),
                     R"~({}"ends_{}_{}": {{"kind": "through-housing", "shelf": "shelf_{}_{}",
      "side": ["upright_{}", "upright_{}"], "depth": 6}})~",
                     joints.empty() ? "" : ",\n", bay, row, bay, row, bay, bay + 1);
    }
  }
  return fmt::format(R"~({{"format": "dryfit-model", "version": 1, "name": "Sorting rack",
  "unit": "mm",
  "dimensions": {{"bay_width": 300, "row_height": 110, "rack_depth": 260}},
  "materials": {{"ash": {{"kind": "solid", "species": "white ash", "thickness": 20}}}},
  "parts": {{{}}},
  "joints": {{{}}}}}
)~",
                     parts, joints);
}

}  // namespace dryfit::test
