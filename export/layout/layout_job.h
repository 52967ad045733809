#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "joinery/layout/layout.h"
#include "joinery/piece/finding.h"
#include "joinery/piece/piece.h"

namespace dryfit::exporting {

/// What the bench wants to know of a blank beyond its rough size.
struct BlankFacts {
  int number = 0;                    ///< of the part in the cut list; 0: none is known
  std::string label;                 ///< "Front left stile"
  std::string share;                 ///< "strip 2 of 4"; empty for a whole part
  std::array<double, 3> finished{};  ///< length, width, thickness of the part, mm; 0: not known
  std::string faceSide, faceEdge;    ///< "front", "right"; empty where not known
  std::string error;  ///< why it must not be cut yet; empty where nothing speaks against it
  std::optional<bool> faceEdgeAbove;  ///< with the face side up and the length to the right; none
                                      ///< where the two are not a face and an edge
};

/// A layout with all that is needed to draw it.
struct LayoutJob {
  std::string piece;
  joinery::Basis basis = joinery::Basis::drawn;
  joinery::Unit unit = joinery::Unit::mm;
  joinery::Layout layout;
  joinery::StockList stock;
  std::vector<BlankFacts> facts;  ///< one a blank

  [[nodiscard]] const joinery::StockItem& itemOf(const joinery::StockLayout& one) const {
    return stock.items[static_cast<std::size_t>(one.item)];
  }
  [[nodiscard]] const joinery::Blank& blankOf(int index) const {
    return layout.blanks[static_cast<std::size_t>(index)];
  }
  [[nodiscard]] const BlankFacts& factsOf(int index) const {
    return facts[static_cast<std::size_t>(index)];
  }
  /// Wood that one cut in it turns to dust, mm.
  [[nodiscard]] double kerfIn(const joinery::StockLayout& one) const {
    return layout.settings.kerf(itemOf(one).form);
  }
  /// A length in the job's unit, without the unit's name.
  [[nodiscard]] std::string length(double mm) const;
  /// "640 × 62".
  [[nodiscard]] std::string size(double a, double b) const;
  [[nodiscard]] std::string size(double a, double b, double c) const;
  /// Rough length, width and thickness of a blank; of a sheet's, the thickness it is called by.
  [[nodiscard]] std::string roughSizeOf(int index) const;
  /// "birch sheet", or "birch sheet, no. 2" where there are several.
  [[nodiscard]] std::string nameOfStock(const joinery::StockLayout& one) const;
  /// "Lid panel, strip 2 of 4".
  [[nodiscard]] std::string nameOfBlank(int index) const;
  /// "12", or a dash where the blank has no number.
  [[nodiscard]] std::string numberOf(int index) const;
  /// The number as it stands on drawings and labels: "12", or "12 DO NOT CUT".
  [[nodiscard]] std::string markOf(int index) const;
};

/// Blanks of parts that a finding at error level names are told apart.
/// REQUIRES: `layout` was made for the parts of `piece` from `stock`.
[[nodiscard]] LayoutJob makeLayoutJob(const joinery::Piece& piece, joinery::Layout layout,
                                      joinery::StockList stock, joinery::Unit unit,
                                      const std::vector<joinery::Finding>& findings);

/// The blanks that must not be cut yet, in their order.
[[nodiscard]] std::vector<int> errorsIn(const LayoutJob& job);

/// Boards or sheets of one item that are cut alike: drawn once.
struct Pattern {
  std::vector<std::size_t> copies;  ///< indices in layout.stock; the first stands for all
};
/// In the order of layout.stock.
[[nodiscard]] std::vector<Pattern> patternsOf(const LayoutJob& job);

/// Share of a board's or sheet's area that becomes blanks, 0 to 1.
[[nodiscard]] double useOf(const LayoutJob& job, const joinery::StockLayout& one);

/// The least upright rectangle round a board or sheet: piece 0 of its cuts.
[[nodiscard]] joinery::FlatRect boundsOfStock(const joinery::StockItem& item);

/// True where the blank's grain runs along x as it lies; none where it has no grain.
[[nodiscard]] std::optional<bool> grainAlongX(const joinery::Blank& blank,
                                              const joinery::PlacedBlank& placed);

}  // namespace dryfit::exporting
