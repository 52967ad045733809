#pragma once

#include <string_view>

namespace dryfit::joinery {

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

/// By the words of a species' name, or of what a sheet is called: "white oak", "birch plywood".
/// A solid wood that no word tells is taken for diffuse-porous, the least marked.
[[nodiscard]] WoodStructure structureOf(std::string_view species, bool isSheet);

}  // namespace dryfit::joinery
