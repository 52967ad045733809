#include "kernel/src/square_grid.h"

#include <algorithm>

namespace dryfit::kernel {

void CellGrid::paint(const Index3& low, const Index3& high, bool wood) {
  if (low[0] >= high[0]) return;
  const int firstWord = (low[0] + 1) / 64;
  const int lastWord = high[0] / 64;
  for (int w = firstWord; w <= lastWord; ++w) {
    const Word bits = mask(low[0] + 1, high[0] + 1, w);
    for (int z = low[2]; z < high[2]; ++z) {
      Word* at = row(low[1], z) + w;
      for (int y = low[1]; y < high[1]; ++y, at += words_) {
        *at = wood ? *at | bits : *at & ~bits;
      }
    }
  }
}

bool CellGrid::anyWood() const {
  return std::any_of(bits_.begin(), bits_.end(), [](Word w) { return w != 0; });
}

}  // namespace dryfit::kernel
