#include "kernel/src/intervals.h"

#include <algorithm>

namespace dryfit::kernel {

std::vector<Interval> united(std::vector<Interval> pieces, double gap) {
  std::sort(pieces.begin(), pieces.end(), [](const Interval& a, const Interval& b) {
    return a.from != b.from ? a.from < b.from : a.to < b.to;
  });
  std::vector<Interval> result;
  for (const Interval& piece : pieces) {
    if (!result.empty() && piece.from <= result.back().to + gap) {
      result.back().to = std::max(result.back().to, piece.to);
    } else {
      result.push_back(piece);
    }
  }
  return result;
}

std::vector<Interval> uncovered(const std::vector<Interval>& pieces,
                                const std::vector<Interval>& cover, double gap) {
  std::vector<Interval> result;
  const auto keep = [&](double from, double to) {
    if (to - from > gap) result.push_back({from, to});
  };
  for (const Interval& piece : pieces) {
    double from = piece.from;
    for (const Interval& c : cover) {
      if (c.to <= from) continue;
      if (c.from >= piece.to) break;
      keep(from, c.from);
      from = c.to;
    }
    keep(from, piece.to);
  }
  return result;
}

}  // namespace dryfit::kernel
