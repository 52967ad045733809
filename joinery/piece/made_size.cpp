#include "joinery/piece/made_size.h"

namespace dryfit::joinery {

bool fixes(MarkState state, PartAxis axis) {
  return axis == PartAxis::length ? state >= MarkState::cut : state >= MarkState::machined;
}

std::optional<double> madeSize(const Mark& mark, PartAxis axis) {
  const int i = indexOf(axis);
  if (!fixes(mark.state, axis) || mark.blank[i] <= 0) return std::nullopt;
  const bool shouldersOpen = mark.state != MarkState::jointed && mark.blank[i] != mark.overall[i];
  if (axis == PartAxis::length && shouldersOpen) return std::nullopt;
  return mark.blank[i];
}

}  // namespace dryfit::joinery
