#include "joinery/layout/bar_knapsack.h"

#include <algorithm>
#include <numeric>

namespace dryfit::joinery::cutting {

BarKnapsack::BarKnapsack(std::span<const WorthLength> items, Size room, std::size_t statesMost)
    : items_(items.begin(), items.end()), room_(room), statesMost_(statesMost) {
  states_.push_back({0, 0.0, -1});
  for (std::size_t i = 0; i < items_.size(); ++i) {
    if (items_[i].value <= 0 || items_[i].size <= 0) continue;
    const Size fitting = room_ / items_[i].size;
    const int copies = static_cast<int>(std::min<Size>(items_[i].copies, fitting));
    for (int c = 0; c < copies; ++c) {
      const std::size_t before = steps_.size();
      addCopy(static_cast<int>(i));
      if (steps_.size() == before) break;
    }
  }
}

/// Merges the sums with one more copy of an item into the sums without it.
void BarKnapsack::addCopy(int item) {
  const WorthLength& added = items_[static_cast<std::size_t>(item)];
  std::vector<State> merged;
  merged.reserve(states_.size() * 2);
  std::size_t plain = 0, more = 0;
  while (plain < states_.size() || more < states_.size()) {
    const bool takePlain =
        more >= states_.size() ||
        (plain < states_.size() && (states_[plain].size < states_[more].size + added.size ||
                                    (states_[plain].size == states_[more].size + added.size &&
                                     states_[plain].value >= states_[more].value + added.value)));
    if (takePlain) {
      const State& state = states_[plain++];
      if (merged.empty() || state.value > merged.back().value) merged.push_back(state);
    } else {
      const State state = states_[more++];
      const Size size = state.size + added.size;
      const double value = state.value + added.value;
      if (size > room_) {
        more = states_.size();
        continue;
      }
      if (!merged.empty() && value <= merged.back().value) continue;
      steps_.push_back({item, state.step});
      merged.push_back({size, value, static_cast<std::int32_t>(steps_.size() - 1)});
    }
  }
  if (merged.size() > statesMost_) {
    exact_ = false;
    std::vector<State> fewer;
    for (std::size_t i = 0; i < merged.size(); i += 2) fewer.push_back(merged[i]);
    if (fewer.back().size != merged.back().size) fewer.push_back(merged.back());
    merged = std::move(fewer);
  }
  states_ = std::move(merged);
}

const BarKnapsack::State& BarKnapsack::stateAt(Size room) const {
  const auto after = std::upper_bound(states_.begin(), states_.end(), room,
                                      [](Size r, const State& s) { return r < s.size; });
  return after == states_.begin() ? states_.front() : *(after - 1);
}

double BarKnapsack::value(Size room) const {
  return stateAt(room).value;
}

double BarKnapsack::bound(Size room) const {
  if (exact_) return value(room);
  std::vector<std::size_t> order(items_.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return items_[a].value * static_cast<double>(items_[b].size) >
           items_[b].value * static_cast<double>(items_[a].size);
  });
  double most = 0;
  Size left = room;
  for (const std::size_t i : order) {
    const WorthLength& item = items_[i];
    if (item.value <= 0 || item.size > room) continue;
    const double fitting = static_cast<double>(left) / static_cast<double>(item.size);
    const double taken = std::min<double>(item.copies, fitting);  // maybe a fraction
    most += taken * item.value;
    if (taken < item.copies) break;
    left -= item.size * item.copies;
  }
  return most;
}

std::vector<int> BarKnapsack::counts(Size room) const {
  std::vector<int> counts(items_.size(), 0);
  for (std::int32_t step = stateAt(room).step; step >= 0;) {
    const Step& taken = steps_[static_cast<std::size_t>(step)];
    ++counts[static_cast<std::size_t>(taken.item)];
    step = taken.before;
  }
  return counts;
}

}  // namespace dryfit::joinery::cutting
