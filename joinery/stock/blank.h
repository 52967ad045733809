#pragma once

#include <optional>
#include <string>

#include "joinery/base/ids.h"
#include "joinery/model/model.h"
#include "joinery/stock/stock.h"

namespace dryfit::joinery {

/// One rough piece to be cut from stock: a whole part, or one strip or layer of a glued-up part.
struct Blank {
  std::string name;            ///< unique: "front_left_stile", "lid_panel, strip 2 of 4"
  std::optional<PartId> part;  ///< the part it becomes, or becomes a share of
  std::string material;        ///< name in the model
  std::string species;         ///< of that material
  StockForm form = StockForm::board;
  double length = 0;            ///< mm, rough; along the part's length
  double width = 0;             ///< mm, rough
  double thickness = 0;         ///< mm, rough: the least its stock may have
  double thicknessMost = 1e9;   ///< mm: sheets, the most its stock may have
  Grain grain = Grain::length;  ///< of the part: along its length or width, or of no matter
  std::string
      match;  ///< blanks of the same text are kept together: side by side on a sheet, on one board
};

}  // namespace dryfit::joinery
