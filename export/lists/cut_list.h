#pragma once

#include <optional>
#include <string>
#include <vector>

#include "export/lists/slant_note.h"
#include "joinery/model/model.h"
#include "joinery/piece/piece.h"
#include "kernel/result.h"

namespace dryfit::exporting {

/// A taper of the part that stands for all of a row.
struct TaperNote {
  bool inWidth = true;    ///< else in thickness
  Length by;              ///< at the narrow end
  Length from;            ///< from the wide end's shoulder
  Length to;              ///< width or thickness left at the narrow end, by all tapers there
  Length over;            ///< from where it starts to the narrow end's shoulder
  std::string place;      ///< of the wedge: "opposite the face edge"
  std::string narrowEnd;  ///< "bottom"
  bool measured = false;  ///< the boards came out so
};

/// Parts that are made alike: one line of the list.
struct CutRow {
  int number = 0;    ///< as on the drawings
  int mirrorOf = 0;  ///< number of the parts that these mirror, 0 for none
  std::string label;
  std::vector<std::string> parts;           ///< names in the model
  joinery::PartId first;                    ///< the part that stands for all
  Length length, width, thickness;          ///< finished, tenons and tongues included
  Length shoulderLength, shoulderShortest;  ///< along the longest and the shortest edge
  std::optional<SlantNote> slant;           ///< where the shoulders are not square
  std::string grain;                        ///< "length", "width" or "none"
  std::vector<TaperNote> tapers;
};

/// All parts of one material.
struct CutSection {
  std::string material;
  std::string species;
  std::vector<CutRow> rows;  ///< longest first, then widest, thickest, and by number
};

/// What to cut, by material in the order of the model. Materials without parts are left out.
struct CutList {
  std::string piece;
  joinery::Basis basis = joinery::Basis::drawn;
  std::vector<CutSection> sections;
  std::vector<std::string> safety;  ///< warnings that suit the piece
};

/// "narrows to 38 at the bottom over 580, opposite the face edge"; sizes in `unit`, without its
/// name.
[[nodiscard]] std::string taperText(const TaperNote& taper, joinery::Unit unit);
/// What the sizes alone do not tell of a row; empty where they tell all.
[[nodiscard]] std::string remarkText(const CutRow& row, joinery::Unit unit);
[[nodiscard]] std::vector<TaperNote> taperNotes(const joinery::PlacedPart& part);

[[nodiscard]] CutList makeCutList(const joinery::Piece& piece);

/// One row a group of parts, in the order of the part numbers.
[[nodiscard]] std::vector<CutRow> numberedRows(const joinery::Piece& piece);

/// A table a material, without head and safety lines.
[[nodiscard]] std::string cutListText(const CutList& list, joinery::Unit unit);

/// One table for all materials by RFC 4180: a header row that names the unit ("length_mm"), lines
/// ending in CR LF, decimal point, cells quoted where they must be.
[[nodiscard]] std::string cutListCsv(const CutList& list, joinery::Unit unit);

/// A workbook (Office Open XML) with one sheet: a frozen header row, then the rows of the CSV,
/// sizes and counts as numbers. Error: fileNotWritten.
[[nodiscard]] Result<std::string> cutListWorkbook(const CutList& list, joinery::Unit unit);

/// A length as a plain decimal number of `unit`, fine enough to hold 0.01 mm: mm to 2, cm to 3 and
/// inches to 4 decimals.
[[nodiscard]] double decimalLength(Length length, joinery::Unit unit);

}  // namespace dryfit::exporting
