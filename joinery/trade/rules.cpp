#include "joinery/trade/rules.h"

#include <array>
#include <cmath>

#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

constexpr std::string_view kMemory = "common practice, from memory";

// Where two published numbers disagree, both are rows: the default uses the first.
constexpr std::array kRules{
    Rule{RuleId::tenonThicknessShare, "tenon thickness", 1.0 / 3,
         "diyinfo.org and woodmagazine.com, pages on the mortise and tenon"},
    Rule{RuleId::tenonLengthShare, "tenon length", 2.0 / 3,
         "woodmagazine.com, mortise and tenon: 1/2 to 2/3 of the mortised part's width"},
    Rule{RuleId::tenonLengthShareMost, "greatest tenon length", 7.0 / 8,
         "woodworkings.ca, \"Removing, Haunching\": 7/8 of the stile in light cabinet work"},
    Rule{RuleId::mortiseBottomClearance, "bottom clearance", 2,
         "diyinfo.org: 2 mm; woodmagazine.com: 1/16 in"},
    Rule{RuleId::mortiseWallLeast, "wood left beyond a mortise", 4.5, "diyinfo.org, stub mortise"},
    Rule{RuleId::tenonWidthMostThicknesses, "greatest tenon width", 5,
         "diyinfo.org: at most five times the thickness"},
    Rule{RuleId::cornerTenonWidthShare, "tenon width at a corner", 2.0 / 3,
         "diyinfo.org and geoffswoodwork.co.uk: the rail's width in three, two for the tenon and "
         "one "
         "for the haunch"},
    Rule{RuleId::haunchLengthShare, "haunch length", 1,
         "geoffswoodwork.co.uk, mortise and tenon: about as deep as the tenon is thick"},
    Rule{RuleId::tenonShoulderLeast, "shoulder at the tenon's edge", 5, kMemory},
    Rule{RuleId::glueClearance, "glue clearance", 0.1, kMemory},
    Rule{RuleId::glueClearanceLeast, "least glue clearance", 0.05, kMemory},
    Rule{RuleId::glueClearanceMost, "greatest glue clearance", 0.15, kMemory},
    Rule{RuleId::slidingClearance, "sliding clearance", 0.3, kMemory},
    Rule{RuleId::slidingClearanceLeast, "least sliding clearance", 0.1, kMemory},
    Rule{RuleId::slidingClearanceMost, "greatest sliding clearance", 0.6, kMemory},
    Rule{RuleId::grooveWidthShare, "groove width", 1.0 / 3, kMemory},
    Rule{RuleId::grooveDepthWidths, "groove depth", 1.5, kMemory},
    Rule{RuleId::panelGap, "room beside a panel", 2.5,
         "Wood Handbook, Eq. 13-2: 2.2 mm a side for 300 mm of flat-sawn white oak from 8 to 12 %, "
         "rounded up; finewoodworking.com, groove depth in frames: 1/8 in at the sides, 1/16 in at "
         "the ends"},
    Rule{RuleId::housingDepthShare, "housing depth", 1.0 / 3, kMemory},
    Rule{RuleId::stoppedHousingSetback, "setback of a stopped housing", 15, kMemory},
    Rule{RuleId::rebateDepthShare, "rebate depth", 0.5, kMemory},
    Rule{RuleId::lapDepthShare, "lap depth", 0.5, "Fairham, \"Woodwork Joints\": halving"},
    Rule{RuleId::dowelDiameterShare, "dowel diameter", 1.0 / 3,
         "chicagodowel.com, technical information: a third of the stock"},
    Rule{RuleId::dowelDepthDiameters, "dowel depth", 2.5,
         "woodworkingarchive.biz, dowels: five diameters long, half in each part"},
    Rule{RuleId::dowelHoleClearance, "room beyond a dowel", 1,
         "chicagodowel.com, technical information: holes 1/16 in deeper, half of it in each part, "
         "rounded up"},
    Rule{RuleId::dowelSpacingMost, "greatest dowel spacing", 100, kMemory},
    Rule{RuleId::dowelEdgeDiameters, "dowel to edge", 1.5, kMemory},
    Rule{RuleId::tongueThicknessShare, "tongue thickness", 1.0 / 3,
         "progressivegardening.com, matched boards and loose tongues: a third of the stock"},
    Rule{RuleId::tongueLengthThicknesses, "tongue length", 1, kMemory},
    Rule{RuleId::tongueBottomClearance, "room beyond a tongue or haunch", 1, kMemory},
    Rule{RuleId::endWoodLeast, "wood between a cut and the end", 10, kMemory},
    Rule{RuleId::tenonLengthShareLeast, "least tenon length", 0.5,
         "woodmagazine.com, mortise and tenon: 1/2 to 2/3 of the mortised part's width"},
    Rule{RuleId::tenonThicknessShareMost, "greatest tenon thickness", 0.5, kMemory},
    Rule{RuleId::cornerTenonWidthShareLeast, "least tenon width at a corner", 0.5,
         "Noyes, \"Handwork in Wood\", ch. VII: half the rail's width, less the groove"},
    Rule{RuleId::grooveWidthShareMost, "greatest groove width", 0.5, kMemory},
    Rule{RuleId::grooveDepthShareMost, "greatest groove depth", 0.5, kMemory},
    Rule{RuleId::panelShoulderLeast, "least shoulder of a worked panel edge", 1, kMemory},
    Rule{RuleId::tenonShoulderShareMost, "greatest share of a shoulder", 0.25, kMemory},
    Rule{RuleId::settingOutStep, "step of setting out", 0.5, kMemory},
    Rule{RuleId::tenonThicknessShareLeast, "least tenon thickness", 0.25, kMemory},
    Rule{RuleId::tenonLossShareMost, "greatest loss of a tenon's section", 0.5, kMemory},
    Rule{RuleId::housingDepthShareMost, "greatest housing depth", 0.5, kMemory},
    Rule{RuleId::cutWallShare, "wood left by a cut in thin stock", 0.25, kMemory},
    Rule{RuleId::crossGrainWidthMost, "greatest width glued across the grain", 101.6,
         "woodweb.com, width limit of tenons: 3 in is safe, 4 in the most; lumberjocks.com: 6 in "
         "held"},
    Rule{RuleId::legTenonLengthShareLeast, "least tenon length in a leg", 1.0 / 3, kMemory},
    Rule{RuleId::hopelessPlayTimes, "play that does not hold", 2, kMemory},
    Rule{RuleId::tapeStep, "reading of a tape", 0.5, kMemory},
    Rule{RuleId::angleStep, "reading of a corner's angle", 0.1, kMemory},
    Rule{RuleId::markTolerance, "tolerance of a made part", 0.05, kMemory},
    Rule{RuleId::grainAngleMost, "angle that counts as along or across the grain", 30, kMemory},
    Rule{RuleId::inLineMost, "greatest step between cuts in line", 0.5, kMemory},
    Rule{RuleId::limitSlack, "tolerance of limits", 0.05,
         "half of the tenth of a millimetre to which sizes are told"},
    Rule{RuleId::dowelEndDiameters, "dowel to the end of the grain", 1,
         "furniture-construction.com, wooden dowels: one diameter at the edge and between"},
    Rule{RuleId::restingMost, "gap under a part that lies on another", 0.5, kMemory},
    Rule{RuleId::cutLeast, "least length of a tenon or depth of a cut", 1, kMemory},
    Rule{RuleId::rebateGap, "room between a board and its rebates", 0.5, kMemory},
    Rule{RuleId::tenonsWidthShareLeast, "tenons of a rail together", 0.5,
         "diyinfo.org: over 75 mm two tenons, each a quarter of the rail; Noyes, \"Handwork in "
         "Wood\": half the rail's width, less the groove"},
    Rule{RuleId::tenonLengthThicknessesLeast, "least tenon length by its thickness", 3,
         "furnituremaking.us, leg to apron joint: three to four times the thickness"},
    Rule{RuleId::dowelDiameterShareMost, "greatest dowel diameter", 0.5,
         "chicagodowel.com, technical information: never over half of the stock; "
         "woodworkingarchive.biz, dowels: half"},
    Rule{RuleId::dowelWallLeast, "wood left beside a dowel", 3.175,
         "rpwoodwork.com, carcase doweling: at least 1/8 in under the face"},
    Rule{RuleId::oneTenonWidthMost, "greatest rail on one tenon", 75,
         "diyinfo.org: a rail over 75 mm has two tenons"},
    Rule{RuleId::housingSetbackShareMost, "greatest setback of a stopped housing", 0.25, kMemory},
    Rule{RuleId::meetingShareLeast, "least share of a face that carries", 1.0 / 3, kMemory},
    Rule{RuleId::doorGapLeast, "least gap round a door or lid", 1, kMemory},
    Rule{RuleId::doorGap, "gap round a door or lid", 1.6,
         "woodweb.com, inset cabinet door clearance: 1/16 in for furniture, 3/32 in for cabinets"},
    Rule{RuleId::wideMateThicknesses, "wide mate of a tenon", 10, kMemory},
};

constexpr bool inOrder() {
  for (std::size_t i = 0; i < kRules.size(); ++i) {
    if (static_cast<std::size_t>(kRules[i].id) != i) return false;
  }
  return true;
}
static_assert(inOrder(), "one row a RuleId, in their order");

}  // namespace

std::span<const Rule> rules() {
  return kRules;
}

const Rule& rule(RuleId id) {
  return kRules[static_cast<std::size_t>(id)];
}

Length lengthBy(LengthRule length) {
  return Length::mm(rule(length.id()).value);
}

Angle angleBy(AngleRule angle) {
  return Angle::degrees(rule(angle.id()).value);
}

double shareBy(ShareRule share) {
  return rule(share.id()).value;
}

}  // namespace dryfit::joinery
