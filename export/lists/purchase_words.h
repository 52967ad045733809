#pragma once

#include <string>

#include "joinery/model/model.h"
#include "joinery/stock/purchase.h"

namespace dryfit::exporting {

// Words and numbers that all forms of the purchase list share. Areas and volumes are in square
// metres and cubic metres, areas in square feet and runs in feet where the reader works in inches.

inline constexpr double kCubicMetre = 1e9;  ///< mm³

[[nodiscard]] double inAreaUnit(double squareMillimetres, joinery::Unit unit);
[[nodiscard]] const char* areaUnit(joinery::Unit unit);  ///< "m²" or "ft²"
[[nodiscard]] double inRunUnit(double millimetres, joinery::Unit unit);
[[nodiscard]] const char* runUnit(joinery::Unit unit);  ///< "m" or "ft"

/// A rough size of timber, rounded up to what is sawn: whole mm, or sixteenths of an inch.
[[nodiscard]] std::string sawnText(double millimetres, joinery::Unit unit);
/// "2500 x 1250"
[[nodiscard]] std::string sizeText(double length, double width, joinery::Unit unit);
/// A name of the model with blanks: "drawer_pull" to "drawer pull".
[[nodiscard]] std::string wordsOf(std::string name);
/// "625 x 63 x 26", or "3 of 825 x 140 x 26" where a part is glued up from three.
[[nodiscard]] std::string roughSizeText(const joinery::RoughPart& part, joinery::Unit unit);
/// "birch plywood 12 mm"
[[nodiscard]] std::string sheetName(const joinery::SheetRow& row, joinery::Unit unit);
/// "3 coats on 2.41 m², 12 m² a litre"
[[nodiscard]] std::string finishText(const joinery::FinishRow& row, joinery::Unit unit);
/// "41.60", or "-" where there is no price.
[[nodiscard]] std::string costText(const std::optional<double>& cost);
/// What all that is priced costs, and what is not priced; one line.
[[nodiscard]] std::string totalText(const joinery::PurchaseList& list);

}  // namespace dryfit::exporting
