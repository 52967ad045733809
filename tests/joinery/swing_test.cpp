// Doors and lids have room to turn.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <nlohmann/json.hpp>

#include "joinery/fit/dry_fit.h"
#include "tests/support/joint_bench.h"

namespace dryfit::test {
namespace {

using joinery::Finding;
using joinery::FindingKind;
using joinery::Severity;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

struct DoorSizes {
  double width = 400, thickness = 22;
  double freeGap = 2, topGap = 2;
  double degrees = -90;  ///< drawn open; 0: closed
  double pinBehind = 0;  ///< how far the pin lies behind the door's front
};

/// An inset door between two stiles and under a rail, hinged at its left front edge.
nlohmann::ordered_json cupboard(const DoorSizes& d) {
  ModelText text;
  const double w = d.width + 2 + d.freeGap;
  text.part("left_stile", {"z", 0, 800}, {"x", -60, 60}, {"y", 0, 24})
      .part("right_stile", {"z", 0, 800}, {"x", w, 60}, {"y", 0, 24})
      .part("rail", {"x", 0, w}, {"z", 740, 60}, {"y", 0, 24})
      .part("sill", {"x", 0, w}, {"z", 0, 40}, {"y", 0, 24})
      .part("door", {"z", 42, 740 - d.topGap - 42}, {"x", 2, d.width}, {"y", 0, d.thickness});
  nlohmann::ordered_json json = text.json();
  json["groups"]["door"] = {
      {"turn", {{"about", "z"}, {"at", {2, d.pinBehind, 0}}, {"angle", d.degrees}}},
      {"opens", true}};
  json["parts"]["door"]["group"] = "door";
  json["hardware"]["hinge"] = {{"count", 2},
                               {"holds", {"door", "left_stile", "right_stile", "rail", "sill"}}};
  return json;
}

std::vector<Finding> bindingOf(const nlohmann::ordered_json& json) {
  std::vector<Finding> found;
  const auto fit = dryFitOf(json);
  if (!fit) return found;
  std::ranges::copy_if(fit->findings, std::back_inserter(found),
                       [](const Finding& f) { return f.kind == FindingKind::binds; });
  return found;
}

TEST(Swing, IsFreeWhereADoorHasItsUsualGap) {
  for (const double degrees : {-90.0, -30.0, 0.0}) {
    for (const double width : {250.0, 400.0, 600.0}) {
      EXPECT_THAT(bindingOf(cupboard({.width = width, .degrees = degrees})), IsEmpty())
          << degrees << ", " << width;
    }
  }
}

// By Pythagoras: the corner behind the free edge is hypot(width, thickness) from the pin, and
// passes that far out.
TEST(Swing, NeedsRoomForTheCornerBehindTheFreeEdge) {
  for (const double width : {200.0, 300.0, 450.0}) {
    const double needed = std::hypot(width, 30) - width;
    const auto tight =
        bindingOf(cupboard({.width = width, .thickness = 30, .freeGap = needed - 0.05}));
    ASSERT_THAT(tight, SizeIs(1)) << width;
    EXPECT_EQ(tight[0].severity, Severity::error);
    EXPECT_THAT(tight[0].text, HasSubstr("Door strikes right stile with its door at "));
    EXPECT_NEAR(tight[0].measured, std::atan2(30, width) * 180 / 3.14159265358979, 1.5);
    EXPECT_THAT(tight[0].mend, HasSubstr("at its free edge"));
    const auto free = bindingOf(
        cupboard({.width = width, .thickness = 30, .freeGap = std::fmax(needed + 0.05, 1)}));
    EXPECT_THAT(free, IsEmpty()) << width;
  }
}

TEST(Swing, ADoorWithoutClearanceBinds) {
  for (const double gap : {0.0, 0.5, 0.9}) {
    const auto found = bindingOf(cupboard({.topGap = gap}));
    ASSERT_THAT(found, SizeIs(1)) << gap;
    EXPECT_EQ(found[0].severity, Severity::warning);
    EXPECT_NEAR(found[0].measured, gap, 1e-9);
    EXPECT_THAT(found[0].text, HasSubstr(gap == 0 ? "touches rail at the top" : "only"));
    EXPECT_THAT(found[0].mend, HasSubstr("1.6 mm"));
  }
  EXPECT_THAT(bindingOf(cupboard({.topGap = 1})), IsEmpty());
}

TEST(Swing, CannotPassAPartInItsWay) {
  auto json = cupboard({.degrees = 0});
  json["parts"]["post"] = json["parts"]["left_stile"];
  json["parts"]["post"]["width"] = {{"along", "x"}, {"from", 200}, {"size", 60}};
  json["parts"]["post"]["thickness"] = {{"along", "y"}, {"from", -150}, {"size", 24}};
  // Drawn closed, it is tried both ways, and the way that goes farther is told of.
  const auto closed = bindingOf(json);
  ASSERT_THAT(closed, SizeIs(1));
  EXPECT_THAT(closed[0].text, HasSubstr("strikes post"));
  json["groups"]["door"]["turn"]["angle"] = -60;
  const auto front = bindingOf(json);
  ASSERT_THAT(front, SizeIs(1));
  EXPECT_THAT(front[0].text, HasSubstr("strikes post"));
  EXPECT_GT(front[0].measured, 15);
  EXPECT_LT(front[0].measured, 60);
  EXPECT_THAT(front[0].mend, HasSubstr("Move post out of its way"));
}

TEST(Swing, OfALidIsCheckedToo) {
  for (const double gap : {0.0, 2.0}) {
    ModelText text;
    text.part("left", {"y", 0, 300}, {"z", 0, 240}, {"x", 0, 20})
        .part("right", {"y", 0, 300}, {"z", 0, 240}, {"x", 420, 20})
        .part("lid", {"x", 20 + gap, 400 - 2 * gap}, {"y", 0, 300}, {"z", 220, 20});
    nlohmann::ordered_json json = text.json();
    json["groups"]["lid"] = {{"turn", {{"about", "x"}, {"at", {900, 300, 240}}, {"angle", -95}}},
                             {"opens", true}};
    json["parts"]["lid"]["group"] = "lid";
    json["hardware"]["hinge"] = {{"count", 2}, {"holds", {"lid", "left", "right"}}};
    EXPECT_THAT(bindingOf(json), SizeIs(gap > 0 ? 0 : 1)) << gap;
  }
}

}  // namespace
}  // namespace dryfit::test
