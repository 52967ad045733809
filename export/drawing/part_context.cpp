#include "export/drawing/part_context.h"

#include <algorithm>

#include "joinery/formula/length_text.h"
#include "kernel/tolerance.h"

namespace dryfit::exporting {

std::string PartContext::length(double mm) const {
  return joinery::lengthText(Length::mm(mm), unit);
}

const std::string& PartContext::letterOf(std::size_t feature) const {
  static const std::string kNone;
  const auto row = std::ranges::find_if(rows, [&](const FeatureRow& r) {
    return std::ranges::find(r.features, feature) != r.features.end();
  });
  return row == rows.end() ? kNone : row->letter;
}

bool PartContext::repeats(std::size_t feature) const {
  const auto with = cutWith(part, part.features[feature]);
  return with && letterOf(*with) == letterOf(feature);
}

bool PartContext::runsOut(const joinery::Feature& feature, int axis) const {
  return reachesBothEnds(part, feature, axis);
}

std::string PartContext::datumName() const {
  return part.overall().min.x < -kernel::kDrawnAlike ? "datum shoulder" : "datum end";
}

}  // namespace dryfit::exporting
