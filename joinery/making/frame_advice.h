#pragma once

#include <optional>
#include <string>
#include <vector>

#include "joinery/making/readings.h"
#include "joinery/piece/piece.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// A member along one side of a frame.
struct FrameMember {
  PartId part;
  bool shouldered = false;  ///< it lies between the two sides, shoulder to shoulder
};

/// A frame of the piece as its maker looks at it: its sides, and a panel in it.
struct FrameLook {
  double width = 0, height = 0;  ///< mm, as designed
  std::optional<FrameMember> top, bottom, left, right;
  std::optional<PartId> panel;  ///< the largest part that lies in grooves of the sides
  double panelGap = 0;          ///< mm between the panel's edge and the bottom of its groove
};

/// The frame that these parts make. It is looked at across its thinnest direction; what stands is
/// its height, of a flat frame what goes back. Error: badMeasurement (fewer than two parts).
[[nodiscard]] Result<FrameLook> frameOf(const Piece& piece, const std::vector<PartId>& parts);

/// What a maker should do about the readings, most important first, in plain sentences with sizes
/// in `unit`. At least one sentence.
[[nodiscard]] std::vector<std::string> adviceFor(const Piece& piece, const FrameLook& look,
                                                 const FrameShape& shape, Unit unit);

}  // namespace dryfit::joinery
