#include "joinery/layout/unplaced_reason.h"

#include "joinery/base/unit.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "joinery/formula/length_text.h"
#include "joinery/layout/layout_job.h"
#include "joinery/trade/species.h"

namespace dryfit::joinery::cutting {
namespace {

/// What a length is written in: 0.1 mm, 0.01 cm or 1/64 in.
double stepOf(Unit unit) {
  return unit == Unit::inch ? millimetresIn(Unit::inch) / 64 : 0.1;
}

/// Rounded up: what is bought by it is never too small.
std::string least(double mm, Unit unit) {
  const double step = stepOf(unit);
  return lengthText(Length::mm(std::ceil(mm / step - 1e-6) * step), unit);
}

std::string most(double mm, Unit unit) {
  const double step = stepOf(unit);
  return lengthText(Length::mm(std::floor(mm / step + 1e-6) * step), unit);
}

bool fitsUsable(const Blank& blank, const StockItem& item, const LayoutSettings& settings,
                bool lengthOnly) {
  const Area usable = ClearWood(item, settings).usable();
  const Grain grain = item.form == StockForm::board ? Grain::length : item.grain;
  const bool either = blank.grain == Grain::none || grain == Grain::none;
  for (const bool turned : {false, true}) {
    if (!either && turned != (blank.grain != grain)) continue;
    const Size length = sizeOf(turned ? blank.width : blank.length);
    const Size width = sizeOf(turned ? blank.length : blank.width);
    if (length <= usable.length && (lengthOnly || width <= usable.width)) return true;
  }
  return false;
}

}  // namespace

Unplaced unplacedBecause(const std::vector<Blank>& blanks, int number_, const StockList& stock,
                         const LayoutSettings& settings) {
  const Blank& blank = blanks[static_cast<std::size_t>(number_)];
  const Unit unit = settings.unit;
  const bool sheet = blank.form == StockForm::sheet;
  const std::string form = sheet ? "sheet" : "board";
  const std::string wood = blank.species.empty() ? blank.material : blank.species;
  const bool acrossBoard = !sheet && blank.grain == Grain::width;
  const double length = acrossBoard ? blank.width : blank.length;
  const double width = acrossBoard ? blank.length : blank.width;

  Unplaced unplaced;
  unplaced.blank = number_;
  const double end = sheet ? settings.sheetTrim : settings.boardEndTrim;
  const double edge = sheet ? settings.sheetTrim : settings.boardEdgeTrim;
  const std::string thick =
      sheet && blank.thicknessMost < 1e6 && blank.thicknessMost > blank.thickness
          ? fmt::format("{} to {}", least(blank.thickness, unit), most(blank.thicknessMost, unit))
          : fmt::format("{}{}", sheet ? "" : "at least ", least(blank.thickness, unit));
  unplaced.buy = fmt::format("a {} of {}, {} thick, at least {} x {}", form, wood, thick,
                             least(length + 2 * end, unit), least(width + 2 * edge, unit));

  bool anyWood = false, anySuits = false, anyLong = false, anyFits = false;
  for (const StockItem& item : stock.items) {
    if (item.form == blank.form && (item.material.empty() ? sameWood(item.species, blank.species)
                                                          : item.material == blank.material)) {
      anyWood = true;
    }
    if (!suitsStock(blank, item)) continue;
    anySuits = true;
    anyLong = anyLong || fitsUsable(blank, item, settings, true);
    anyFits = anyFits || fitsUsable(blank, item, settings, false);
  }
  if (!anyWood) {
    unplaced.why = fmt::format("no {} of {} is in the stock list", form, wood);
  } else if (!anySuits) {
    unplaced.why = fmt::format("no {} of {} is {} thick", form, wood, thick);
  } else if (!anyLong) {
    unplaced.why =
        fmt::format("no {} of {} is {} long once trimmed", form, wood, least(length, unit));
  } else if (!anyFits) {
    unplaced.why = fmt::format("no {} of {} has {} x {} once trimmed", form, wood,
                               least(length, unit), least(width, unit));
  } else {
    unplaced.why = fmt::format("no clear area of {} x {} is left on any {} of {}",
                               least(length, unit), least(width, unit), form, wood);
  }
  return unplaced;
}

}  // namespace dryfit::joinery::cutting
