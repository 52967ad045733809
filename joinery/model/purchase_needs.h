#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "joinery/trade/machines.h"

namespace dryfit::joinery {

// What a model may say on buying. Lengths in mm; what is left out comes from the allowances table.

/// How a material is bought and worked.
struct RoughNeeds {
  /// Which machines bring ends, edges and faces to size, and which one saws boards thinner; a size
  /// below counts before what they need.
  std::optional<Machine> ends, edges, faces, resaw;
  std::optional<double> length, width, thickness;   ///< allowances, over the finished size
  std::optional<double> waste;                      ///< share that is bought on top
  std::optional<std::array<double, 2>> stripWidth;  ///< least and most, of a strip of a glue-up
  std::vector<double> soldAs;                       ///< rough thicknesses on sale, rising
  std::optional<std::array<double, 2>> sheet;       ///< length and width of the sheet sold
  std::optional<double> price;                      ///< per m³ of timber, or per sheet
};

/// Strips or veneer for the edges of sheet parts, bought by length.
struct EdgingGoods {
  std::string name;
  std::optional<double> price;  ///< per metre
  std::string note;
};

/// Something else to buy: hinges, screws, knobs.
struct HardwareGoods {
  std::string name;
  int count = 1;
  std::optional<double> price;  ///< of one
  std::string note;
  std::vector<std::string> holds;  ///< parts that it holds to the rest of the piece
};

/// The finish: how often it is laid on and how far it goes.
struct FinishNeeds {
  std::optional<int> coats;
  std::optional<double> areaPerLitre;  ///< m² a coat
  std::optional<double> price;         ///< per litre
};

}  // namespace dryfit::joinery
