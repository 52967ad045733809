#pragma once

#include <string>
#include <vector>

#include "export/drawing/feature_rows.h"
#include "export/drawing/view_memory.h"
#include "joinery/piece/over_run.h"
#include "joinery/piece/part_list.h"
#include "joinery/piece/piece.h"
#include "kernel/solid.h"

namespace dryfit::exporting {

/// All that the pieces of one part's drawing are made from.
struct PartContext {
  const joinery::Piece& piece;
  const joinery::PlacedPart& part;
  const kernel::Solid& solid;
  const joinery::PartGroup& group;
  joinery::Unit unit;
  PartPose pose;
  std::vector<FeatureRow> rows;
  ViewMemory* memory = nullptr;  ///< may be null

  [[nodiscard]] std::string length(double mm) const;
  /// The letter of a feature of the part; empty where it has no row.
  [[nodiscard]] const std::string& letterOf(std::size_t feature) const;
  /// True where the feature is made with another one of its own row.
  [[nodiscard]] bool repeats(std::size_t feature) const;
  /// True where the feature reaches both sides of the blank along the axis.
  [[nodiscard]] bool runsOut(const joinery::Feature& feature, int axis) const;
  /// "datum end", or "datum shoulder" where wood stands out of that end.
  [[nodiscard]] std::string datumName() const;
};

}  // namespace dryfit::exporting
