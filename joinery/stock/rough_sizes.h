#pragma once

#include <vector>

#include "joinery/piece/piece.h"
#include "joinery/stock/blank.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// A blank, and what is made of it.
struct RoughBlank {
  Blank blank;
  /// The part of each piece that is sawn from its thickness: mostly one; a part stands twice where
  /// two of its strips come from one board.
  std::vector<PartId> parts;
  double soldThickness = 0;  ///< mm: the thinnest board on sale that it can come from; 0 of sheets
  double resawKerf = 0;      ///< mm, between two of the pieces

  /// Rough thickness of each of those pieces, mm: less than the blank's where there are several.
  [[nodiscard]] double pieceThickness() const;
};

/// How one part is made up: equal pieces to be glued together, or one. Spares not counted.
struct RoughPart {
  int pieces = 0;                               ///< 0: the part has no blank
  double length = 0, width = 0, thickness = 0;  ///< of each piece, mm
};
[[nodiscard]] RoughPart roughPart(const std::vector<RoughBlank>& rough, const Piece& piece,
                                  PartId id);

/// All blanks of a piece, in the order of its parts. Spares are blanks of their own.
///
/// A blank is as large as the finished part, tenons and tongues included, and the allowances of its
/// material. Of timber its length runs along the grain. Parts wider than the greatest strip are
/// glued up from equal strips, parts thicker than the thickest board from equal layers; thin parts
/// are sawn two or more from one board, with a kerf between. Sheet parts are never split; one
/// thicker than its sheet is made of layers.
/// Errors: tooManyBlanks with the part's place where strips or layers come out absurd.
[[nodiscard]] Result<std::vector<RoughBlank>> roughSizes(const Piece& piece);

/// The blanks alone, as a layout takes them.
[[nodiscard]] std::vector<Blank> blanksOf(const std::vector<RoughBlank>& rough);

/// How a material is bought and worked: what the model says, else what the table says.
struct RoughRules {
  double length = 0, width = 0, thickness = 0;  ///< allowances, mm
  double stripEdges = 0;                        ///< mm a strip of a glue-up, for its two edges
  double resawKerf = 0;                         ///< mm
  double waste = 0;                             ///< share on top
  double stripLeast = 0, stripMost = 0;         ///< mm
  std::vector<double> soldAs;                   ///< mm, rising; empty of sheets
  double sheetLength = 0, sheetWidth = 0;       ///< mm; 0 of timber
};
[[nodiscard]] RoughRules roughRules(const Material& material, Unit unit);

}  // namespace dryfit::joinery
