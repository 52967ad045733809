#include "joinery/joints/kinds/mortise_tenon.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "joinery/joints/joint_numbers.h"
#include "joinery/joints/kinds/panel_line.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

using kernel::kContact;

std::string shoulderName(const PlacedPart& part, int axis, bool far) {
  return "shoulder_" + std::string(nameOf(part.named({axis, far})));
}

/// What is known of one mortise and tenon while it is worked out.
struct Work {
  const JointContext& context;
  const Mating& mating;
  TenonStyle style;
  JointNumbers& numbers;

  [[nodiscard]] std::optional<double> shoulder(int axis, bool far) const {
    return context.given(shoulderName(mating.first(), axis, far));
  }
  /// The panel's groove in the face that the tenon meets, where there is one.
  [[nodiscard]] std::optional<PanelLine> line() const { return panelLine(context, mating); }
  /// The deepest panel groove along one side of the tenoned part, 0 where there is none.
  [[nodiscard]] double grooveDepth(int axis, bool far) const {
    double depth = 0;
    for (const Feature& groove : context.groovesIn(0)) {
      if (groove.face != LocalFace{axis, far}) continue;
      depth = std::max(depth, groove.extent.size()[axis]);
    }
    return depth;
  }
};

Result<Stretch> onFace(Stretch stretch, Stretch blank, std::string_view what) {
  const bool inside = stretch.lo >= blank.lo - kContact && stretch.hi <= blank.hi + kContact;
  if (inside && stretch.size() > kContact) return stretch;
  return fail(ErrorCode::jointOutgrowsPart,
              "the tenon is too large for the " + std::string(what) + " of its own part", {},
              "make tenon and shoulders together no larger than the part");
}

/// A stretch from what its author gave: two of the shoulders and the size, or fewer.
struct Wish {
  std::optional<double> lo, hi, size;
};

Result<Stretch> wished(const Wish& wish, Stretch blank, double defaultSize, double defaultMiddle) {
  if (wish.lo && wish.hi) {
    if (wish.size) {
      return fail(ErrorCode::numbersDisagree, "both shoulders and the tenon's size are given", {},
                  "give two of the three");
    }
    return Stretch{blank.lo + *wish.lo, blank.hi - *wish.hi};
  }
  const double size = wish.size.value_or(defaultSize);
  if (wish.lo) return Stretch{blank.lo + *wish.lo, blank.lo + *wish.lo + size};
  if (wish.hi) return Stretch{blank.hi - *wish.hi - size, blank.hi - *wish.hi};
  return Stretch{defaultMiddle - size / 2, defaultMiddle + size / 2};
}

/// The mortise across the thickness of the tenoned part.
Result<Stretch> nominalThickness(const Work& work) {
  const int axis = work.mating.thicknessAxis();
  const Stretch blank = work.mating.blank(axis);
  const Wish wish{work.shoulder(axis, false), work.shoulder(axis, true),
                  work.context.given("tenon_thickness")};
  const auto offset = work.context.given("offset");
  if (offset && (wish.lo || wish.hi)) {
    return fail(ErrorCode::numbersDisagree,
                "the offset and a shoulder across the thickness are both given", "offset",
                "give one of them");
  }
  // A rail thicker than its stile has its tenon by the stile.
  const double stock = std::fmin(blank.size(), work.mating.area(axis).size());
  const double most = shareBy(RuleId::tenonThicknessShareMost) * stock;
  double byRule = work.context.shop.cutterNear(shareBy(RuleId::tenonThicknessShare) * stock, most);
  double middle = offset ? blank.mid() + *offset * farSign(work.mating.first(), axis)
                         : work.mating.area(axis).mid();
  // In a grooved frame the mortise stands in the groove, and the haunch fills it.
  if (const auto line = work.line()) {
    if (!offset) middle = line->across.mid();
    if (line->across.size() <= most) byRule = std::fmax(byRule, line->across.size());
  }
  auto nominal = wished(wish, blank, byRule, middle);
  if (nominal) nominal = onFace(*nominal, blank, "thickness");
  if (nominal) {
    const bool given = wish.size || (wish.lo && wish.hi);
    work.numbers.record("tenon thickness", nominal->size(), given, RuleId::tenonThicknessShare);
  }
  return nominal;
}

double defaultShoulder(const Work& work, int axis, bool far) {
  const double groove = work.grooveDepth(axis, far);
  if (work.style == TenonStyle::haunched) return groove;
  const double least =
      std::fmin(lengthBy(RuleId::tenonShoulderLeast).mm(),
                shareBy(RuleId::tenonShoulderShareMost) * work.mating.blank(axis).size());
  return std::fmax(groove, least);
}

/// On which side of the tenoned part the haunch lies: at the nearer end of the mortised part.
bool haunchIsFar(const Work& work, LocalFace wordFace, bool hasWord) {
  if (hasWord) return wordFace.far;
  const int axis = work.mating.alongAxis();
  const int across = work.mating.axisOfSecond(axis);
  const auto toEnd = [&](bool far) {
    kernel::Point3 p = work.mating.contact().area.centre();
    p.set(axis, far ? work.mating.area(axis).hi : work.mating.area(axis).lo);
    const double at = work.mating.toSecond().place(p)[across];
    return std::fmin(at, work.mating.second().size[across] - at);
  };
  return toEnd(true) < toEnd(false);
}

/// The tenon along the mortise, from the thickness between its own cheeks.
Result<Stretch> tenonWidth(const Work& work, Stretch cheeks, bool haunchFar) {
  const int axis = work.mating.alongAxis();
  const Stretch blank = work.mating.blank(axis);
  const bool haunched = work.style == TenonStyle::haunched;
  const Wish wish{work.shoulder(axis, false), work.shoulder(axis, true),
                  work.context.given("tenon_width")};
  Stretch room{blank.lo + wish.lo.value_or(defaultShoulder(work, axis, false)),
               blank.hi - wish.hi.value_or(defaultShoulder(work, axis, true))};
  room = {std::fmax(room.lo, work.mating.area(axis).lo),
          std::fmin(room.hi, work.mating.area(axis).hi)};
  // No wider than holds glued across the grain of the mortised part.
  const double most =
      work.context.shop.setOut(std::fmin(shareBy(RuleId::tenonWidthMostThicknesses) * cheeks.size(),
                                         lengthBy(RuleId::crossGrainWidthMost).mm()));
  double share = 1;
  RuleId source = RuleId::tenonShoulderLeast;
  double middle = room.mid();
  double byRule = std::fmin(room.size(), most);
  if (haunched) {
    source = RuleId::cornerTenonWidthShare;
    share = shareBy(RuleId::cornerTenonWidthShare);
    const auto haunch = work.context.given("haunch_width");
    const double split =
        haunch ? room.size() - *haunch : work.context.shop.setOut(share * room.size());
    byRule = std::fmin(split, most);
    const double size = wish.size.value_or(byRule);
    middle = haunchFar ? room.lo + size / 2 : room.hi - size / 2;
  }
  if (byRule >= most) source = RuleId::tenonWidthMostThicknesses;
  auto tenon = wished(wish, blank, byRule, middle);
  if (tenon) tenon = onFace(*tenon, blank, "width");
  if (tenon) {
    work.numbers.record("tenon width", tenon->size(), wish.size || (wish.lo && wish.hi), source);
  }
  return tenon;
}

void recordShoulders(const Work& work, int axis, Stretch tenon) {
  const Stretch blank = work.mating.blank(axis);
  for (const bool far : {false, true}) {
    std::string name = shoulderName(work.mating.first(), axis, far);
    std::ranges::replace(name, '_', ' ');
    work.numbers.record(name, far ? blank.hi - tenon.hi : tenon.lo - blank.lo,
                        work.shoulder(axis, far).has_value());
  }
}

/// How far the tenon stands out of the blank's end, blind: the published share of the mortised
/// part, but never so far that the least wall is not left behind it.
Result<double> blindReach(const Work& work, const std::array<Stretch, 3>& section,
                          double clearance) {
  const Mating& mating = work.mating;
  const double wall = lengthBy(RuleId::mortiseWallLeast).mm();
  const double byShare = shareBy(RuleId::tenonLengthShare) * mating.depthOfSecond();
  const double deepest = std::min({byShare, mating.depthOfSecond() - wall - clearance,
                                   lengthBy(RuleId::crossGrainWidthMost).mm()});
  const Stretch entry = mating.reachOf(section);
  const double shoulder = mating.contact().square ? 0 : entry.mid();
  const double slant = shoulder - (mating.contact().square ? 0 : entry.lo);
  auto length = work.numbers.positive("tenon_length",
                                      work.context.shop.setOut(deepest / mating.cosine() - slant),
                                      RuleId::tenonLengthShare);
  if (!length) return length;
  return shoulder + *length;
}

/// How far a through tenon stands out of the blank's end.
Result<double> throughReach(const Work& work, const std::array<Stretch, 3>& section,
                            double protrusion) {
  const Mating& mating = work.mating;
  const Stretch entry = mating.reachOf(section);
  const double shoulder = mating.contact().square ? 0 : entry.mid();
  const double out = mating.throughReach(section) + protrusion / mating.cosine();
  const auto given = work.context.given("tenon_length");
  if (given && work.context.given("protrusion")) {
    return fail(ErrorCode::numbersDisagree, "the tenon's length and its protrusion are both given",
                "protrusion", "give one of them");
  }
  work.numbers.record("tenon length", given ? *given : out - shoulder, given.has_value());
  if (given && *given <= kContact) {
    return fail(ErrorCode::numberTooSmall, "the tenon length leaves nothing to cut", "tenon_length",
                "give a length above 0");
  }
  return given ? shoulder + *given : out;
}

/// Adds the haunch beside the tenon and the socket for it.
Result<void> addHaunch(const Work& work, const Insert& tenon, Stretch pocketThickness,
                       bool haunchFar, std::vector<Feature>& features) {
  const Mating& mating = work.mating;
  const int axis = mating.alongAxis();
  const double side =
      haunchFar ? mating.blank(axis).hi - tenon.section[axis].hi : tenon.section[axis].lo;
  const auto width = work.numbers.positive("haunch_width", side, RuleId::cornerTenonWidthShare);
  if (!width) return tl::unexpected(width.error());
  if (*width > side + kContact) {
    return fail(ErrorCode::jointOutgrowsPart, "the haunch is wider than its shoulder",
                "haunch_width");
  }
  const double thickness = pocketThickness.size();
  const auto line = work.line();
  const double byRule =
      line ? line->depth : work.context.shop.setOut(shareBy(RuleId::haunchLengthShare) * thickness);
  const auto length = work.numbers.positive(
      "haunch_length", byRule, line ? RuleId::grooveDepthWidths : RuleId::haunchLengthShare);
  if (!length) return tl::unexpected(length.error());

  Insert haunch = tenon;
  const Stretch beside = tenon.section[axis];
  haunch.section[axis] =
      haunchFar ? Stretch{beside.hi, beside.hi + *width} : Stretch{beside.lo - *width, beside.lo};
  const double shoulder = mating.contact().square ? 0 : mating.reachOf(haunch.section).mid();
  haunch.reach = shoulder + *length;
  if (auto in = entersAllRound(mating, haunch); !in) return in;
  // The haunch fills its socket to the bottom, which shows at the end of the mortised part.
  Insert socket = haunch;
  socket.section[mating.thicknessAxis()] = pocketThickness;
  features.push_back(mating.standing(work.context.id(), Purpose::haunch, haunch));
  features.push_back(mating.pocket(work.context.id(), Purpose::haunchSocket, socket));
  return {};
}

Result<bool> haunchSide(const Work& work) {
  const auto word = faceWord(work.context, "haunch");
  if (!word) return haunchIsFar(work, {}, false);
  const LocalFace face = work.mating.first().local(*word);
  if (face.axis != work.mating.alongAxis()) {
    return fail(ErrorCode::faceUnfit, "the haunch cannot be on this side of the tenon", "haunch",
                "name a side across the tenon's width");
  }
  return haunchIsFar(work, face, true);
}

/// The tenon, and the room that the mortise gives it.
struct Halves {
  Insert tenon, room;
  double fit = 0;  ///< play across the cheeks, mm
  std::optional<SharedPlay> sharedPlay;
  bool haunchFar = false;
};

/// Both halves across the face of the tenoned part; how far they reach is still open.
Result<Halves> sectionsOf(const Work& work) {
  const int across = work.mating.thicknessAxis();
  const int along = work.mating.alongAxis();
  Halves halves;
  const auto thickness = nominalThickness(work);
  if (!thickness) return tl::unexpected(thickness.error());
  const auto haunchFar = haunchSide(work);
  if (!haunchFar) return tl::unexpected(haunchFar.error());
  halves.haunchFar = *haunchFar;
  halves.fit =
      work.numbers.length("fit", lengthBy(RuleId::glueClearance).mm(), RuleId::glueClearance);
  const auto cheeks = cheeksOf(*thickness, work.mating.blank(across), halves.fit);
  if (!cheeks) return tl::unexpected(cheeks.error());
  halves.sharedPlay = cheeks->sharedPlay(across);
  const auto width = tenonWidth(work, cheeks->insert, *haunchFar);
  if (!width) return tl::unexpected(width.error());
  recordShoulders(work, across, *thickness);
  recordShoulders(work, along, *width);

  halves.tenon.section[across] = cheeks->insert;
  halves.tenon.section[along] = *width;
  halves.room.section[across] = cheeks->pocket;
  halves.room.section[along] = *width;
  return halves;
}

/// Lets a through tenon come out behind the mortised part.
Result<void> reachThrough(const Work& work, Halves& halves) {
  const double protrusion = work.context.given("protrusion").value_or(0);
  const auto reach = throughReach(work, halves.tenon.section, protrusion);
  if (!reach) return tl::unexpected(reach.error());
  halves.tenon.reach = *reach;
  halves.room.reach = *reach;
  return {};
}

/// Lets a blind tenon end in the wood, and its mortise go a little deeper.
Result<void> reachBlind(const Work& work, Halves& halves) {
  const LengthRule source = RuleId::mortiseBottomClearance;
  const auto clearance =
      work.numbers.notNegative("bottom_clearance", lengthBy(source).mm(), source.id());
  if (!clearance) return tl::unexpected(clearance.error());
  const auto reach = blindReach(work, halves.tenon.section, *clearance);
  if (!reach) return tl::unexpected(reach.error());
  halves.tenon.reach = *reach;
  halves.room.reach = *reach + *clearance;
  const double shoulder = work.mating.reachOf(halves.tenon.section).mid();
  work.numbers.record("mortise depth", halves.room.reach - shoulder, false, source.id());
  return {};
}

/// Tenon, mortise, and what else the style and the slant of the faces ask for.
Result<std::vector<Feature>> featuresOf(const Work& work, const Halves& halves) {
  const Mating& mating = work.mating;
  const JointId id = work.context.id();
  const bool through = work.style == TenonStyle::through;
  if (auto in = entersAllRound(mating, halves.tenon); !in) return tl::unexpected(in.error());
  std::vector<Feature> features = mating.shoulderFit(id);
  features.push_back(mating.standing(id, Purpose::tenon, halves.tenon));
  features.back().through = through;
  Openings openings;
  openings.through = through;
  features.push_back(mating.pocket(id, Purpose::mortise, halves.room, openings));
  const bool slanting = !mating.contact().square;
  if (through && slanting && !work.context.given("tenon_length")) {
    const double protrusion = work.context.given("protrusion").value_or(0);
    features.push_back(mating.trimmed(id, halves.tenon, protrusion));
  }
  if (work.style == TenonStyle::haunched) {
    const Stretch thickness = halves.room.section[mating.thicknessAxis()];
    auto added = addHaunch(work, halves.tenon, thickness, halves.haunchFar, features);
    if (!added) return tl::unexpected(added.error());
  }
  return features;
}

}  // namespace

Result<JointCut> cutMortiseTenon(const JointContext& context, TenonStyle style) {
  const auto mating = Mating::of(context.mate(0), context.mate(1), faceWord(context, "face"));
  if (!mating) return tl::unexpected(mating.error());
  JointNumbers numbers(context);
  const Work work{context, *mating, style, numbers};
  auto halves = sectionsOf(work);
  if (!halves) return tl::unexpected(halves.error());
  const auto reached =
      style == TenonStyle::through ? reachThrough(work, *halves) : reachBlind(work, *halves);
  if (!reached) return tl::unexpected(reached.error());
  auto features = featuresOf(work, *halves);
  if (!features) return tl::unexpected(features.error());
  JointCut cut{placedJoint(context, *mating, FitClass::glued, halves->fit), std::move(*features)};
  cut.joint.sharedPlay = halves->sharedPlay;
  cut.joint.values = numbers.take();
  return cut;
}

}  // namespace dryfit::joinery
