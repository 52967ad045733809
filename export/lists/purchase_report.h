#pragma once

#include <optional>
#include <string>
#include <vector>

#include "joinery/model/model.h"
#include "joinery/stock/purchase.h"
#include "kernel/result.h"

namespace dryfit::exporting {

/// One thing to buy, as tables for other programs hold it.
struct PurchaseLine {
  std::string section;  ///< "timber", "sheets", "edging", "hardware" or "finish"
  std::string item;
  std::string soldAs;  ///< rough thickness of timber, size of a sheet
  std::optional<int> count;
  std::optional<Length> longest, widest;  ///< of the blanks to be cut from it
  std::optional<double> quantity;         ///< in `unit`
  std::string unit;                       ///< "m³", "m²", "ft²", "m", "ft", "l"
  std::optional<double> boardFeet, tally;
  std::optional<double> cost;
  std::string note;
};
[[nodiscard]] std::vector<PurchaseLine> purchaseLines(const joinery::PurchaseList& list,
                                                      joinery::Unit unit);

/// Blanks of one size and material.
struct RoughRow {
  int count = 0;
  std::vector<int> numbers;         ///< of the parts, as on the drawings; rising
  std::vector<std::string> labels;  ///< of the parts
  Length length, width, thickness;
  std::string material;
  double soldThickness = 0;  ///< mm; 0 of sheets
};
/// By material in the order of the model, then longest, widest, thickest first.
[[nodiscard]] std::vector<RoughRow> roughRows(const joinery::PurchaseList& list,
                                              const joinery::Piece& piece);

/// Tables of what to buy, the rough sizes, and safety lines.
[[nodiscard]] std::string purchaseReport(const joinery::PurchaseList& list,
                                         const joinery::Piece& piece, joinery::Unit unit);
/// What to buy, by RFC 4180, as the cut list.
[[nodiscard]] std::string purchaseCsv(const joinery::PurchaseList& list, joinery::Unit unit);
/// A workbook with two sheets, what to buy and the rough sizes. Error: fileNotWritten.
[[nodiscard]] Result<std::string> purchaseWorkbook(const joinery::PurchaseList& list,
                                                   const joinery::Piece& piece, joinery::Unit unit);
/// Plain text for a pocket: a box to tick before each thing, no line longer than 40 columns.
[[nodiscard]] std::string purchaseNote(const joinery::PurchaseList& list, joinery::Unit unit);
[[nodiscard]] std::string purchaseJson(const joinery::PurchaseList& list,
                                       const joinery::Piece& piece);

}  // namespace dryfit::exporting
