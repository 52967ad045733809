#include "joinery/piece/purposes.h"

#include <array>

namespace dryfit::joinery {
namespace {

constexpr std::array kPurposes{
    PurposeTraits{.purpose = Purpose::tenon,
                  .name = "tenon",
                  .standsOut = true,
                  .bears = true,
                  .atEnds = "tenons"},
    PurposeTraits{.purpose = Purpose::haunch, .name = "haunch", .standsOut = true, .atEnds = ""},
    PurposeTraits{.purpose = Purpose::tongue,
                  .name = "tongue",
                  .standsOut = true,
                  .showing = Showing::notAtEnds,
                  .atEnds = "tongues"},
    PurposeTraits{.purpose = Purpose::lap, .name = "lap", .standsOut = true},
    PurposeTraits{.purpose = Purpose::dowel, .name = "dowel", .standsOut = true},
    PurposeTraits{.purpose = Purpose::mortise,
                  .name = "mortise",
                  .pocket = true,
                  .roomFor = Purpose::tenon,
                  .shortGrain = ShortGrain::enteredAcross},
    PurposeTraits{.purpose = Purpose::haunchSocket,
                  .name = "haunch socket",
                  .pocket = true,
                  .openAlongRun = true,
                  .roomFor = Purpose::haunch},
    PurposeTraits{.purpose = Purpose::groove,
                  .name = "groove",
                  .runsAlong = true,
                  .openAlongRun = true,
                  .leads = true,
                  .shortGrain = ShortGrain::runAcross},
    PurposeTraits{.purpose = Purpose::housing,
                  .name = "housing",
                  .runsAlong = true,
                  .openAlongRun = true,
                  .greatestDepth = ShareRule(RuleId::housingDepthShareMost),
                  .shortGrain = ShortGrain::runAcross},
    PurposeTraits{.purpose = Purpose::rebate,
                  .name = "rebate",
                  .runsAlong = true,
                  .openAlongRun = true,
                  .openBeside = true,
                  .meetsAny = true,
                  .showing = Showing::notAtEnds},
    PurposeTraits{.purpose = Purpose::lapSocket, .name = "lap socket", .openBeside = true},
    PurposeTraits{.purpose = Purpose::dowelHole,
                  .name = "dowel hole",
                  .pocket = true,
                  .shortGrain = ShortGrain::enteredAcross},
    PurposeTraits{
        .purpose = Purpose::shoulderFit, .name = "shoulder fit", .showing = Showing::notAtAll},
};

constexpr bool inOrder() {
  for (std::size_t i = 0; i < kPurposes.size(); ++i) {
    if (static_cast<std::size_t>(kPurposes[i].purpose) != i) return false;
  }
  return true;
}
static_assert(inOrder(), "one row a Purpose, in their order");
static_assert(kPurposes.size() == static_cast<std::size_t>(Purpose::shoulderFit) + 1);

}  // namespace

std::span<const PurposeTraits> purposes() {
  return kPurposes;
}

const PurposeTraits& traitsOf(Purpose purpose) {
  return kPurposes[static_cast<std::size_t>(purpose)];
}

}  // namespace dryfit::joinery
