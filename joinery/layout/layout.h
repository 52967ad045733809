#pragma once

#include <string>
#include <vector>

#include "joinery/stock/blank.h"
#include "joinery/stock/stock.h"
#include "joinery/trade/allowances.h"
#include "joinery/trade/machines.h"

namespace dryfit::joinery {

enum class CutMethod {
  throughCuts,  ///< every cut goes straight across the piece it cuts: table saw, sliding table saw
  free,         ///< parts need not line up for saw cuts: for a router
};

/// What the maker's machines ask for. All lengths mm.
struct LayoutSettings {
  CutMethod sheetMethod = CutMethod::throughCuts;
  /// Wood that one cut turns to dust.
  double boardKerf = machine(Machine::tableSaw).kerf;
  double sheetKerf = machine(Machine::tableSaw).kerf;
  /// Cut off every edge of a sheet before parts, off both ends and both edges of a board.
  double sheetTrim = allowance(AllowanceId::sheetTrim).value;
  double boardEndTrim = allowance(AllowanceId::boardEndTrim).value;
  double boardEdgeTrim = allowance(AllowanceId::boardEdgeTrim).value;
  int turnsMost = 0;  ///< how often cutting may change direction on one sheet once its edges are
                      ///< trimmed, 0: any number
  /// Smaller offcuts are waste.
  double offcutLengthLeast = allowance(AllowanceId::offcutLengthLeast).value;
  double offcutWidthLeast = allowance(AllowanceId::offcutWidthLeast).value;
  int effort = 100;      ///< share of the usual search, in percent
  Unit unit = Unit::mm;  ///< of the sentences on what found no place

  [[nodiscard]] double kerf(StockForm form) const {
    return form == StockForm::board ? boardKerf : sheetKerf;
  }
};

/// A blank in its place on a piece of stock. `at` is as it lies there.
struct PlacedBlank {
  int blank = 0;  ///< index of the job's blanks
  FlatRect at;
  bool turned = false;  ///< its length lies across the stock
};

/// A straight cut right through one piece. Piece 0 is the whole board or sheet; cut number k (from
/// 0) makes pieces 2k+1, the one with smaller x or y, and 2k+2.
struct Cut {
  int piece = 0;
  bool across = false;  ///< a cross cut, at one x; else a rip, at one y
  double at = 0;        ///< where the kerf begins; it takes away [at, at + kerf]
};

/// One board or sheet and what is cut from it.
struct StockLayout {
  int item = 0;  ///< index in the stock list
  int copy = 0;  ///< which of the item's `count`, from 0
  std::vector<PlacedBlank> blanks;
  std::vector<Cut> cuts;          ///< in the order of cutting; empty for free nesting
  std::vector<FlatRect> offcuts;  ///< worth keeping, largest first
};

/// A blank that found no place.
struct Unplaced {
  int blank = 0;
  std::string why;  ///< "no board is 1240 long", ...
  std::string buy;  ///< what would take it: "a sheet of birch plywood 12, at least 1240 x 620"
};

/// A lower bound says that no layout of the same blanks from the same stock costs less.
struct MaterialSummary {
  std::vector<std::string> materials;  ///< of the model, of one wood, that share their stock
  int blanks = 0, placed = 0;
  double blankArea = 0;  ///< mm², of those placed
  double stockArea = 0;  ///< mm², of the stock used
  double cost = 0;  ///< of the stock used: by price where all suitable stock is priced (an offcut
                    ///< without a price is paid for), else by area in m²
  bool byPrice = false;
  double bound = 0;     ///< in the same measure, for what is placed
  std::string boundBy;  ///< "area", "column generation", ...
  int cuts = 0;
};

/// How all blanks of a job are cut from a stock list.
struct Layout {
  LayoutSettings settings;
  std::vector<Blank> blanks;
  std::vector<StockLayout> stock;  ///< by item, then copy
  std::vector<Unplaced> unplaced;
  std::vector<MaterialSummary> materials;
  std::vector<std::string> matchesApart;  ///< those whose blanks could not be kept together
  bool finished = true;                   ///< false: cancelled, this is the best so far
};

}  // namespace dryfit::joinery
