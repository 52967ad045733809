#include <algorithm>
#include <limits>
#include <optional>
#include <utility>

#include "joinery/layout/pattern.h"

namespace dryfit::joinery::cutting {
namespace {

constexpr int kHalvings = 20;

/// Cuts items out of the pieces of one board or sheet, one after the other.
class Filler {
 public:
  Filler(const Job& job, int bin, FillRules rules, std::int64_t& work)
      : job_(job),
        bin_(job.bins[static_cast<std::size_t>(bin)]),
        wood_(bin_.wood),
        rules_(rules),
        work_(work),
        grain_(static_cast<std::size_t>(bin_.grain)) {
    pattern_.bin = bin;
    pattern_.tree = CutTree(wood_.whole(), job.kerf());
    open_ = {pattern_.tree.cutOut(0, wood_.usable(), false)};
    pattern_.tree.beginAt(open_[0]);
    leastSide_ = std::numeric_limits<Size>::max();
    for (const Item& item : job.items) {
      for (const auto& part : item.parts) {
        for (const Pose& pose : part[grain_]) {
          leastSide_ = std::min({leastSide_, pose.length, pose.width});
        }
      }
    }
  }

  Pattern run(const std::vector<int>& order) {
    const auto placeOne = [this](int item, int copy) { return place(item, copy); };
    placeInOrder(job_, order, pattern_, placeOne, [this] { return open_.empty(); });
    return std::move(pattern_);
  }

 private:
  struct Spot {
    std::size_t open = 0;
    const Pose* pose = nullptr;
    Area at;
    double score = 0;
  };

  /// All rectangles of the item or none.
  bool place(int item, int copy) {
    const auto& parts = job_.items[static_cast<std::size_t>(item)].parts;
    // A single rectangle that finds no place has changed nothing.
    if (parts.size() == 1) return placePart(item, copy, parts.front()[grain_]);
    Pattern before = pattern_;
    std::vector<int> openBefore = open_;
    for (const auto& part : parts) {
      if (placePart(item, copy, part[grain_])) continue;
      pattern_ = std::move(before);
      open_ = std::move(openBefore);
      return false;
    }
    return true;
  }

  bool placePart(int item, int copy, const std::vector<Pose>& poses) {
    std::vector<Spot> spots;
    for (std::size_t o = 0; o < open_.size(); ++o) {
      const Area& piece = pattern_.tree.node(open_[o]).area;
      for (const Pose& pose : poses) {
        ++work_;
        if (pose.length > piece.length || pose.width > piece.width) continue;
        const std::optional<Area> at = spotIn(piece, pose.length, pose.width);
        if (!at) continue;
        spots.push_back({o, &pose, *at, score(piece, *at)});
      }
    }
    const auto better = [](const Spot& a, const Spot& b) { return a.score < b.score; };
    if (job_.turnsMost() <= 0) {
      const auto best = std::min_element(spots.begin(), spots.end(), better);
      return best != spots.end() && cut(*best, item, copy);
    }
    std::stable_sort(spots.begin(), spots.end(), better);
    return std::any_of(spots.begin(), spots.end(),
                       [&](const Spot& spot) { return cut(spot, item, copy); });
  }

  [[nodiscard]] double score(const Area& piece, const Area& at) const {
    const auto restX = static_cast<double>(piece.length - at.length);
    const auto restY = static_cast<double>(piece.width - at.width);
    switch (rules_.choice) {
      case FillRules::Choice::smallestPiece:
        return piece.area();
      case FillRules::Choice::tightestSide:
        return std::min(restX, restY) * 1e6 + std::max(restX, restY);
      case FillRules::Choice::nearEnd:
        return static_cast<double>(at.x) * 1e8 + static_cast<double>(at.y);
    }
    return 0;
  }

  /// The first clear place in a piece, from its near end.
  std::optional<Area> spotIn(const Area& piece, Size length, Size width) {
    if (wood_.plain()) return Area{piece.x, piece.y, length, width};
    const Size last = piece.farX() - length;
    std::vector<Size> tries{piece.x};
    for (const Size step : wood_.steps()) {
      if (step > piece.x && step < last) tries.push_back(step);
    }
    if (last > piece.x) tries.push_back(last);
    Size before = piece.x;
    for (const Size x : tries) {
      std::optional<Area> at = spotAt(piece, x, length, width);
      if (at && x > before && wood_.tapers()) {
        // Clear somewhere since the last try: as near as can be.
        Size no = before, yes = x;
        for (int i = 0; i < kHalvings && yes - no > 100; ++i) {
          const Size middle = no + (yes - no) / 2;
          const std::optional<Area> nearer = spotAt(piece, middle, length, width);
          if (nearer) at = nearer;
          (nearer ? yes : no) = middle;
        }
      }
      if (at) return at;
      before = x;
    }
    return std::nullopt;
  }

  std::optional<Area> spotAt(const Area& piece, Size x, Size length, Size width) {
    work_ += 6;
    for (const auto& [low, high] : wood_.clear(x, x + length)) {
      const Size y = std::max(low, piece.y);
      if (y + width <= std::min(high, piece.farY())) return Area{x, y, length, width};
    }
    return std::nullopt;
  }

  bool acrossFirst(const Area& piece, const Area& at) const {
    const double restX = static_cast<double>(piece.farX() - at.farX());
    const double restY = static_cast<double>(piece.farY() - at.farY());
    const auto length = static_cast<double>(piece.length), width = static_cast<double>(piece.width);
    const double largestAcross = std::max(restX * width, restY * static_cast<double>(at.length));
    const double largestAlong = std::max(restX * static_cast<double>(at.width), restY * length);
    switch (rules_.split) {
      case FillRules::Split::acrossFirst:
        return true;
      case FillRules::Split::alongFirst:
        return false;
      case FillRules::Split::largestRest:
        return largestAcross >= largestAlong;
      case FillRules::Split::evenRests:
        return largestAcross < largestAlong;
    }
    return true;
  }

  /// Cuts the item out; false when that takes too many turns.
  bool cut(const Spot& spot, int item, int copy) {
    const int piece = open_[spot.open];
    const bool across = acrossFirst(pattern_.tree.node(piece).area, spot.at);
    const int limit = job_.turnsMost();
    if (limit <= 0) {
      cutOne(spot, piece, across, item, copy);
      return true;
    }
    for (const bool first : {across, !across}) {
      const std::size_t members = pattern_.members.size();
      const CutTree before = pattern_.tree;
      const std::vector<int> openBefore = open_;
      cutOne(spot, piece, first, item, copy);
      if (pattern_.tree.turns() <= limit) return true;
      pattern_.tree = before;
      pattern_.members.resize(members);
      open_ = openBefore;
    }
    return false;
  }

  void cutOne(const Spot& spot, int piece, bool across, int item, int copy) {
    CutTree& tree = pattern_.tree;
    const std::size_t before = tree.nodes().size();
    open_.erase(open_.begin() + static_cast<std::ptrdiff_t>(spot.open));
    cutBlanks(pattern_, tree.cutOut(piece, spot.at, across), {item, copy, spot.pose, spot.at});
    for (std::size_t n = before; n < tree.nodes().size(); ++n) {
      const CutNode& node = tree.nodes()[n];
      if (!node.whole() || node.use >= 0) continue;
      if (std::min(node.area.length, node.area.width) >= leastSide_) {
        open_.push_back(static_cast<int>(n));
      }
    }
  }

  const Job& job_;
  const Bin& bin_;
  const ClearWood& wood_;
  FillRules rules_;
  std::int64_t& work_;
  std::size_t grain_;
  Size leastSide_ = 0;
  Pattern pattern_;
  std::vector<int> open_;
};

}  // namespace

Pattern fillByCuts(const Job& job, int bin, const std::vector<int>& order, FillRules rules,
                   std::int64_t& work) {
  return Filler(job, bin, rules, work).run(order);
}

}  // namespace dryfit::joinery::cutting
