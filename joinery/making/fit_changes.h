#pragma once

#include <string>
#include <vector>

#include "joinery/base/progress.h"
#include "joinery/model/model.h"
#include "joinery/piece/piece.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// A plain number of the model that may be given another value: a named length, or a length that a
/// joint's author chose.
struct FreeNumber {
  std::string name;              ///< "frame_width", or "top_left.tenon_length"
  std::string joint, parameter;  ///< of a joint; empty for a dimension
  double value = 0;              ///< mm
  friend bool operator==(const FreeNumber&, const FreeNumber&) = default;
};
[[nodiscard]] std::vector<FreeNumber> freeNumbers(const Model& model);

/// One number changed.
struct NumberChange {
  FreeNumber what;
  double before = 0, after = 0;  ///< mm
  std::string text;              ///< `after` as the file takes it, in its unit
  [[nodiscard]] double by() const { return after - before; }
};
/// The model with that number changed.
[[nodiscard]] Model with(const Model& model, const NumberChange& change);

/// Every single change by which all made parts fit what was recorded of them, as far as numbers
/// tell: smallest first. Solids and the other checks are not asked. Nothing where no made part is
/// out. `progress` is asked each time before the piece is worked out with another number; it counts
/// numbers. Error: cancelled.
[[nodiscard]] Result<std::vector<NumberChange>> changesThatFit(const Piece& piece,
                                                               const Progress& progress = {});

}  // namespace dryfit::joinery
