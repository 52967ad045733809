#include "joinery/trade/shop_measures.h"

#include <cmath>

#include "joinery/trade/rules.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

constexpr double kInch = 25.4;

/// Bench chisels and router cutters on sale: common practice, from memory. Dowels: rods of 5 to
/// 12 mm (chicagodowel.com, technical information).
ShopMeasures metric() {
  return {{3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32},
          {5, 6, 8, 10, 12},
          lengthBy(RuleId::settingOutStep).mm()};
}

/// 1/8, 3/16, 1/4, 5/16, 3/8, 1/2, 5/8, 3/4 and 1 in: common practice, from memory. Rules are
/// divided into sixteenths. Dowels: rods of 3/16 to 3/4 in (chicagodowel.com).
ShopMeasures imperial() {
  ShopMeasures measures{{}, {}, kInch / 16, Unit::inch};
  for (const double sixteenths : {3, 4, 5, 6, 8, 10, 12}) {
    measures.dowels.push_back(sixteenths * kInch / 16);
  }
  for (const double sixteenths : {2, 3, 4, 5, 6, 8, 10, 12, 16}) {
    measures.cutters.push_back(sixteenths * kInch / 16);
  }
  return measures;
}

double nearest(const std::vector<double>& sizes, double wanted, double most) {
  double best = sizes.front();
  for (const double size : sizes) {
    if (size <= most && std::fabs(size - wanted) < std::fabs(best - wanted)) best = size;
  }
  return best;
}

}  // namespace

double ShopMeasures::cutterNear(double wanted, double most) const {
  return nearest(cutters, wanted, most);
}

double ShopMeasures::dowelNear(double wanted, double most) const {
  return nearest(dowels, wanted, most);
}

double ShopMeasures::setOut(double value) const {
  return std::floor(value / step + kernel::kRounding) * step;
}

const ShopMeasures& usualMeasures(Unit unit) {
  static const ShopMeasures kMetric = metric(), kImperial = imperial();
  return unit == Unit::inch ? kImperial : kMetric;
}

}  // namespace dryfit::joinery
