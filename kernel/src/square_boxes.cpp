#include <algorithm>
#include <bit>

#include "kernel/src/square_parts.h"

namespace dryfit::kernel {
namespace {

using Word = CellGrid::Word;

/// The wood of a grid as few boxes that share none: each grows from its first cell as far as it can
/// along x, then y, then z.
class Splitter {
 public:
  Splitter(const CellGrid& grid, SquareWork& work) : left_(grid), work_(work) {}

  void run() {
    const auto& cells = left_.cells();
    work_.boxes.reserve(32);
    for (int z = 0; z < cells[2]; ++z) {
      for (int y = 0; y < cells[1]; ++y) {
        for (int w = 0; w < left_.words(); ++w) {
          while (const Word word = left_.row(y, z)[w]) take(64 * w + std::countr_zero(word), y, z);
        }
      }
    }
    std::sort(work_.boxes.begin(), work_.boxes.end(),
              [](const Box3& a, const Box3& b) { return a.min.x < b.min.x; });
  }

 private:
  /// Bits `from` to `to` of a row are wood.
  [[nodiscard]] bool full(int from, int to, int y, int z) const {
    const Word* row = left_.row(y, z);
    for (int w = from / 64; w <= (to - 1) / 64; ++w) {
      const Word wanted = CellGrid::mask(from, to, w);
      if ((row[w] & wanted) != wanted) return false;
    }
    return true;
  }

  [[nodiscard]] bool fullRows(int from, int to, int y, int yEnd, int z) const {
    while (y < yEnd && full(from, to, y, z)) ++y;
    return y == yEnd;
  }

  /// The first bit after `from` that is not wood. The rim of air ends every run.
  [[nodiscard]] int runEnd(int from, int y, int z) const {
    const Word* row = left_.row(y, z);
    int w = from / 64;
    Word air = ~row[w] & ~((Word{1} << (from % 64)) - 1);
    while (air == 0) air = ~row[++w];
    return 64 * w + std::countr_zero(air);
  }

  void take(int from, int y, int z) {
    const int to = runEnd(from, y, z);
    int yEnd = y + 1;
    while (full(from, to, yEnd, z)) ++yEnd;
    int zEnd = z + 1;
    while (fullRows(from, to, y, yEnd, zEnd)) ++zEnd;
    left_.paint({from - 1, y, z}, {to - 1, yEnd, zEnd}, false);
    const auto& [xs, ys, zs] = work_.coordinates;
    work_.boxes.push_back({{xs[from - 1], ys[y], zs[z]}, {xs[to - 1], ys[yEnd], zs[zEnd]}});
  }

  CellGrid left_;
  SquareWork& work_;
};

}  // namespace

void measureBoxes(const CellGrid& grid, SquareWork& work) {
  Splitter(grid, work).run();
  work.bounds = work.boxes.front();
  for (const Box3& box : work.boxes) work.bounds = work.bounds.united(box);
  // Moments from a point of the part, so that a part far from the origin loses no digits.
  const Point3 from = work.bounds.min;
  Vec3 moment;
  for (const Box3& box : work.boxes) {
    const double volume = box.volume();
    work.volume += volume;
    moment = moment + (box.centre() - from) * volume;
  }
  work.centroid = from + moment * (1 / work.volume);
}

}  // namespace dryfit::kernel
