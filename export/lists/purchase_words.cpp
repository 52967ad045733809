#include "export/lists/purchase_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "joinery/formula/length_text.h"

namespace dryfit::exporting {

using joinery::Unit;

namespace {

constexpr double kFoot = 304.8;

}  // namespace

double inAreaUnit(double squareMillimetres, Unit unit) {
  return squareMillimetres / (unit == Unit::inch ? kFoot * kFoot : 1e6);
}

const char* areaUnit(Unit unit) {
  return unit == Unit::inch ? "ft²" : "m²";
}

double inRunUnit(double millimetres, Unit unit) {
  return millimetres / (unit == Unit::inch ? kFoot : 1000);
}

const char* runUnit(Unit unit) {
  return unit == Unit::inch ? "ft" : "m";
}

std::string sawnText(double millimetres, Unit unit) {
  const double step = unit == Unit::inch ? 25.4 / 16 : 1;
  return joinery::lengthText(Length::mm(std::ceil(millimetres / step - 1e-6) * step), unit);
}

std::string sizeText(double length, double width, Unit unit) {
  return fmt::format("{} x {}", joinery::lengthText(Length::mm(length), unit),
                     joinery::lengthText(Length::mm(width), unit));
}

std::string wordsOf(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

std::string roughSizeText(const joinery::RoughPart& part, Unit unit) {
  if (part.pieces == 0) return "-";
  const std::string size = fmt::format("{} x {}", sizeText(part.length, part.width, unit),
                                       joinery::lengthText(Length::mm(part.thickness), unit));
  return part.pieces == 1 ? size : fmt::format("{} of {}", part.pieces, size);
}

std::string sheetName(const joinery::SheetRow& row, Unit unit) {
  return fmt::format("{} {} {}", row.species.empty() ? wordsOf(row.materials.front()) : row.species,
                     joinery::lengthText(Length::mm(row.thickness), unit), joinery::nameOf(unit));
}

std::string finishText(const joinery::FinishRow& row, Unit unit) {
  return fmt::format("{} coat{} on {:.2f} {}, {:.4g} {} a litre", row.coats,
                     row.coats == 1 ? "" : "s", inAreaUnit(row.sightArea, unit), areaUnit(unit),
                     inAreaUnit(row.areaPerLitre * 1e6, unit), areaUnit(unit));
}

std::string costText(const std::optional<double>& cost) {
  return cost ? fmt::format("{:.2f}", *cost) : "-";
}

std::string totalText(const joinery::PurchaseList& list) {
  const std::string currency = list.currency.empty() ? "" : " " + list.currency;
  const bool anything =
      list.timber.size() + list.sheets.size() + list.edging.size() + list.hardware.size() + 1 >
      list.notPriced.size();
  if (!anything) return "No prices yet: put them in the model to see the cost.\n";
  std::string text = fmt::format("Cost: {:.2f}{}", list.total, currency);
  if (list.notPriced.empty()) return text + "\n";
  return text +
         fmt::format(" for what has a price\nNo price for: {}\n", fmt::join(list.notPriced, ", "));
}

}  // namespace dryfit::exporting
