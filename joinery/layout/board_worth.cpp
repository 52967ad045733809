#include "joinery/layout/board_worth.h"

#include <algorithm>

#include "joinery/layout/bar_knapsack.h"

namespace dryfit::joinery::cutting {
namespace {

constexpr std::size_t kPointsMost = 240;  // a side
constexpr std::size_t kStatesMost = 4'000;
constexpr Size kTaperSlices = 40;  // at least; more make little difference

/// A table of what rectangles up to a room are worth; rounded to a grid where there are too many
/// sizes: what fits still fits.
struct WorthOfRooms {
  Size gridX = 1, gridY = 1;
  std::optional<GuillotineKnapsack> table;

  WorthOfRooms(std::vector<WorthRect> rects, Size length, Size width, bool reduced) {
    table = GuillotineKnapsack::solve(rects, length, width, kPointsMost, reduced);
    if (table) return;
    gridX = std::max<Size>(1, length / static_cast<Size>(kPointsMost - 2));
    gridY = std::max<Size>(1, width / static_cast<Size>(kPointsMost - 2));
    for (WorthRect& rect : rects) {
      rect.length = std::max<Size>(1, rect.length / gridX);
      rect.width = std::max<Size>(1, rect.width / gridY);
    }
    table = GuillotineKnapsack::solve(rects, length / gridX, width / gridY, kPointsMost, reduced);
  }
};

constexpr double kSafe = 1 + 1e-12;

}  // namespace

BoardWorth::BoardWorth(const Job& job, const std::vector<int>& counts)
    : job_(job), counts_(counts), kerf_(job.kerf()) {
  addRects(job);
  for (const Bin& bin : job.bins) boards_.push_back(stretchesOf(bin.wood));
}

void BoardWorth::addRects(const Job& job) {
  const auto grain = static_cast<std::size_t>(Grain::length);
  Size length = 0, width = 0;
  for (std::size_t i = 0; i < job.items.size(); ++i) {
    if (counts_[i] <= 0) continue;
    for (const auto& part : job.items[i].parts) {
      for (const Pose& pose : part[grain]) {
        double area = 0;
        for (const PoseMember& member : pose.members) area += member.at.area();
        rects_.push_back({static_cast<int>(i), area / job.items[i].area, pose.length + kerf_,
                          pose.width + kerf_});
        length = length == 0 ? pose.length : std::min(length, pose.length);
        width = width == 0 ? pose.width : std::min(width, pose.width);
      }
    }
  }
  leastLength_ = std::max<Size>(1, length);
  leastWidth_ = std::max<Size>(1, width);
}

/// Slices reach a kerf further than the wood, as a part takes up its length and a kerf. What lies
/// across a slice lies on the wood somewhere from a kerf before it.
std::vector<BoardWorth::Stretch> BoardWorth::stretchesOf(const ClearWood& wood) const {
  if (wood.none()) return {};
  const Size from = wood.usable().x, to = wood.usable().farX() + kerf_;
  std::vector<Size> bounds{from, to};
  for (const Size x : wood.turningPoints()) {
    bounds.push_back(x);
    bounds.push_back(x + kerf_);
  }
  for (Size n = 1; wood.tapers() && n < kTaperSlices; ++n) {
    bounds.push_back(from + (to - from) * n / kTaperSlices);
  }
  std::sort(bounds.begin(), bounds.end());
  std::vector<Stretch> stretches;
  Size low = 0, high = 0;
  bool goesOn = false;
  for (std::size_t n = 0; n + 1 < bounds.size(); ++n) {
    const Size a = std::max(bounds[n], from), b = std::min(bounds[n + 1], to);
    if (b <= a) continue;
    Slice slice{b - a, {}};
    for (const auto& [y0, y1] : wood.open(a - kerf_, b)) {
      if (y1 - y0 < leastWidth_) continue;
      if (!goesOn) {
        stretches.emplace_back();
        low = y0;
        high = y1;
        goesOn = true;
      }
      low = std::min(low, y0);
      high = std::max(high, y1);
      slice.rooms.push_back(y1 - y0 + kerf_);
    }
    goesOn = !slice.rooms.empty();
    if (!goesOn) continue;
    Stretch& stretch = stretches.back();
    stretch.length += slice.length;
    stretch.width = high - low + kerf_;
    stretch.slices.push_back(std::move(slice));
  }
  const auto tooShort = [&](const Stretch& s) { return s.length < leastLength_; };
  stretches.erase(std::remove_if(stretches.begin(), stretches.end(), tooShort), stretches.end());
  return stretches;
}

std::vector<const BoardWorth::Rect*> BoardWorth::wanted(int bin,
                                                        const std::vector<double>& prices) const {
  std::vector<const Rect*> wanted;
  for (const Rect& rect : rects_) {
    if (prices[static_cast<std::size_t>(rect.item)] <= 0) continue;
    if (bin < 0 || suits(rect.item, bin)) wanted.push_back(&rect);
  }
  return wanted;
}

LooseCutting BoardWorth::byCuts(int bin, const std::vector<double>& prices) const {
  LooseCutting cutting{0, std::vector<double>(counts_.size(), 0.0)};
  const std::vector<const Rect*> all = wanted(bin, prices);
  for (const Stretch& stretch : boards_[static_cast<std::size_t>(bin)]) {
    std::vector<WorthRect> rects;
    std::vector<const Rect*> of;
    for (const Rect* rect : all) {
      if (rect->length > stretch.length || rect->width > stretch.width) continue;
      const double price = prices[static_cast<std::size_t>(rect->item)];
      rects.push_back({rect->length, rect->width, price * rect->share});
      of.push_back(rect);
    }
    if (rects.empty()) continue;
    const WorthOfRooms worth(rects, stretch.length, stretch.width, true);
    if (!worth.table) {
      cutting.value = 1e300;
      return cutting;
    }
    cutting.value += worth.table->value() * kSafe;
    for (const CutRect& cut : worth.table->pattern()) {
      const Rect& rect = *of[static_cast<std::size_t>(cut.item)];
      cutting.amounts[static_cast<std::size_t>(rect.item)] += rect.share;
    }
  }
  return cutting;
}

LooseCutting BoardWorth::bySlices(int bin, const std::vector<double>& prices) const {
  LooseCutting cutting{0, std::vector<double>(counts_.size(), 0.0)};
  const std::vector<const Rect*> all = wanted(bin, prices);
  for (const Stretch& stretch : boards_[static_cast<std::size_t>(bin)]) {
    std::vector<WorthLength> lengths;
    std::vector<const Rect*> of;
    for (const Rect* rect : all) {
      if (rect->length > stretch.length || rect->width > stretch.width) continue;
      const auto i = static_cast<std::size_t>(rect->item);
      lengths.push_back(
          {rect->width, prices[i] * rect->share / static_cast<double>(rect->length), counts_[i]});
      of.push_back(rect);
    }
    const BarKnapsack knapsack(lengths, stretch.width, kStatesMost);
    for (const Slice& slice : stretch.slices) {
      const auto length = static_cast<double>(slice.length);
      for (const Size room : slice.rooms) {
        cutting.value += length * knapsack.bound(room) * kSafe;
        const std::vector<int> held = knapsack.counts(room);
        for (std::size_t n = 0; n < held.size(); ++n) {
          cutting.amounts[static_cast<std::size_t>(of[n]->item)] +=
              held[n] * of[n]->share * length / static_cast<double>(of[n]->length);
        }
      }
    }
  }
  return cutting;
}

std::vector<double> BoardWorth::allByCuts(const std::vector<double>& prices) const {
  std::vector<WorthRect> rects;
  for (const Rect* rect : wanted(-1, prices)) {
    const double price = prices[static_cast<std::size_t>(rect->item)];
    rects.push_back({rect->length, rect->width, price * rect->share});
  }
  std::vector<double> values(boards_.size(), 0.0);
  if (rects.empty()) return values;
  Size length = 1, width = 1;
  for (const auto& board : boards_) {
    for (const Stretch& stretch : board) {
      length = std::max(length, stretch.length);
      width = std::max(width, stretch.width);
    }
  }
  const WorthOfRooms worth(rects, length, width, false);
  for (std::size_t b = 0; b < boards_.size(); ++b) {
    for (const Stretch& stretch : boards_[b]) {
      values[b] += worth.table ? worth.table->value(stretch.length / worth.gridX,
                                                    stretch.width / worth.gridY) *
                                     kSafe
                               : 1e300;
    }
  }
  return values;
}

std::vector<double> BoardWorth::allBySlices(const std::vector<double>& prices) const {
  std::vector<WorthLength> lengths;
  Size width = 1;
  for (const auto& board : boards_) {
    for (const Stretch& stretch : board) width = std::max(width, stretch.width);
  }
  for (const Rect* rect : wanted(-1, prices)) {
    const auto i = static_cast<std::size_t>(rect->item);
    lengths.push_back(
        {rect->width, prices[i] * rect->share / static_cast<double>(rect->length), counts_[i]});
  }
  const BarKnapsack knapsack(lengths, width, kStatesMost);
  std::vector<double> values(boards_.size(), 0.0);
  for (std::size_t b = 0; b < boards_.size(); ++b) {
    for (const Stretch& stretch : boards_[b]) {
      for (const Slice& slice : stretch.slices) {
        for (const Size room : slice.rooms) {
          values[b] += static_cast<double>(slice.length) * knapsack.bound(room) * kSafe;
        }
      }
    }
  }
  return values;
}

}  // namespace dryfit::joinery::cutting
