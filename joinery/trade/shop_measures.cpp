#include "joinery/trade/shop_measures.h"

#include <cmath>

#include "joinery/trade/rules.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

constexpr double kInch = 25.4;

/// Bench chisels and router cutters on sale. Common practice, from memory.
ShopMeasures metric() {
  return {{3, 4, 5, 6, 8, 10, 12, 15, 16, 18, 20, 22, 25}, lengthBy(RuleId::settingOutStep).mm()};
}

/// 1/8, 3/16, 1/4, 5/16, 3/8, 1/2, 5/8, 3/4 and 1 in: common practice, from memory. Rules are
/// divided into sixteenths.
ShopMeasures imperial() {
  ShopMeasures measures{{}, kInch / 16};
  for (const double sixteenths : {2, 3, 4, 5, 6, 8, 10, 12, 16}) {
    measures.cutters.push_back(sixteenths * kInch / 16);
  }
  return measures;
}

}  // namespace

double ShopMeasures::cutterNear(double wanted, double most) const {
  double best = cutters.front();
  for (const double width : cutters) {
    if (width <= most && std::fabs(width - wanted) < std::fabs(best - wanted)) best = width;
  }
  return best;
}

double ShopMeasures::setOut(double value) const {
  return std::floor(value / step + kernel::kRounding) * step;
}

const ShopMeasures& usualMeasures(Unit unit) {
  static const ShopMeasures kMetric = metric(), kImperial = imperial();
  return unit == Unit::inch ? kImperial : kMetric;
}

}  // namespace dryfit::joinery
