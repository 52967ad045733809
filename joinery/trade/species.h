#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace dryfit::joinery {

/// A timber: how heavy it is and how much it moves.
///
/// Width changes by (width) * (coefficient) * (change of moisture content in %), between 6 and 14 %
/// moisture content (USDA Wood Handbook, FPL-GTR-190, equation 13-2). Movement along the grain is
/// taken as none.
struct Species {
  std::string_view name;       ///< in the model file: "white oak"
  std::string_view alsoNamed;  ///< other name in the trade; may be empty
  double gravity = 0;          ///< specific gravity at 12 % moisture content (see gravitySource)
  double radial = 0;           ///< C_R: change across quarter-sawn width, share per 1 %
  double tangential = 0;       ///< C_T: change across flat-sawn width, share per 1 %
  double radialShrinkage = 0;  ///< green to oven-dry, %
  double tangentialShrinkage = 0;
  std::string_view gravitySource, coefficientSource, shrinkageSource;
};

/// The whole table.
[[nodiscard]] std::span<const Species> speciesTable();
/// The row with this name or other name, whatever its case and with or without hyphens, or null. A
/// plain name such as "oak" stands for the one of its kind that moves most.
[[nodiscard]] const Species* speciesNamed(std::string_view name);
/// True for two names of one wood; of woods that the table does not know, for the same words.
[[nodiscard]] bool sameWood(std::string_view a, std::string_view b);
/// All names and other names, for "did you mean".
[[nodiscard]] std::vector<std::string> speciesNames();

}  // namespace dryfit::joinery
