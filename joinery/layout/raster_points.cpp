#include "joinery/layout/raster_points.h"

#include <algorithm>

namespace dryfit::joinery::cutting {
namespace {

/// `old` and all its members with any number of `size` added, in rising order.
std::vector<Size> withAnyNumberOf(Size size, const std::vector<Size>& old, Size room,
                                  std::size_t most) {
  std::vector<Size> sums;
  std::size_t fromOld = 0, fromSums = 0;
  while (sums.size() <= most) {
    const Size plain = fromOld < old.size() ? old[fromOld] : room + 1;
    const Size added = fromSums < sums.size() ? sums[fromSums] + size : room + 1;
    const Size next = std::min(plain, added);
    if (next > room) break;
    if (plain == next) ++fromOld;
    if (added == next) ++fromSums;
    sums.push_back(next);
  }
  return sums;
}

}  // namespace

std::optional<RasterPoints> RasterPoints::sums(std::span<const Size> sizes, Size room,
                                               std::size_t most) {
  RasterPoints raster;
  raster.room_ = std::max<Size>(room, 0);
  for (const Size size : sizes) {
    if (size > raster.room_) continue;
    raster.points_ = withAnyNumberOf(size, raster.points_, raster.room_, most);
    if (raster.points_.size() > most) return std::nullopt;
  }
  return raster;
}

RasterPoints RasterPoints::reduced() const {
  RasterPoints fewer;
  fewer.room_ = room_;
  fewer.points_.clear();
  for (auto far = points_.rbegin(); far != points_.rend(); ++far) {
    const Size point = at(notAbove(room_ - *far));
    if (fewer.points_.empty() || fewer.points_.back() != point) fewer.points_.push_back(point);
  }
  if (fewer.points_.front() != 0) fewer.points_.insert(fewer.points_.begin(), 0);
  return fewer;
}

int RasterPoints::notAbove(Size size) const {
  return static_cast<int>(std::upper_bound(points_.begin(), points_.end(), size) -
                          points_.begin()) -
         1;
}

int RasterPoints::notBelow(Size size) const {
  return static_cast<int>(std::lower_bound(points_.begin(), points_.end(), size) - points_.begin());
}

}  // namespace dryfit::joinery::cutting
