#include "joinery/layout/pattern.h"

#include <algorithm>

namespace dryfit::joinery::cutting {
namespace {

/// Finds the cuts between rectangles that lie apart by at least a kerf.
class Parter {
 public:
  Parter(Pattern& pattern, Size kerf) : pattern_(pattern), kerf_(kerf) {}

  bool part(int node, std::vector<LaidRect> rects) {
    if (rects.empty()) return true;
    if (rects.size() == 1) {
      cutBlanks(pattern_,
                pattern_.tree.cutOut(node, rects[0].at, rects[0].at.length < rects[0].at.width),
                rects[0]);
      return true;
    }
    for (const bool across : {true, false}) {
      std::vector<LaidRect> near, far;
      const std::optional<Size> at = gap(rects, across);
      if (!at) continue;
      for (const LaidRect& rect : rects) {
        (end(rect, across) <= *at ? near : far).push_back(rect);
      }
      const int first = pattern_.tree.split(node, across, *at);
      return part(first, std::move(near)) && part(first + 1, std::move(far));
    }
    return false;
  }

 private:
  static Size start(const LaidRect& rect, bool across) { return across ? rect.at.x : rect.at.y; }
  static Size end(const LaidRect& rect, bool across) {
    return across ? rect.at.farX() : rect.at.farY();
  }
  /// The first place where a cut hits none of them.
  [[nodiscard]] std::optional<Size> gap(std::vector<LaidRect>& rects, bool across) const {
    std::stable_sort(rects.begin(), rects.end(), [&](const LaidRect& a, const LaidRect& b) {
      return start(a, across) < start(b, across);
    });
    Size reach = end(rects[0], across);
    for (std::size_t i = 1; i < rects.size(); ++i) {
      if (start(rects[i], across) >= reach + kerf_) return reach;
      reach = std::max(reach, end(rects[i], across));
    }
    return std::nullopt;
  }

  Pattern& pattern_;
  Size kerf_;
};

}  // namespace

void cutBlanks(Pattern& pattern, int leaf, const LaidRect& rect) {
  CutTree& tree = pattern.tree;
  const auto& members = rect.pose->members;
  const bool along = members.size() > 1 && members[1].at.x > 0;
  for (std::size_t m = 0; m < members.size(); ++m) {
    Area at = members[m].at;
    at.x += rect.at.x;
    at.y += rect.at.y;
    int blank = leaf;
    if (m + 1 < members.size()) {
      blank = tree.split(leaf, along, along ? at.farX() : at.farY());
      leaf = blank + 1;
    }
    blank = tree.cutOut(blank, at, along);
    tree.use(blank, static_cast<int>(pattern.members.size()));
    pattern.members.push_back({rect.item, rect.copy, members[m].slot, at, members[m].turned});
  }
}

std::optional<Pattern> patternOf(const Job& job, int bin, const std::vector<LaidRect>& rects) {
  const ClearWood& wood = job.bins[static_cast<std::size_t>(bin)].wood;
  Pattern pattern;
  pattern.bin = bin;
  pattern.tree = CutTree(wood.whole(), job.kerf());
  const int root = pattern.tree.cutOut(0, wood.usable(), false);
  pattern.tree.beginAt(root);
  std::vector<int> copies(job.items.size(), 0);
  for (const LaidRect& rect : rects) {
    int& count = copies[static_cast<std::size_t>(rect.item)];
    count = std::max(count, rect.copy + 1);
  }
  for (std::size_t i = 0; i < copies.size(); ++i) {
    if (copies[i] == 0) continue;
    pattern.counts.emplace_back(static_cast<int>(i), copies[i]);
    pattern.area += copies[i] * job.items[i].area;
  }
  if (!Parter(pattern, job.kerf()).part(root, rects)) return std::nullopt;
  return pattern;
}

bool worthKeeping(const Job& job, const Area& area) {
  // A whole board's end keeps its length along the grain; a sheet's rest may lie either way.
  Size length = area.length, width = area.width;
  if (job.sheets && width > length) std::swap(length, width);
  return length >= sizeOf(job.settings.offcutLengthLeast) &&
         width >= sizeOf(job.settings.offcutWidthLeast) && length > 0 && width > 0;
}

std::vector<Area> offcutsOf(const Job& job, const Pattern& pattern) {
  if (pattern.tree.nodes().empty()) return pattern.offcuts;
  const ClearWood& wood = job.bins[static_cast<std::size_t>(pattern.bin)].wood;
  const Area& usable = wood.usable();
  const Size least =
      sizeOf(std::min(job.settings.offcutLengthLeast, job.settings.offcutWidthLeast));
  const Size lengthLeast = job.sheets ? least : sizeOf(job.settings.offcutLengthLeast);
  const Size widthLeast = job.sheets ? least : sizeOf(job.settings.offcutWidthLeast);
  std::vector<Area> offcuts;
  for (const CutNode& node : pattern.tree.nodes()) {
    if (!node.whole() || node.use >= 0 || !worthKeeping(job, node.area)) continue;
    const bool within = node.area.x >= usable.x && node.area.farX() <= usable.farX() &&
                        node.area.y >= usable.y && node.area.farY() <= usable.farY();
    if (!within) continue;
    const Area clear =
        wood.plain() ? node.area : wood.largestClear(node.area, lengthLeast, widthLeast);
    if (worthKeeping(job, clear)) offcuts.push_back(clear);
  }
  std::stable_sort(offcuts.begin(), offcuts.end(),
                   [](const Area& a, const Area& b) { return a.area() > b.area(); });
  return offcuts;
}

}  // namespace dryfit::joinery::cutting
