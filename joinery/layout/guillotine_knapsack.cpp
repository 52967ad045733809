#include "joinery/layout/guillotine_knapsack.h"

#include <algorithm>

namespace dryfit::joinery::cutting {
namespace {

constexpr std::size_t kPointsMost = 8000;  // so that an index fits 16 bits and the table the memory

}  // namespace

std::optional<GuillotineKnapsack> GuillotineKnapsack::solve(std::span<const WorthRect> items,
                                                            Size length, Size width,
                                                            std::size_t pointsMost, bool reduced) {
  std::vector<WorthRect> fitting;
  std::vector<Size> lengths, widths;
  for (const WorthRect& item : items) {
    fitting.push_back(item);
    if (item.length > length || item.width > width) continue;
    lengths.push_back(item.length);
    widths.push_back(item.width);
  }
  const auto distinct = [](std::vector<Size>& sizes) {
    std::sort(sizes.begin(), sizes.end(), std::greater<>());
    sizes.erase(std::unique(sizes.begin(), sizes.end()), sizes.end());
  };
  distinct(lengths);
  distinct(widths);
  pointsMost = std::min(pointsMost, kPointsMost);
  auto x = RasterPoints::sums(lengths, length, pointsMost);
  auto y = RasterPoints::sums(widths, width, pointsMost);
  if (!x || !y) return std::nullopt;
  GuillotineKnapsack table(fitting, reduced ? x->reduced() : *x, reduced ? y->reduced() : *y);
  table.fill();
  return table;
}

GuillotineKnapsack::GuillotineKnapsack(std::span<const WorthRect> items, RasterPoints x,
                                       RasterPoints y)
    : items_(items.begin(), items.end()), x_(std::move(x)), y_(std::move(y)) {
  const auto count = static_cast<std::size_t>(x_.count());
  values_.assign(count * static_cast<std::size_t>(y_.count()), 0.0);
  restOfX_.resize(count * (count + 1) / 2);
  for (int i = 0; i < x_.count(); ++i) {
    int rest = i;
    for (int k = 0; k <= i && 2 * x_.at(k) <= x_.at(i); ++k) {
      while (x_.at(rest) > x_.at(i) - x_.at(k)) --rest;
      restOfX_[static_cast<std::size_t>(i) * (static_cast<std::size_t>(i) + 1) / 2 +
               static_cast<std::size_t>(k)] = static_cast<std::uint16_t>(rest);
    }
  }
}

double* GuillotineKnapsack::row(int j) {
  return values_.data() + static_cast<std::size_t>(j) * static_cast<std::size_t>(x_.count());
}

void GuillotineKnapsack::fill() {
  for (const WorthRect& item : items_) {
    const int i = x_.notBelow(item.length), j = y_.notBelow(item.width);
    if (i < x_.count() && j < y_.count()) row(j)[i] = std::max(row(j)[i], item.value);
  }
  for (int j = 0; j < y_.count(); ++j) {
    ripRow(j);
    crossCutRow(j);
  }
}

/// Rips all pieces of one width at once.
void GuillotineKnapsack::ripRow(int j) {
  double* const best = row(j);
  const int count = x_.count();
  if (j > 0) {
    const double* const narrower = row(j - 1);
    for (int i = 0; i < count; ++i) best[i] = std::max(best[i], narrower[i]);
  }
  int rest = j;
  for (int k = 1; k < j && 2 * y_.at(k) <= y_.at(j); ++k) {
    while (y_.at(rest) > y_.at(j) - y_.at(k)) --rest;
    const double *const near = row(k), *const far = row(rest);
    for (int i = 0; i < count; ++i) {
      const double both = near[i] + far[i];
      best[i] = both > best[i] ? both : best[i];
    }
  }
}

void GuillotineKnapsack::crossCutRow(int j) {
  double* const best = row(j);
  for (int i = 1; i < x_.count(); ++i) {
    double most = std::max(best[i], best[i - 1]);
    const std::uint16_t* const rest =
        restOfX_.data() + static_cast<std::size_t>(i) * (static_cast<std::size_t>(i) + 1) / 2;
    const int half = std::min(i - 1, x_.notAbove(x_.at(i) / 2));
    for (int k = 1; k <= half; ++k) most = std::max(most, best[k] + best[rest[k]]);
    best[i] = most;
  }
}

double GuillotineKnapsack::value() const {
  return values_.empty() ? 0 : values_.back();
}

double GuillotineKnapsack::value(Size length, Size width) const {
  if (length < 0 || width < 0) return 0;
  return valueAt(x_.notAbove(length), y_.notAbove(width));
}

std::vector<CutRect> GuillotineKnapsack::pattern() const {
  std::vector<CutRect> cut;
  trace(x_.count() - 1, y_.count() - 1, 0, 0, cut);
  return cut;
}

/// Finds again how the value of a piece came about.
void GuillotineKnapsack::trace(int i, int j, Size atX, Size atY, std::vector<CutRect>& cut) const {
  const double value = valueAt(i, j);
  if (value <= 0) return;
  while (i > 0 && valueAt(i - 1, j) == value) --i;
  while (j > 0 && valueAt(i, j - 1) == value) --j;
  for (std::size_t k = 0; k < items_.size(); ++k) {
    const WorthRect& item = items_[k];
    if (item.value == value && item.length <= x_.at(i) && item.width <= y_.at(j)) {
      cut.push_back({static_cast<int>(k), {atX, atY, item.length, item.width}});
      return;
    }
  }
  for (int k = 1; k < i && 2 * x_.at(k) <= x_.at(i); ++k) {
    const int rest = x_.notAbove(x_.at(i) - x_.at(k));
    if (valueAt(k, j) + valueAt(rest, j) != value) continue;
    trace(k, j, atX, atY, cut);
    trace(rest, j, atX + x_.at(k), atY, cut);
    return;
  }
  for (int k = 1; k < j && 2 * y_.at(k) <= y_.at(j); ++k) {
    const int rest = y_.notAbove(y_.at(j) - y_.at(k));
    if (valueAt(i, k) + valueAt(i, rest) != value) continue;
    trace(i, k, atX, atY, cut);
    trace(i, rest, atX, atY + y_.at(k), cut);
    return;
  }
}

}  // namespace dryfit::joinery::cutting
