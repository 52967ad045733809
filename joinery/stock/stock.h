#pragma once

#include <optional>
#include <string>
#include <vector>

#include "joinery/model/model.h"

namespace dryfit::joinery {

/// A point on the face of a board or sheet, mm: x along its length from the near end, y across it
/// from the datum edge.
struct FlatPoint {
  double x = 0, y = 0;
  friend bool operator==(const FlatPoint&, const FlatPoint&) = default;
};

/// A rectangle on the face of a board or sheet, mm. `length` runs along x, `width` along y.
struct FlatRect {
  double x = 0, y = 0, length = 0, width = 0;
  [[nodiscard]] double farX() const { return x + length; }
  [[nodiscard]] double farY() const { return y + width; }
  friend bool operator==(const FlatRect&, const FlatRect&) = default;
};

enum class StockForm { board, sheet };

enum class DefectKind { knot, split, wane, sap, other };

/// Which face of a board or sheet something is on.
enum class StockFace { first, second, both };

/// A zone that no part may lie on.
struct Defect {
  DefectKind kind = DefectKind::other;
  FlatRect zone;
  StockFace face = StockFace::both;
};

/// One entry of a stock list: a board as measured, or `count` equal sheets.
struct StockItem {
  std::string name;  ///< unique in its list
  StockForm form = StockForm::board;
  std::string material;  ///< name of a material in the model it is kept for; empty: any that suits
  std::string species;   ///< as a material's `species`
  double length = 0;     ///< mm; of a board along its grain
  double nearWidth = 0;  ///< mm, at x = 0; boards may taper, sheets do not
  double farWidth = 0;   ///< mm, at x = length
  std::vector<FlatPoint> outline;  ///< convex or not, in order; empty: as the two widths say, the
                                   ///< datum edge straight
  double thickness = 0;            ///< mm, as it lies there: rough of a board, measured of a sheet
  Grain grain = Grain::length;     ///< of a sheet
  int count = 1;
  std::vector<Defect> defects;
  std::string firstGrade, secondGrade;  ///< of the two faces; may be empty
  std::optional<double> moisture;       ///< % of the dry weight
  std::string batch;                    ///< may be empty
  std::optional<double> price;          ///< of one, in the list's currency
  bool offcut = false;                  ///< left from an earlier job
  std::string note;

  /// The outline, made from the two widths where none is given.
  [[nodiscard]] std::vector<FlatPoint> shape() const;
  /// Area of the outline, mm².
  [[nodiscard]] double area() const;
};

/// Boards and sheets at hand or on offer.
struct StockList {
  std::string currency;  ///< as the maker writes it; may be empty
  Unit unit = Unit::mm;  ///< of the file
  /// Cut off both ends and both edges of its boards before parts, mm; as usual where it says
  /// nothing.
  std::optional<double> boardEndTrim, boardEdgeTrim;
  std::vector<StockItem> items;
};

}  // namespace dryfit::joinery
