#include "export/drawing/assembly_views.h"
#include "kernel/tolerance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace dryfit::exporting {
namespace {

using kernel::Box3;
using kernel::Point3;
using kernel::Vec3;
using kernel::Viewpoint;

/// A part's picture in one view: places to point at, best first, and how good a view it is.
struct Candidate {
  std::size_t view = 0;
  std::vector<Point3> at;
  double worth = -1;
};

/// Judges by the boxes round the parts what an eye can see.
class Watcher {
 public:
  explicit Watcher(const joinery::Piece& piece) {
    for (const joinery::PlacedPart& part : piece.parts) {
      boxes_.push_back(kernel::boundsOf(part.frame, part.blank()));
    }
  }

  /// The best places to point at one part in one view.
  [[nodiscard]] Candidate best(std::size_t part, std::size_t view) const {
    const Viewpoint& eye = assemblyEyes()[view];
    const Vec3 toEye = eye.right.cross(eye.up);
    const Box3& box = boxes_[part];
    const Point3 centre = box.centre();
    const double wide = std::fabs(box.size().dot(eye.right));
    const double high = std::fabs(box.size().dot(eye.up));
    const double deep = std::fabs(box.size().dot(toEye));
    std::vector<std::pair<double, Point3>> seen;
    constexpr int kGrid = 9;
    for (int i = 0; i < kGrid; ++i) {
      for (int j = 0; j < kGrid; ++j) {
        const double u = (i + 0.5) / kGrid - 0.5;
        const double v = (j + 0.5) / kGrid - 0.5;
        const Point3 at =
            centre + eye.right * (u * wide) + eye.up * (v * high) + toEye * (deep / 2);
        if (isHidden(part, at, toEye)) continue;
        // The middle is the plainest place; a little above it the leader is shorter.
        seen.emplace_back(std::hypot(u, v - 0.15), at);
      }
    }
    if (seen.empty()) return {view, {centre + toEye * (deep / 2)}, -1};
    // A large visible area is worth more than a central place; the front view is read first.
    const double area = wide * high * static_cast<double>(seen.size()) / (kGrid * kGrid);
    std::ranges::stable_sort(seen, {}, &std::pair<double, Point3>::first);
    Candidate found{view, {}, std::sqrt(area) * (view == 0 ? 1.5 : 1) / (1 + seen.front().first)};
    for (const auto& [off, at] : seen) found.at.push_back(at);
    return found;
  }

 private:
  [[nodiscard]] bool isHidden(std::size_t part, Point3 at, Vec3 toEye) const {
    for (std::size_t i = 0; i < boxes_.size(); ++i) {
      if (i == part) continue;
      const Box3& box = boxes_[i];
      bool inFront = true;
      for (int axis = 0; axis < 3; ++axis) {
        const double run = toEye[axis];
        if (std::fabs(run) < 0.5) {
          inFront = inFront && box.min[axis] < at[axis] && at[axis] < box.max[axis];
        } else {
          const double nearest = run > 0 ? box.max[axis] : -box.min[axis];
          inFront = inFront && nearest > at[axis] * run + kernel::kSnap;
        }
      }
      if (inFront) return true;
    }
    return false;
  }

  std::vector<Box3> boxes_;
};

}  // namespace

const std::array<Viewpoint, 3>& assemblyEyes() {
  static const std::array<Viewpoint, 3> kEyes{Viewpoint{{1, 0, 0}, {0, 0, 1}},
                                              Viewpoint{{1, 0, 0}, {0, 1, 0}},
                                              Viewpoint{{0, -1, 0}, {0, 0, 1}}};
  return kEyes;
}

std::vector<PartPointer> partPointers(const joinery::Piece& piece,
                                      const std::vector<joinery::PartGroup>& groups) {
  const Watcher watcher(piece);
  std::vector<PartPointer> pointers;
  for (const joinery::PartGroup& group : groups) {
    std::optional<Candidate> best;
    for (const joinery::PartId id : group.parts) {
      for (std::size_t view = 0; view < assemblyEyes().size(); ++view) {
        const Candidate here = watcher.best(id.index(), view);
        if (!best || here.worth > best->worth + kernel::kRounding) best = here;
      }
    }
    if (best) pointers.push_back({group.number, best->view, best->worth < 0, best->at});
  }
  return pointers;
}

}  // namespace dryfit::exporting
