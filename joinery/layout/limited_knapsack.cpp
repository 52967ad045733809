#include "joinery/layout/limited_knapsack.h"

#include <algorithm>
#include <array>
#include <queue>
#include <string>
#include <unordered_map>

namespace dryfit::joinery::cutting {
namespace {

constexpr double kSame = 1e-9;

/// How much more a rectangle in the near corner can become worth by cutting the rest.
///
/// Where the items make too many raster points, all sizes are rounded down to a coarse grid first:
/// whatever fits still fits, so the bound holds.
class GrowthBound {
 public:
  GrowthBound(std::span<const LimitedItem> items, Size length, Size width, int pointsMost)
      : grid_{1, 1} {
    for (int attempt = 0; attempt < 2 && !table_; ++attempt) {
      if (attempt == 1) {
        grid_ = {std::max<Size>(1, length / pointsMost), std::max<Size>(1, width / pointsMost)};
      }
      std::vector<WorthRect> rects;
      for (const LimitedItem& item : items) {
        for (const auto& [l, w] : item.poses) {
          if (l / grid_[0] < 1 || w / grid_[1] < 1) continue;
          rects.push_back({l / grid_[0], w / grid_[1], item.value});
        }
      }
      table_ = GuillotineKnapsack::solve(rects, length / grid_[0], width / grid_[1],
                                         static_cast<std::size_t>(pointsMost) + 2, false);
    }
    if (table_) fill();
  }

  [[nodiscard]] bool usable() const { return table_.has_value(); }
  [[nodiscard]] Size coarse(int side, Size size) const {
    return size / grid_[static_cast<std::size_t>(side)];
  }
  /// For a rectangle of these coarse sizes.
  [[nodiscard]] double operator()(Size length, Size width) const {
    return growth_[index(table_->x().notAbove(length), table_->y().notAbove(width))];
  }

 private:
  [[nodiscard]] std::size_t index(int i, int j) const {
    return static_cast<std::size_t>(j) * static_cast<std::size_t>(table_->x().count()) +
           static_cast<std::size_t>(i);
  }
  void fill() {
    const RasterPoints &x = table_->x(), &y = table_->y();
    const int nx = x.count(), ny = y.count();
    growth_.assign(static_cast<std::size_t>(nx) * static_cast<std::size_t>(ny), 0.0);
    for (int j = ny - 1; j >= 0; --j) {
      for (int i = nx - 1; i >= 0; --i) {
        double most = 0;
        int to = i;
        for (int k = 1; k < nx && x.at(i) + x.at(k) <= x.room(); ++k) {
          while (to + 1 < nx && x.at(to + 1) <= x.at(i) + x.at(k)) ++to;
          most = std::max(most, growth_[index(to, j)] + table_->valueAt(k, j));
        }
        to = j;
        for (int k = 1; k < ny && y.at(j) + y.at(k) <= y.room(); ++k) {
          while (to + 1 < ny && y.at(to + 1) <= y.at(j) + y.at(k)) ++to;
          most = std::max(most, growth_[index(i, to)] + table_->valueAt(i, k));
        }
        // The rest may also be left as it is, and the rectangle grow by waste.
        if (i + 1 < nx) most = std::max(most, growth_[index(i + 1, j)]);
        if (j + 1 < ny) most = std::max(most, growth_[index(i, j + 1)]);
        growth_[index(i, j)] = most;
      }
    }
  }

  std::array<Size, 2> grid_;
  std::optional<GuillotineKnapsack> table_;
  std::vector<double> growth_;
};

/// A rectangle put together from two others, or one item.
struct Built {
  std::array<Size, 2> size{}, coarse{};
  double value = 0;
  int first = -1, second = -1;  ///< -1: an item
  int side = 0;                 ///< 0: one behind the other along x, 1: across
  int item = 0, pose = 0;
  std::array<int, 2> turns{};  ///< still needed after a cut across, after one along
  std::string copies;          ///< of every item
};

class Search {
 public:
  Search(std::span<const LimitedItem> items, Size length, Size width, const LimitedSearch& search)
      : items_(items),
        room_{length, width},
        search_(search),
        bound_(items, length, width, search.boundPointsMost) {
    best_.value = search.valueAbove;
  }

  LimitedPattern run() {
    LimitedPattern answer;
    if (!bound_.usable()) return answer;
    addItems();
    bool exact = true;
    while (!open_.empty()) {
      const auto [most, number] = open_.top();
      if (most <= best_.value + kSame) break;
      if (static_cast<int>(built_.size()) > search_.piecesMost) {
        exact = false;
        break;
      }
      open_.pop();
      closed_.push_back(-number);
      for (const int other : closed_) {
        join(-number, other, 0);
        join(-number, other, 1);
      }
    }
    answer.exact = exact;
    if (best_.built < 0) return answer;
    answer.value = best_.value;
    place(best_.built, 0, 0, answer.rects);
    return answer;
  }

 private:
  void addItems() {
    for (std::size_t i = 0; i < items_.size(); ++i) {
      if (items_[i].value <= 0 || items_[i].copies <= 0) continue;
      for (std::size_t p = 0; p < items_[i].poses.size(); ++p) {
        const auto [l, w] = items_[i].poses[p];
        if (l > room_[0] || w > room_[1]) continue;
        Built piece;
        piece.size = {l, w};
        piece.coarse = {bound_.coarse(0, l), bound_.coarse(1, w)};
        piece.value = items_[i].value;
        piece.item = static_cast<int>(i);
        piece.pose = static_cast<int>(p);
        piece.copies.assign(items_.size(), 0);
        piece.copies[i] = 1;
        keep(std::move(piece));
      }
    }
  }

  void join(int a, int b, int side) {
    const Built &one = built_[static_cast<std::size_t>(a)],
                &two = built_[static_cast<std::size_t>(b)];
    const auto along = static_cast<std::size_t>(side), across = 1 - along;
    Built piece;
    piece.size[along] = one.size[along] + two.size[along];
    if (piece.size[along] > room_[along]) return;
    piece.size[across] = std::max(one.size[across], two.size[across]);
    piece.value = one.value + two.value;
    piece.coarse[along] = one.coarse[along] + two.coarse[along];
    piece.coarse[across] = std::max(one.coarse[across], two.coarse[across]);
    if (piece.value + bound_(piece.coarse[0], piece.coarse[1]) <= best_.value + kSame) return;
    piece.copies = one.copies;
    for (std::size_t i = 0; i < items_.size(); ++i) {
      const int sum = one.copies[i] + two.copies[i];
      if (sum > std::min(items_[i].copies, 120)) return;
      piece.copies[i] = static_cast<char>(sum);
    }
    const auto need = [&](const Built& part) {
      return part.size[across] < piece.size[across] ? 1 + part.turns[across] : part.turns[along];
    };
    piece.turns[along] = std::max(need(one), need(two));
    piece.turns[across] = piece.turns[along] + 1;
    if (search_.turnsMost > 0 && turnsOnTheSheet(piece) > search_.turnsMost) return;
    piece.first = a;
    piece.second = b;
    piece.side = side;
    keep(std::move(piece));
  }

  /// With the cuts that free the piece from the rest of the sheet.
  [[nodiscard]] int turnsOnTheSheet(const Built& piece) const {
    const bool cutAcross = piece.size[0] < room_[0], cutAlong = piece.size[1] < room_[1];
    if (cutAcross && cutAlong) return 1 + std::min(piece.turns[0], piece.turns[1]);
    if (cutAcross) return piece.turns[0];
    return cutAlong ? piece.turns[1] : std::min(piece.turns[0], piece.turns[1]);
  }

  void keep(Built piece) {
    std::vector<int>& same = byCopies_[piece.copies];
    for (const int i : same) {
      const Built& other = built_[static_cast<std::size_t>(i)];
      if (other.size[0] <= piece.size[0] && other.size[1] <= piece.size[1] &&
          other.turns[0] <= piece.turns[0] && other.turns[1] <= piece.turns[1]) {
        return;
      }
    }
    const int number = static_cast<int>(built_.size());
    same.push_back(number);
    if (piece.value > best_.value + kSame &&
        (search_.turnsMost == 0 || turnsOnTheSheet(piece) <= search_.turnsMost)) {
      best_ = {piece.value, number};
    }
    open_.emplace(piece.value + bound_(piece.coarse[0], piece.coarse[1]), -number);
    built_.push_back(std::move(piece));
  }

  void place(int number, Size x, Size y, std::vector<LimitedRect>& rects) const {
    const Built& piece = built_[static_cast<std::size_t>(number)];
    if (piece.first < 0) {
      rects.push_back({piece.item, piece.pose, {x, y, piece.size[0], piece.size[1]}});
      return;
    }
    const Size step =
        built_[static_cast<std::size_t>(piece.first)].size[static_cast<std::size_t>(piece.side)];
    place(piece.first, x, y, rects);
    place(piece.second, x + (piece.side == 0 ? step : 0), y + (piece.side == 1 ? step : 0), rects);
  }

  struct Best {
    double value = 0;
    int built = -1;
  };

  std::span<const LimitedItem> items_;
  std::array<Size, 2> room_;
  LimitedSearch search_;
  GrowthBound bound_;
  std::vector<Built> built_;
  std::vector<int> closed_;
  std::priority_queue<std::pair<double, int>> open_;            ///< bound, then earliest first
  std::unordered_map<std::string, std::vector<int>> byCopies_;  ///< never walked through in order
  Best best_;
};

}  // namespace

LimitedPattern limitedKnapsack(std::span<const LimitedItem> items, Size length, Size width,
                               const LimitedSearch& search) {
  return Search(items, length, width, search).run();
}

}  // namespace dryfit::joinery::cutting
