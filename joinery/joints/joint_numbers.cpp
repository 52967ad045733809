#include "joinery/joints/joint_numbers.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

std::string spaced(std::string_view name) {
  std::string words(name);
  std::ranges::replace(words, '_', ' ');
  return words;
}

std::string sourceOf(RuleId id) {
  return std::string(rule(id).source);
}

}  // namespace

double JointNumbers::length(std::string_view parameter, double byRule, RuleId id) {
  const auto given = context_->given(parameter);
  record(spaced(parameter), given.value_or(byRule), given.has_value(), id);
  return given.value_or(byRule);
}

double JointNumbers::number(std::string_view parameter, double byRule, RuleId id) {
  const double value = length(parameter, byRule, id);
  values_.back().isLength = false;
  return value;
}

Result<double> JointNumbers::positive(std::string_view parameter, double byRule, RuleId id) {
  const double value = length(parameter, byRule, id);
  if (value > kernel::kContact) return value;
  return fail(ErrorCode::numberTooSmall, "the " + spaced(parameter) + " leaves nothing to cut",
              std::string(parameter), "give a length above 0");
}

Result<double> JointNumbers::notNegative(std::string_view parameter, double byRule, RuleId id) {
  const double value = length(parameter, byRule, id);
  if (value >= 0) return value;
  return fail(ErrorCode::numberTooSmall, "the " + spaced(parameter) + " is less than 0",
              std::string(parameter), "give 0 or more");
}

void JointNumbers::record(std::string_view name, double value, bool given,
                          std::optional<RuleId> id) {
  values_.push_back(
      {std::string(name), value, true, given, given || !id ? std::string{} : sourceOf(*id)});
}

PlacedJoint placedJoint(const JointContext& context, const Mating& mating, FitClass fitClass,
                        double fit) {
  PlacedJoint joint;
  joint.id = context.id();
  joint.mates = {mating.first().id, mating.second().id};
  joint.homeDirection = mating.homeDirection();
  joint.gap = mating.contact().square ? mating.contact().gap : 0;
  joint.gapTo = mating.second().id;
  joint.gapFace = mating.contact().face;
  joint.at = mating.middle();
  setFit(joint, fitClass, fit);
  return joint;
}

void setFit(PlacedJoint& joint, FitClass fitClass, double fit) {
  joint.fit = fit;
  if (fitClass == FitClass::none) return;
  const bool glued = fitClass == FitClass::glued;
  const LengthRule least =
      glued ? LengthRule(RuleId::glueClearanceLeast) : LengthRule(RuleId::slidingClearanceLeast);
  const LengthRule most =
      glued ? LengthRule(RuleId::glueClearanceMost) : LengthRule(RuleId::slidingClearanceMost);
  joint.fitMin = lengthBy(least).mm();
  joint.fitMax = lengthBy(most).mm();
  joint.fitSource = sourceOf(most.id());
}

std::optional<Face> faceWord(const JointContext& context, std::string_view parameter) {
  const auto word = context.word(parameter);
  return word ? faceNamed(*word) : std::nullopt;
}

Result<Cheeks> cheeksOf(Stretch nominal, Stretch blank, double fit) {
  const bool flushLo = std::fabs(nominal.lo - blank.lo) <= kernel::kContact;
  const bool flushHi = std::fabs(nominal.hi - blank.hi) <= kernel::kContact;
  if (flushLo && flushHi) {
    return Cheeks{blank, {blank.lo - fit / 2, blank.hi + fit / 2}, true, true};
  }
  if (nominal.size() - fit <= kernel::kContact) {
    return fail(ErrorCode::jointLeavesNothing, "the fit leaves nothing of the part that goes in",
                "fit",
                "the fit is the play across both cheeks: give a small fraction of the thickness");
  }
  if (flushLo) return Cheeks{{blank.lo, nominal.hi - fit}, nominal};
  if (flushHi) return Cheeks{{nominal.lo + fit, blank.hi}, nominal};
  return Cheeks{{nominal.lo + fit / 2, nominal.hi - fit / 2}, nominal, true, false};
}

Result<void> entersAllRound(const Mating& mating, const Insert& insert) {
  if (mating.contact().square || insert.reach > mating.reachOf(insert.section).hi) return {};
  return fail(ErrorCode::matesAskew,
              "the other part's face slants so much that one end of the joint does not reach it",
              {}, "make the joint deeper or narrower, or turn both parts together");
}

double farSign(const PlacedPart& part, int axis) {
  return isFarFace(part.named({axis, true})) ? 1 : -1;
}

Result<Stretch> acrossThickness(const JointContext& context, const Mating& mating,
                                double thickness) {
  const int axis = mating.thicknessAxis();
  const Stretch blank = mating.blank(axis);
  const auto offset = context.given("offset");
  const double middle =
      offset ? blank.mid() + *offset * farSign(mating.first(), axis) : mating.area(axis).mid();
  const Stretch nominal{middle - thickness / 2, middle + thickness / 2};
  if (nominal.lo >= blank.lo - kernel::kContact && nominal.hi <= blank.hi + kernel::kContact) {
    return nominal;
  }
  return fail(ErrorCode::jointOutgrowsPart,
              "the joint does not fit within the thickness of the part", offset ? "offset" : "",
              "make it thinner, or bring it within the part");
}

}  // namespace dryfit::joinery
