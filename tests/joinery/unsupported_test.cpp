// Parts that nothing holds.

#include <gmock/gmock.h>

#include "tests/support/hand_made.h"

namespace dryfit::joinery {
namespace {

using test::findingsOf;
using test::HandMade;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// Two trestles, each a post on a foot, under a seat that lies `above` them.
HandMade bench(double above) {
  HandMade made;
  for (const double x : {0.0, 800.0}) {
    const std::string side = x < 1 ? "left_" : "right_";
    const PartId foot = made.part(side + "foot", {{x, 0, 0}, {x + 60, 300, 50}}, Axis::y, Axis::x);
    const PartId post =
        made.part(side + "post", {{x, 120, 50}, {x + 60, 180, 400}}, Axis::z, Axis::x);
    made.joint(side + "corner", {post, foot});
  }
  made.part("seat", {{-50, 0, 400 + above}, {910, 300, 430 + above}}, Axis::x, Axis::y);
  return made;
}

TEST(Unsupported, IsASeatThatFloatsAboveItsFrames) {
  for (const double above : {0.0, 0.4, 0.6, 10.0}) {
    const auto found = findingsOf(bench(above).piece, "unsupported");
    ASSERT_THAT(found, SizeIs(above > 0.5 ? 1 : 0)) << above;
    if (found.empty()) continue;
    EXPECT_EQ(found[0].severity, Severity::error);
    EXPECT_THAT(found[0].parts, ElementsAre(PartId(4)));
    EXPECT_EQ(found[0].text, "Nothing holds seat: no joint, no hardware, no part under it.");
  }
}

TEST(Unsupported, IsAPartThatOnlyTouchesAnotherBesideIt) {
  HandMade made = bench(0);
  made.part("stop", {{60, 120, 200}, {80, 180, 240}}, Axis::z, Axis::y);
  EXPECT_THAT(findingsOf(made.piece, "unsupported"), SizeIs(1));
  made.joint("glue", {PartId(5), PartId(1)});
  EXPECT_THAT(findingsOf(made.piece, "unsupported"), IsEmpty());
}

TEST(Unsupported, IsNotWhatHardwareHolds) {
  HandMade made = bench(0);
  const PartId door = made.part("door", {{70, 0, 60}, {400, 20, 380}}, Axis::z, Axis::x);
  const PartId knob = made.part("knob", {{380, -30, 200}, {400, 0, 220}}, Axis::y, Axis::x);
  made.joint("knob", {knob, door});
  const auto found = findingsOf(made.piece, "unsupported");
  ASSERT_THAT(found, SizeIs(1));
  EXPECT_THAT(found[0].parts, ElementsAre(door, knob)) << "told once for all that hang together";
  made.piece.model.hardware.push_back({"hinge", 2, {}, {}, {"door"}});
  EXPECT_THAT(findingsOf(made.piece, "unsupported"), IsEmpty());
}

TEST(Unsupported, IsWhatAJointHoldsAcrossAGap) {
  HandMade made = bench(10);
  made.joint("pegs", {PartId(4), PartId(1)});
  EXPECT_THAT(findingsOf(made.piece, "unsupported"), IsEmpty());
  made.piece.joints.back().gap = 10;
  EXPECT_THAT(findingsOf(made.piece, "unsupported"), SizeIs(1));
}

TEST(Unsupported, IsAJointedPartWhoseJointCannotBeCut) {
  HandMade made = bench(0);
  made.part("shelf", {{200, 0, 100}, {700, 300, 120}}, Axis::x, Axis::y);
  made.joint("housing", {PartId(5), PartId(1)});
  EXPECT_THAT(findingsOf(made.piece, "unsupported"), IsEmpty());
  made.piece.joints.back().notCut = Error{ErrorCode::matesApart, "too far", {}, {}};
  EXPECT_THAT(findingsOf(made.piece, "unsupported"), SizeIs(1));
}

TEST(Unsupported, IsNoMatterOfHowManyPartsLieOnEachOther) {
  HandMade made = bench(0);
  for (int i = 0; i < 5; ++i) {
    const double z = 430 + 20 * i;
    made.part("book_" + std::to_string(i), {{0, 0, z}, {200, 200, z + 20}}, Axis::x, Axis::y);
  }
  EXPECT_THAT(findingsOf(made.piece, "unsupported"), IsEmpty());
}

}  // namespace
}  // namespace dryfit::joinery
