#pragma once

#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

#include "joinery/layout/layout_job.h"

namespace dryfit::joinery::cutting {

/// One blank in its place.
struct PlacedMember {
  int item = 0;
  int copy = 0;  ///< which of this pattern's copies of the item
  int slot = 0;
  Area at;
  bool turned = false;
};

/// How one piece of stock is cut.
struct Pattern {
  int bin = -1;
  std::vector<PlacedMember> members;
  std::vector<std::pair<int, int>> counts;  ///< item and how many, by item
  CutTree tree;                             ///< `use` counts in members; empty for free nesting
  std::vector<Area> offcuts;                ///< of free nesting; else they follow from the tree
  double area = 0;                          ///< of the blanks
  double offcut = 0;                        ///< area of the largest

  [[nodiscard]] int cuts() const { return tree.cuts(); }
};

/// How a filler goes about it.
struct FillRules {
  enum class Split { acrossFirst, alongFirst, largestRest, evenRests };
  enum class Choice { smallestPiece, tightestSide, nearEnd };
  Split split = Split::acrossFirst;
  Choice choice = Choice::smallestPiece;
};

/// Places items of `order` (one entry a copy) by `place(item, copy)` until `full()`, and counts
/// them in the pattern. An item that found no room is not tried again: room only gets less.
template <class Place, class Full>
void placeInOrder(const Job& job, const std::vector<int>& order, Pattern& pattern,
                  const Place& place, const Full& full) {
  std::vector<char> failed(job.items.size(), 0);
  std::vector<int> copies(job.items.size(), 0);
  for (const int i : order) {
    if (full()) break;
    const auto item = static_cast<std::size_t>(i);
    const bool suits = job.suits[item][static_cast<std::size_t>(pattern.bin)] != 0;
    if (failed[item] != 0 || !suits) continue;
    if (place(i, copies[item])) {
      ++copies[item];
      pattern.area += job.items[item].area;
    } else {
      failed[item] = 1;
    }
  }
  for (std::size_t i = 0; i < copies.size(); ++i) {
    if (copies[i] > 0) pattern.counts.emplace_back(static_cast<int>(i), copies[i]);
  }
}

/// Fills one piece of stock with items taken in the given order (one entry a copy), each where the
/// rules find it best; what does not fit is passed over. `work` counts what was tried.
[[nodiscard]] Pattern fillByCuts(const Job& job, int bin, const std::vector<int>& order,
                                 FillRules rules, std::int64_t& work);
/// The same with parts lying anyhow on a sheet.
[[nodiscard]] Pattern fillFreely(const Job& job, int bin, const std::vector<int>& order,
                                 FillRules rules, std::int64_t& work);
[[nodiscard]] inline Pattern fill(const Job& job, int bin, const std::vector<int>& order,
                                  FillRules rules, std::int64_t& work) {
  // Sheets that are no rectangles are cut through even for a router.
  const bool freely = job.free && !job.bins[static_cast<std::size_t>(bin)].wood.tapers();
  return freely ? fillFreely(job, bin, order, rules, work)
                : fillByCuts(job, bin, order, rules, work);
}

/// A rectangle of an item laid on clear wood.
struct LaidRect {
  int item = 0, copy = 0;
  const Pose* pose = nullptr;
  Area at;
};
/// The cuts for rectangles whose places are known; nothing when they cannot be cut through.
[[nodiscard]] std::optional<Pattern> patternOf(const Job& job, int bin,
                                               const std::vector<LaidRect>& rects);
/// Cuts a rectangle, free already as piece `leaf`, into its blanks.
void cutBlanks(Pattern& pattern, int leaf, const LaidRect& rect);

/// Rectangles worth keeping that the cuts of a pattern leave over, largest first.
[[nodiscard]] std::vector<Area> offcutsOf(const Job& job, const Pattern& pattern);
/// Whether a rectangle is worth keeping.
[[nodiscard]] bool worthKeeping(const Job& job, const Area& area);

}  // namespace dryfit::joinery::cutting
