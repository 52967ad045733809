#include "joinery/joints/kinds/full_tongue.h"

namespace dryfit::joinery {

Result<FullTongue> fullTongue(const Mating& mating, Stretch nominal, double length,
                              double clearance, JointNumbers& numbers) {
  const int across = mating.thicknessAxis();
  const int along = mating.alongAxis();
  FullTongue halves;
  halves.fit = numbers.length("fit", lengthBy(RuleId::glueClearance).mm(), RuleId::glueClearance);
  const auto cheeks = cheeksOf(nominal, mating.blank(across), halves.fit);
  if (!cheeks) return tl::unexpected(cheeks.error());
  halves.sharedPlay = cheeks->sharedPlay(across);
  Insert& tongue = halves.tongue;
  tongue.section[across] = cheeks->insert;
  tongue.section[along] = mating.blank(along);
  tongue.reach = length;
  if (!mating.contact().square) tongue.reach += mating.reachOf(tongue.section).mid();
  if (auto in = entersAllRound(mating, tongue); !in) return tl::unexpected(in.error());
  halves.room = tongue;
  halves.room.section[across] = cheeks->pocket;
  halves.room.reach += clearance;
  return halves;
}

JointCut cutFullTongue(const JointContext& context, const Mating& mating, const FullTongue& halves,
                       Purpose purpose, const Openings& openings) {
  JointCut cut;
  cut.features = mating.shoulderFit(context.id());
  cut.features.push_back(mating.standing(context.id(), purpose, halves.tongue));
  cut.features.push_back(mating.pocket(context.id(), Purpose::groove, halves.room, openings));
  cut.features.back().run = mating.axisOfSecond(mating.alongAxis());
  cut.joint = placedJoint(context, mating, FitClass::glued, halves.fit);
  cut.joint.sharedPlay = halves.sharedPlay;
  return cut;
}

}  // namespace dryfit::joinery
