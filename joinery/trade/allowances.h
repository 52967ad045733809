#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "joinery/base/unit.h"

namespace dryfit::joinery {

/// Names of what is added between the finished size and the wood that is bought.
enum class AllowanceId {
  solidLength,          ///< mm over the finished length: both ends are cut again
  solidWidth,           ///< mm over the finished width: both edges are planed
  solidThickness,       ///< mm over the finished thickness: both faces are planed
  sheetLength,          ///< mm
  sheetWidth,           ///< mm
  stripWidthLeast,      ///< mm, rough: narrower strips make too many joints
  stripWidthMost,       ///< mm, finished: wider parts are glued up from strips
  resawWidthMost,       ///< mm, rough: wider boards are not sawn into thinner ones
  stripEdges,           ///< mm a strip: both its edges are shot for the joint
  solidWaste,           ///< share of the rough volume bought on top
  sheetWaste,           ///< share of the parts' area bought on top
  edgingWaste,          ///< share of the length bought on top
  edgingEnds,           ///< mm an edge: both ends are cut flush afterwards
  sheetThicknessOver,   ///< mm a sheet may be thicker than its name, plus ...
  sheetThicknessUnder,  ///< mm it may be thinner, plus ...
  sheetThicknessShare,  ///< ... this share of its thickness
  boardThicknessTimes,  ///< a board may be as many times as thick as its blank, plus ...
  boardThicknessMore,   ///< ... mm; thicker ones are sawn thinner first
  sheetTrim,            ///< mm cut off every edge of a sheet before parts
  boardEndTrim,         ///< mm cut off both ends of a board: checks, dirt
  boardEdgeTrim,        ///< mm cut off both edges of a board
  offcutLengthLeast,    ///< mm: shorter leftovers are waste
  offcutWidthLeast,     ///< mm: narrower leftovers are waste
  finishCoats,          ///< count
  finishAreaPerLitre,   ///< m² that one litre covers once
};

/// One row of the table with its source.
struct Allowance {
  AllowanceId id;
  std::string_view name;
  double value;
  std::string_view unit;    ///< "mm", "m²" or "" for a share or a count
  std::string_view source;  ///< published source, or "common practice, from memory"
};

/// The whole table, in the order of AllowanceId.
[[nodiscard]] std::span<const Allowance> allowances();
[[nodiscard]] const Allowance& allowance(AllowanceId id);

/// A rough thickness in which timber is sold. Thicknesses in mm; 0: no figure.
struct SoldThickness {
  std::string_view name;  ///< "27", "5/4"
  double rough = 0;
  double planedOne = 0;   ///< bought with one face planed
  double planedBoth = 0;  ///< bought with both faces planed
  std::string_view source;
};

/// By quarters of an inch, and by millimetres; each rising.
[[nodiscard]] std::span<const SoldThickness> quarterThicknesses();
[[nodiscard]] std::span<const SoldThickness> metricThicknesses();
/// The rough thicknesses usual where people work in `unit`, mm, rising.
[[nodiscard]] std::vector<double> usualThicknesses(Unit unit);
/// "27 mm" or "5/4 (31.8 mm)"; in inches "5/4 (1 1/4 in)" or "1 1/16 in".
[[nodiscard]] std::string soldName(double roughThickness, Unit unit);
/// The quarters of an inch as which the trade counts a rough thickness: those it reaches, 4 at
/// least. 27 mm counts as 4, 33 mm as 5, 52 mm as 8.
[[nodiscard]] int quartersOf(double roughThickness);

/// More than anyone cuts off an edge or end, mm: a wider trim leaves little of a board.
inline constexpr double kWidestTrim = 500;

/// The size in which sheets are usually sold where people work in `unit`: length and width, mm.
[[nodiscard]] std::array<double, 2> usualSheet(Unit unit);

}  // namespace dryfit::joinery
