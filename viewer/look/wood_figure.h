#pragma once

#include <QImage>
#include <string_view>

#include "joinery/model/model.h"

namespace dryfit::viewer {

/// How a wood is built, as far as a planed face shows it (common practice: the grouping by pores of
/// USDA Wood Handbook, FPL-GTR-190, chapter 3; which wood is of which group is from memory).
enum class WoodStructure {
  ringPorous,      ///< a belt of large pores in each year's early wood: oak, ash, elm
  semiRingPorous,  ///< pores that grow finer through the year: walnut
  diffusePorous,   ///< fine pores all over: maple, beech, birch, cherry
  conifer,         ///< pale early wood, dark late wood: pine, spruce, larch
  plies,           ///< thin layers, crossed: plywood
  none,            ///< no figure: fibreboard, or unknown
};

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
