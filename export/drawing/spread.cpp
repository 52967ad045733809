#include "export/drawing/spread.h"

#include <algorithm>

namespace dryfit::exporting {

std::vector<double> spread(const std::vector<double>& wanted, double gap, double low, double high) {
  // With the gaps taken out the places only have to be ascending: pool neighbours that are not, and
  // give each pool its mean.
  struct Pool {
    double sum = 0;
    std::size_t count = 0;
    [[nodiscard]] double mean() const { return sum / static_cast<double>(count); }
  };
  std::vector<Pool> pools;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    pools.push_back({wanted[i] - gap * static_cast<double>(i), 1});
    while (pools.size() > 1 && pools[pools.size() - 2].mean() > pools.back().mean()) {
      pools[pools.size() - 2].sum += pools.back().sum;
      pools[pools.size() - 2].count += pools.back().count;
      pools.pop_back();
    }
  }
  const double room = high - gap * (static_cast<double>(wanted.size()) - 1);
  std::vector<double> places;
  for (const Pool& pool : pools) {
    for (std::size_t i = 0; i < pool.count; ++i) {
      const double place = std::max(low, std::min(room, pool.mean()));
      places.push_back(place + gap * static_cast<double>(places.size()));
    }
  }
  return places;
}

}  // namespace dryfit::exporting
