#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "joinery/trade/rules.h"

namespace dryfit::joinery {

/// What a feature of a part is called at the bench.
enum class Purpose {
  tenon,
  haunch,
  tongue,
  lap,
  dowel,  // wood left standing or put in
  mortise,
  haunchSocket,
  groove,
  housing,
  rebate,
  lapSocket,  // wood taken away
  dowelHole,
  shoulderFit,
};

/// Where a cut leaves short grain before the end of its part.
enum class ShortGrain {
  never,
  enteredAcross,  ///< where it enters by a face across the grain's ends: its far end is a wall
  runAcross,      ///< where it also runs across the grain
};

/// How the drawing of a part shows a feature.
enum class Showing {
  fully,      ///< with dimensions, in the view of its end and in a section
  notAtEnds,  ///< as wide as the end it stands on: the view of the end tells nothing of it
  notAtAll,   ///< made to another part's face: lettered, but without dimensions of its own
};

/// What a purpose means to checks and drawings: all of it, so that a new purpose is one more row.
struct PurposeTraits {
  Purpose purpose;
  std::string_view name;      ///< "haunch socket"
  bool standsOut = false;     ///< wood that stands out beyond the blank or is put in
  bool pocket = false;        ///< cut with walls all round
  bool runsAlong = false;     ///< runs along the face, usually out at both ends
  bool openAlongRun = false;  ///< needs no wall at the ends of its longer way
  bool openBeside = false;    ///< needs no wall on any side
  bool meetsAny = false;      ///< other cuts may run into it
  bool bears = false;         ///< holds by its own section, as long grain
  bool leads = false;         ///< a panel's: other joints keep clear of it or stand in line with it
  /// What stands in it, whose length sets its depth.
  std::optional<Purpose> roomFor = std::nullopt;
  /// Of the part behind its face.
  std::optional<ShareRule> greatestDepth = std::nullopt;
  ShortGrain shortGrain = ShortGrain::never;
  Showing showing = Showing::fully;
  /// Several of it standing at an end; empty where it only goes with another.
  std::string_view atEnds = "joints";
};

/// The whole table, in the order of Purpose.
[[nodiscard]] std::span<const PurposeTraits> purposes();
[[nodiscard]] const PurposeTraits& traitsOf(Purpose purpose);

[[nodiscard]] inline std::string_view nameOf(Purpose purpose) {
  return traitsOf(purpose).name;
}
/// True for wood that stands out or is put in, false for wood taken away.
[[nodiscard]] inline bool standsOut(Purpose purpose) {
  return traitsOf(purpose).standsOut;
}
/// Groove, housing, rebate: runs along the face, usually out at both ends.
[[nodiscard]] inline bool runsAlong(Purpose purpose) {
  return traitsOf(purpose).runsAlong;
}
/// Mortise, haunch socket, dowel hole: has walls all round.
[[nodiscard]] inline bool isPocket(Purpose purpose) {
  return traitsOf(purpose).pocket;
}

}  // namespace dryfit::joinery
