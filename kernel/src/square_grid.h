#pragma once

#include <array>
#include <bit>
#include <cstdint>
#include <vector>

namespace dryfit::kernel {

/// Which cells are wood: one bit a cell, rows along x, with a rim of air one cell wide all round so
/// that nobody need ask where the grid ends.
class CellGrid {
 public:
  using Word = std::uint64_t;
  using Index3 = std::array<int, 3>;

  /// `cells[i]` cells along axis i, all air.
  explicit CellGrid(const Index3& cells)
      : cells_(cells), words_((cells[0] + 2 + 63) / 64), rowsAcross_(cells[1] + 2) {
    // One word more, so that the word after the last can be read.
    bits_.assign(std::size_t(rowsAcross_) * std::size_t(cells[2] + 2) * std::size_t(words_) + 1, 0);
  }

  /// Words a grid of this many cells takes.
  [[nodiscard]] static double wordsFor(const Index3& cells) {
    return (double(cells[0]) / 64 + 1) * (cells[1] + 2.0) * (cells[2] + 2.0);
  }

  [[nodiscard]] const Index3& cells() const { return cells_; }
  [[nodiscard]] int words() const { return words_; }

  /// The row of cells at (y, z), each from -1 (the rim) on. Bit x + 1 of the row is cell x.
  [[nodiscard]] const Word* row(int y, int z) const { return bits_.data() + offset(y, z); }
  [[nodiscard]] Word* row(int y, int z) { return bits_.data() + offset(y, z); }

  /// Makes the cells from `low` up to, not including, `high` wood or air.
  void paint(const Index3& low, const Index3& high, bool wood);

  [[nodiscard]] bool anyWood() const;

  /// The bits `from` to `to` - 1 of word `w` of a row.
  [[nodiscard]] static Word mask(int from, int to, int w) {
    const int first = from - 64 * w;
    const int last = to - 64 * w;
    if (first >= 64 || last <= 0) return 0;
    const Word below = first <= 0 ? 0 : (Word{1} << first) - 1;
    const Word upTo = last >= 64 ? ~Word{0} : (Word{1} << last) - 1;
    return upTo & ~below;
  }

 private:
  [[nodiscard]] std::size_t offset(int y, int z) const {
    return (std::size_t(z + 1) * std::size_t(rowsAcross_) + std::size_t(y + 1)) *
           std::size_t(words_);
  }

  Index3 cells_;
  int words_;
  int rowsAcross_;
  std::vector<Word> bits_;
};

}  // namespace dryfit::kernel
