#pragma once

#include <span>
#include <string_view>

#include "kernel/units.h"

namespace dryfit::joinery {

/// Names of the trade's proportions, clearances and limits.
enum class RuleId {
  tenonThicknessShare,        ///< of the thickness of the tenoned stock
  tenonLengthShare,           ///< of the width of the mortised stock, blind
  tenonLengthShareMost,       ///< the largest published share
  mortiseBottomClearance,     ///< mm deeper than the tenon
  mortiseWallLeast,           ///< mm of wood left beyond a blind mortise or beside a cut
  tenonWidthMostThicknesses,  ///< width of one tenon in thicknesses of it
  cornerTenonWidthShare,      ///< of the rail's width, with a haunch
  haunchLengthShare,          ///< of the tenon's thickness; how far the haunch stands out
  tenonShoulderLeast,         ///< mm of shoulder on each side of a tenon's width
  glueClearance,              ///< mm across both cheeks
  glueClearanceLeast,
  glueClearanceMost,
  slidingClearance,  ///< mm across both cheeks of a panel free in its groove
  slidingClearanceLeast,
  slidingClearanceMost,
  grooveWidthShare,            ///< of the frame member's thickness
  grooveDepthWidths,           ///< depth in groove widths
  panelGap,                    ///< mm between panel edge and groove bottom, each side
  housingDepthShare,           ///< of the side's thickness
  stoppedHousingSetback,       ///< mm from the front edge
  rebateDepthShare,            ///< of the rebated board's thickness
  lapDepthShare,               ///< of the thickness
  dowelDiameterShare,          ///< of the thickness of the thinner stock
  dowelDepthDiameters,         ///< hole depth in each mate in diameters, at most
  dowelHoleClearance,          ///< mm deeper than the dowel's half
  dowelSpacingMost,            ///< mm between dowels
  dowelEdgeDiameters,          ///< distance of a hole's centre from an edge, in diameters, at least
  tongueThicknessShare,        ///< of the board's thickness
  tongueLengthThicknesses,     ///< tongue length in its thicknesses
  tongueBottomClearance,       ///< mm
  endWoodLeast,                ///< mm of wood between a cut across the grain and the part's end
  tenonLengthShareLeast,       ///< the smallest published share of the mortised stock's width
  tenonThicknessShareMost,     ///< of the thickness of the tenoned stock
  cornerTenonWidthShareLeast,  ///< of the rail's width, with a haunch: the smallest published share
  grooveWidthShareMost,        ///< of the member's thickness: thicker panels are worked to a tongue
  grooveDepthShareMost,        ///< of the member's width
  panelShoulderLeast,          ///< mm: a panel hardly thicker than its groove is not worked down
  tenonShoulderShareMost,      ///< of the rail's width: narrow rails get narrower shoulders
  settingOutStep,              ///< mm to which sizes that follow from a share are rounded
  tenonThicknessShareLeast,    ///< of the thickness of the tenoned stock
  tenonLossShareMost,          ///< of a tenon's section that other joints' cuts may take
  housingDepthShareMost,       ///< of the side's thickness
  cutWallShare,                ///< of thin stock: wood left beside or beyond a groove or housing
  crossGrainWidthMost,         ///< mm of glue across the grain
  legTenonLengthShareLeast,    ///< of a leg's width, where two tenons meet at right angles
  hopelessPlayTimes,      ///< of the greatest glue clearance: more play than this does not hold
  tapeStep,               ///< mm to which a tape is read
  angleStep,              ///< degrees to which the angle of a corner is read
  markTolerance,          ///< mm a made part may differ from what the design asks of it
  grainAngleMost,         ///< ° from the grain, or from square to it: still along it, or across it
  inLineMost,             ///< mm by which two cuts may differ across and still lie in line
  limitSlack,             ///< mm by which a limit may be missed and still be met
  dowelEndDiameters,      ///< distance of a dowel's middle from the end of the grain, in diameters
  restingMost,            ///< mm between a part and the one that it lies on
  cutLeast,               ///< mm: what would be shorter or shallower is not worth the cutting
  rebateGap,              ///< mm between a board's edge and its rebate where it lies between two
  tenonsWidthShareLeast,  ///< of a rail's width: all its tenons in one mate together
  tenonLengthThicknessesLeast,  ///< tenon length in its thicknesses: the other published rule
  dowelDiameterShareMost,       ///< of the thickness of the thinner stock
  dowelWallLeast,               ///< mm of wood beside and beyond a dowel's hole
  oneTenonWidthMost,            ///< mm: a wider rail wants two tenons
  housingSetbackShareMost,      ///< of the shelf's width, for narrow shelves
  meetingShareLeast,            ///< of the shorter face that mates must share, each way
  doorGapLeast,                 ///< mm between a door or lid and what it passes
  doorGap,                      ///< mm: what is usual there
  wideMateThicknesses,          ///< a mate wider than so many of the tenon is wide for it
};

/// What the value of a rule is a number of: millimetres, degrees, or something to be multiplied by.
enum class RuleUnit { length, angle, share };

/// A rule that is not named here is a share.
[[nodiscard]] constexpr RuleUnit unitOf(RuleId id) {
  switch (id) {
    case RuleId::mortiseBottomClearance:
    case RuleId::mortiseWallLeast:
    case RuleId::tenonShoulderLeast:
    case RuleId::glueClearance:
    case RuleId::glueClearanceLeast:
    case RuleId::glueClearanceMost:
    case RuleId::slidingClearance:
    case RuleId::slidingClearanceLeast:
    case RuleId::slidingClearanceMost:
    case RuleId::panelGap:
    case RuleId::stoppedHousingSetback:
    case RuleId::dowelHoleClearance:
    case RuleId::dowelSpacingMost:
    case RuleId::tongueBottomClearance:
    case RuleId::endWoodLeast:
    case RuleId::panelShoulderLeast:
    case RuleId::settingOutStep:
    case RuleId::crossGrainWidthMost:
    case RuleId::tapeStep:
    case RuleId::markTolerance:
    case RuleId::inLineMost:
    case RuleId::restingMost:
    case RuleId::limitSlack:
    case RuleId::cutLeast:
    case RuleId::rebateGap:
    case RuleId::dowelWallLeast:
    case RuleId::oneTenonWidthMost:
    case RuleId::doorGapLeast:
    case RuleId::doorGap:
      return RuleUnit::length;
    case RuleId::angleStep:
    case RuleId::grainAngleMost:
      return RuleUnit::angle;
    default:
      return RuleUnit::share;
  }
}

/// The name of a rule of one unit. Made from a RuleId while compiling, which fails where the rule's
/// value is of another unit: no share is taken for a length.
template <RuleUnit Unit>
class RuleOf {
 public:
  // NOLINTNEXTLINE(google-explicit-constructor): written as a RuleId wherever a rule is asked for.
  consteval RuleOf(RuleId id) : id_(id) {
    if (unitOf(id) != Unit) throw "the value of this rule is of another unit";
  }
  [[nodiscard]] constexpr RuleId id() const { return id_; }
  friend constexpr bool operator==(RuleOf, RuleOf) = default;

 private:
  RuleId id_;
};
using LengthRule = RuleOf<RuleUnit::length>;
using AngleRule = RuleOf<RuleUnit::angle>;
using ShareRule = RuleOf<RuleUnit::share>;

/// One rule of the trade with its source.
struct Rule {
  RuleId id;
  std::string_view name;    ///< as printed in findings
  double value;             ///< as printed: mm, degrees or a share; to reckon with it see below
  std::string_view source;  ///< published source, or "common practice"
};

/// The whole table, in the order of RuleId.
[[nodiscard]] std::span<const Rule> rules();
[[nodiscard]] const Rule& rule(RuleId id);

/// The value of a rule, to reckon with.
[[nodiscard]] Length lengthBy(LengthRule rule);
[[nodiscard]] Angle angleBy(AngleRule rule);
/// Of what the rule's name says: a thickness, a width, a diameter.
[[nodiscard]] double shareBy(ShareRule rule);

}  // namespace dryfit::joinery
