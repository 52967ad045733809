#include "export/drawing/field_part.h"

#include <algorithm>
#include <cmath>
#include <variant>

namespace dryfit::exporting {
namespace {

using joinery::Feature;

/// A strip along one side that takes the panel's field back from its frame.
bool setsBack(const Feature& feature) {
  const auto* block = std::get_if<kernel::Block>(&feature.tool);
  return feature.stage == joinery::Stage::shape && block != nullptr && block->frame.isSquare();
}

}  // namespace

FieldPart fieldPart(const joinery::PlacedPart& part, const kernel::Solid& solid) {
  if (std::ranges::none_of(part.features, setsBack)) return {part, solid};
  kernel::Box3 field = part.blank();
  for (const Feature& strip : part.features) {
    if (!setsBack(strip)) continue;
    const int axis = strip.face.axis;
    if (strip.face.far) {
      field.max.set(axis, std::fmin(field.max[axis], strip.extent.min[axis]));
    } else {
      field.min.set(axis, std::fmax(field.min[axis], strip.extent.max[axis]));
    }
  }
  kernel::Frame toField;
  toField.origin = kernel::Point3{} - (field.min - kernel::Point3{});
  FieldPart made{part, solid.placed(toField)};
  made.part.size = field.size();
  made.part.frame.origin = part.frame.place(field.min);
  std::erase_if(made.part.features, setsBack);
  for (Feature& feature : made.part.features) {
    feature.extent = kernel::boundsOf(toField, feature.extent);
    feature.tool = kernel::placed(feature.tool, toField);
  }
  return made;
}

}  // namespace dryfit::exporting
