#pragma once

#include <span>
#include <vector>

namespace dryfit::joinery::cutting {

/// A kind of bin as a bound sees it.
struct PricedBin {
  double cost = 0;
  int count = 1;
  double most = 0;  ///< what its contents can be worth at most, at the prices below
};

/// The least that stock for items worth `total` together can cost when no bin holds more than its
/// `most`: whatever prices the worth was reckoned at, no layout costs less. (Duality of the relaxed
/// master problem; A. A. Farley, Operations Research 38 (1990) 922-923, with limited bins.)
[[nodiscard]] double priceBound(double total, std::span<const PricedBin> bins);

/// The least sum of costs of whole bins that is not below `bound`; `bound` itself where the sums
/// are too many. Costs are compared with a relative slack of 1e-9.
[[nodiscard]] double roundedUp(double bound, std::span<const PricedBin> bins);

}  // namespace dryfit::joinery::cutting
