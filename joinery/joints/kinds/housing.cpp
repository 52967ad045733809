#include "joinery/joints/kinds/housing.h"

#include <cmath>
#include <utility>

#include "joinery/joints/joint_numbers.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

/// On which end of the shelf's width the housing stops: the front, or where that is not an end of
/// it, the left or the bottom.
Result<bool> stopIsFar(const JointContext& context, const Mating& mating) {
  const int along = mating.alongAxis();
  const auto word = faceWord(context, "stop_face");
  if (!word) return mating.first().local(faceOf(mating.first().along[along], false)).far;
  const LocalFace face = mating.first().local(*word);
  if (face.axis == along) return face.far;
  return fail(ErrorCode::faceUnfit, "the housing does not reach this side", "stop_face",
              "name one of the two edges beside the shelf's end");
}

/// True where the shelf reaches the edge of the side, so that its housing runs out there. Where it
/// ends before, the housing ends with it: an open slot would show beside the shelf.
bool reachesEdge(const Mating& mating, bool far) {
  const int along = mating.alongAxis();
  const int across = mating.axisOfSecond(along);
  kernel::Point3 p = mating.contact().area.centre();
  p.set(along, far ? mating.area(along).hi : mating.area(along).lo);
  const double at = mating.toSecond().place(p)[across];
  const double left = std::fmin(at, mating.second().size[across] - at);
  return left <= lengthBy(RuleId::restingMost).mm();
}

/// The part of the shelf's end that goes in, and which ends of the housing are open.
Result<Openings> stopAt(const JointContext& context, const Mating& mating, JointNumbers& numbers,
                        Stretch& along) {
  Openings openings;
  const auto far = stopIsFar(context, mating);
  if (!far) return tl::unexpected(far.error());
  const double byRule =
      std::fmin(lengthBy(RuleId::stoppedHousingSetback).mm(),
                context.shop.setOut(shareBy(RuleId::housingSetbackShareMost) * along.size()));
  const auto stop = numbers.positive("stop", byRule, RuleId::stoppedHousingSetback);
  if (!stop) return tl::unexpected(stop.error());
  (*far ? along.hi : along.lo) += *far ? -*stop : *stop;
  if (along.size() <= kernel::kContact) {
    return fail(ErrorCode::jointLeavesNothing, "the stop leaves no housing", "stop",
                "give less than the shelf's width");
  }
  openings.side[mating.alongAxis()][*far ? 0 : 1] = reachesEdge(mating, !*far);
  return openings;
}

}  // namespace

Result<JointCut> cutHousing(const JointContext& context, bool stopped) {
  const auto mating = Mating::of(context.mate(0), context.mate(1), faceWord(context, "face"));
  if (!mating) return tl::unexpected(mating.error());
  JointNumbers numbers(context);
  const int across = mating->thicknessAxis();
  const int along = mating->alongAxis();

  const auto depth = numbers.positive(
      "depth", context.shop.setOut(shareBy(RuleId::housingDepthShare) * mating->depthOfSecond()),
      RuleId::housingDepthShare);
  if (!depth) return tl::unexpected(depth.error());
  const double fit =
      numbers.length("fit", lengthBy(RuleId::glueClearance).mm(), RuleId::glueClearance);
  Stretch length = mating->area(along);
  Openings openings;
  openings.side[along] = {reachesEdge(*mating, false), reachesEdge(*mating, true)};
  if (stopped) {
    const auto stop = stopAt(context, *mating, numbers, length);
    if (!stop) return tl::unexpected(stop.error());
    openings = *stop;
  }

  const auto cheeks = cheeksOf(mating->blank(across), mating->blank(across), fit);
  if (!cheeks) return tl::unexpected(cheeks.error());
  Insert end;
  end.section[across] = cheeks->insert;
  end.section[along] = length;
  end.reach = *depth;
  if (!mating->contact().square) end.reach += mating->reachOf(end.section).mid();
  if (auto in = entersAllRound(*mating, end); !in) return tl::unexpected(in.error());
  Insert room = end;
  room.section[across] = cheeks->pocket;
  numbers.record("housing width", cheeks->pocket.size(), false, RuleId::glueClearance);

  JointCut cut;
  cut.features = mating->shoulderFit(context.id());
  cut.features.push_back(mating->standing(context.id(), Purpose::tongue, end));
  Feature housing = mating->pocket(context.id(), Purpose::housing, room, openings);
  housing.run = mating->axisOfSecond(along);
  housing.stopped = !openings.side[along][0] || !openings.side[along][1];
  cut.features.push_back(std::move(housing));
  cut.joint = placedJoint(context, *mating, FitClass::glued, fit);
  cut.joint.sharedPlay = cheeks->sharedPlay(across);
  cut.joint.values = numbers.take();
  return cut;
}

}  // namespace dryfit::joinery
