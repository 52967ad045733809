#include <algorithm>
#include <limits>
#include <optional>

#include "joinery/layout/pattern.h"

namespace dryfit::joinery::cutting {
namespace {

/// Lays parts anyhow on a sheet: the free space is kept as all the largest rectangles that fit in
/// it, which may overlap. (Maximal rectangles; J. Jylanki, "A thousand ways to pack the bin",
/// 2010.) Every part takes its kerf behind it along both sides.
class Nester {
 public:
  Nester(const Job& job, int bin, FillRules rules, std::int64_t& work)
      : job_(job),
        bin_(job.bins[static_cast<std::size_t>(bin)]),
        rules_(rules),
        work_(work),
        kerf_(job.kerf()),
        grain_(static_cast<std::size_t>(bin_.grain)) {
    pattern_.bin = bin;
    Area room = bin_.wood.usable();
    room.length += kerf_;
    room.width += kerf_;
    free_ = {room};
    for (const Area& defect : bin_.wood.defects()) take(defect);
  }

  Pattern run(const std::vector<int>& order) {
    const auto placeOne = [this](int item, int copy) { return place(item, copy); };
    placeInOrder(job_, order, pattern_, placeOne, [] { return false; });
    keepRests();
    return std::move(pattern_);
  }

 private:
  /// Takes a rectangle out of the free space.
  void take(const Area& taken) {
    std::vector<Area> next;
    for (const Area& f : free_) {
      if (taken.x >= f.farX() || taken.farX() <= f.x || taken.y >= f.farY() ||
          taken.farY() <= f.y) {
        next.push_back(f);
        continue;
      }
      if (taken.x > f.x) next.push_back({f.x, f.y, taken.x - f.x, f.width});
      if (taken.farX() < f.farX()) {
        next.push_back({taken.farX(), f.y, f.farX() - taken.farX(), f.width});
      }
      if (taken.y > f.y) next.push_back({f.x, f.y, f.length, taken.y - f.y});
      if (taken.farY() < f.farY()) {
        next.push_back({f.x, taken.farY(), f.length, f.farY() - taken.farY()});
      }
    }
    free_.clear();
    for (std::size_t i = 0; i < next.size(); ++i) {
      bool within = false;
      for (std::size_t j = 0; j < next.size() && !within; ++j) {
        if (i == j) continue;
        const Area &a = next[i], &b = next[j];
        within = a.x >= b.x && a.y >= b.y && a.farX() <= b.farX() && a.farY() <= b.farY() &&
                 (!(a == b) || j < i);
      }
      if (!within) free_.push_back(next[i]);
    }
    work_ += static_cast<std::int64_t>(next.size());
  }

  bool place(int item, int copy) {
    const Pose* best = nullptr;
    Area at;
    double least = std::numeric_limits<double>::max();
    for (const Pose& pose : job_.items[static_cast<std::size_t>(item)].parts[0][grain_]) {
      const Size length = pose.length + kerf_, width = pose.width + kerf_;
      for (const Area& f : free_) {
        ++work_;
        if (length > f.length || width > f.width) continue;
        const double value = score(f, length, width);
        if (value >= least) continue;
        least = value;
        best = &pose;
        at = {f.x, f.y, length, width};
      }
    }
    if (best == nullptr) return false;
    for (const PoseMember& member : best->members) {
      Area area = member.at;
      area.x += at.x;
      area.y += at.y;
      pattern_.members.push_back({item, copy, member.slot, area, member.turned});
    }
    take(at);
    return true;
  }

  [[nodiscard]] double score(const Area& f, Size length, Size width) const {
    const auto restX = static_cast<double>(f.length - length);
    const auto restY = static_cast<double>(f.width - width);
    switch (rules_.choice) {
      case FillRules::Choice::smallestPiece:
        return f.area();
      case FillRules::Choice::tightestSide:
        return std::min(restX, restY) * 1e6 + std::max(restX, restY);
      case FillRules::Choice::nearEnd:
        return rules_.split == FillRules::Split::alongFirst
                   ? static_cast<double>(f.y) * 1e8 + static_cast<double>(f.x)
                   : static_cast<double>(f.x) * 1e8 + static_cast<double>(f.y);
    }
    return 0;
  }

  /// What one straight cut behind all parts leaves over, on the better side.
  void keepRests() {
    const Area& room = bin_.wood.usable();
    Size farX = room.x - kerf_, farY = room.y - kerf_;
    for (const PlacedMember& member : pattern_.members) {
      farX = std::max(farX, member.at.farX());
      farY = std::max(farY, member.at.farY());
    }
    for (const Area& defect : bin_.wood.defects()) {
      farX = std::max(farX, defect.farX());
      farY = std::max(farY, defect.farY());
    }
    const Area right{farX + kerf_, room.y, room.farX() - farX - kerf_, room.width};
    const Area above{room.x, farY + kerf_, room.length, room.farY() - farY - kerf_};
    const bool keepRight = worthKeeping(job_, right), keepAbove = worthKeeping(job_, above);
    if (keepRight && (!keepAbove || right.area() >= above.area())) {
      pattern_.offcuts.push_back(right);
    } else if (keepAbove) {
      pattern_.offcuts.push_back(above);
    }
  }

  const Job& job_;
  const Bin& bin_;
  FillRules rules_;
  std::int64_t& work_;
  Size kerf_;
  std::size_t grain_;
  std::vector<Area> free_;
  Pattern pattern_;
};

}  // namespace

Pattern fillFreely(const Job& job, int bin, const std::vector<int>& order, FillRules rules,
                   std::int64_t& work) {
  return Nester(job, bin, rules, work).run(order);
}

}  // namespace dryfit::joinery::cutting
