#include "joinery/layout/price_bound.h"

#include <algorithm>
#include <cmath>

namespace dryfit::joinery::cutting {
namespace {

constexpr std::size_t kSumsMost = 20'000;

}  // namespace

double priceBound(double total, std::span<const PricedBin> bins) {
  // With all prices times t the bound is t·total less what bins that become worth more than they
  // cost could gain. It is concave in t with its corners at cost / most.
  std::vector<double> corners;
  for (const PricedBin& bin : bins) {
    if (bin.most > 0) corners.push_back(bin.cost / bin.most);
  }
  double best = 0;
  for (const double t : corners) {
    double bound = t * total;
    for (const PricedBin& bin : bins) {
      bound -= bin.count * std::max(0.0, t * bin.most - bin.cost);
    }
    best = std::max(best, bound);
  }
  return best;
}

double roundedUp(double bound, std::span<const PricedBin> bins) {
  if (bound <= 0) return 0;
  const double slack = 1e-9 * bound;
  std::vector<double> sums{0};  // below the bound
  double least = -1;            // not below it
  for (const PricedBin& bin : bins) {
    if (bin.cost <= 0) continue;
    const double needed = std::ceil((bound - slack) / bin.cost);
    const int copies = static_cast<int>(std::min<double>(bin.count, needed));
    std::vector<double> more;
    for (const double sum : sums) {
      for (int c = 0; c <= copies; ++c) {
        const double next = sum + c * bin.cost;
        if (next < bound - slack) {
          more.push_back(next);
          continue;
        }
        if (least < 0 || next < least) least = next;
        break;
      }
      if (more.size() > 8 * kSumsMost) return bound;
    }
    std::sort(more.begin(), more.end());
    more.erase(
        std::unique(more.begin(), more.end(), [&](double a, double b) { return b - a <= slack; }),
        more.end());
    if (more.size() > kSumsMost) return bound;
    sums = std::move(more);
  }
  // A hair lower, for what adding up in another order may change.
  return least < 0 ? bound : std::max(bound, least * (1 - 1e-12));
}

}  // namespace dryfit::joinery::cutting
