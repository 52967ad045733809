#pragma once

#include <string>

#include "export/drawing/sheet.h"

namespace dryfit::exporting {

/// Width of the title block of ISO 7200, mm.
inline constexpr double kTitleBlockWidth = 180;

/// What a title block says. Empty fields stay open, to be filled in by hand.
struct TitleBlock {
  std::string owner, creator, approval;
  std::string title;         ///< what the sheet shows: the part's name
  std::string supplement;    ///< what it belongs to: the piece's name
  std::string documentType;  ///< "Part drawing"
  std::string number;        ///< identification number
  std::string date;          ///< of issue
  int sheet = 1, sheets = 1;
  std::string sheetPart;  ///< "a", "b" where one drawing takes several sheets
  std::string material, quantity;
  std::string sizeCaption;  ///< "Finished size, L × W × T"
  std::string size;
  std::string scale, unit;
  bool firstAngle = true;  ///< views in first angle projection, and the symbol for it
};

/// The title block with its lower left corner at (0, 0).
[[nodiscard]] Ink drawTitleBlock(const TitleBlock& block);

}  // namespace dryfit::exporting
