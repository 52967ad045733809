#pragma once

#include <QImage>

#include "joinery/model/model.h"
#include "joinery/trade/wood_structure.h"

namespace dryfit::viewer {

using joinery::WoodStructure;

/// Of a material by its species, or its own name where it has none.
[[nodiscard]] WoodStructure structureOf(const joinery::Material& material);

/// mm of wood that a picture of its figure covers: along the grain and across it, and of an end.
inline constexpr double kFigureAlong = 600, kFigureAcross = 120;
inline constexpr double kFigureEndWidth = 150, kFigureEndHeight = 75;

/// Grey figure of a face along the grain, to be multiplied with the wood's colour; its width runs
/// along the grain, and it goes on over all its edges. Null image for `none`.
[[nodiscard]] QImage longFigure(WoodStructure structure);
/// The same of end grain: growth rings about a pith below the board's middle; of plies, the layers
/// seen from the side, the height going through the sheet.
[[nodiscard]] QImage endFigure(WoodStructure structure);

}  // namespace dryfit::viewer
