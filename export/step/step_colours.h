#pragma once

#include <STEPCAFControl_Writer.hxx>
#include <TopoDS_Shape.hxx>
#include <vector>

#include "export/step/wood_colour.h"

namespace dryfit::exporting {

/// A shape that was transferred to a STEP model, and its colour.
struct ColouredShape {
  TopoDS_Shape shape;
  Colour colour;
};

/// Adds the colours of solids to the model of a writer after its transfer, in the order given.
/// (The library's own way orders them by addresses, so equal pieces would give unequal files.)
/// False where a solid is not in the model.
[[nodiscard]] bool addStepColours(STEPCAFControl_Writer& writer,
                                  const std::vector<ColouredShape>& shapes);

}  // namespace dryfit::exporting
