#include "joinery/stock/board_feet.h"

#include <algorithm>
#include <cmath>

#include "joinery/trade/allowances.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

constexpr double kInch = 25.4;
constexpr double kFoot = 12 * kInch;
using kernel::kRounding;

double nominalInches(double thickness) {
  return quartersOf(thickness) / 4.0;
}

}  // namespace

double boardFeet(double length, double width, double thickness) {
  return length * width * std::max(thickness, kInch) / kBoardFoot;
}

double tallyBoardFeet(double length, double width, double thickness) {
  const double feet = std::floor(length / kFoot + kRounding);
  return std::round(feet * (width / kInch) / 12) * nominalInches(thickness);
}

double tallyBoardFeet(double surface, double thickness) {
  return std::ceil(surface / (kFoot * kFoot) - kRounding) * nominalInches(thickness);
}

}  // namespace dryfit::joinery
