// The checks that need numbers only: gap, fit, envelope, proportion.
#include <gtest/gtest.h>
#include <algorithm>

#include "joinery/trade/rules.h"
#include "kernel/tolerance.h"
#include "tests/support/hand_made.h"
#include "tests/support/joint_bench.h"

namespace dryfit::joinery {
namespace {

using test::findingsOf;
using test::HandMade;

/// Stile 60 x 24 and a rail of the same thickness, with a tenon of the given sizes.
HandMade frameCorner(double length = 40, double width = 36, double thickness = 8) {
  HandMade made;
  const PartId stile = made.part("stile", {{0, 0, 0}, {60, 24, 600}}, Axis::z, Axis::x);
  const PartId rail = made.part("rail", {{60, 0, 400}, {360, 24, 500}}, Axis::x, Axis::z);
  made.mortiseAndTenon(
      "corner", rail, stile,
      {{58 - length, 12 - thickness / 2, 410}, {60, 12 + thickness / 2, 410 + width}}, Face::left,
      2, 0);
  PlacedJoint& joint = made.piece.joints.front();
  joint.fit = 0.1;
  return made;
}

TEST(Gap, IsFoundWhereTheRailStandsShortOfTheStile) {
  for (const double gap : {0.0, kernel::kContact, 0.05, 3.0}) {
    HandMade made = frameCorner();
    made.piece.joints.front().gap = gap;
    const auto findings = findingsOf(made.piece, "gap");
    ASSERT_EQ(findings.size(), gap > kernel::kContact ? 1u : 0u) << gap;
    if (findings.empty()) continue;
    EXPECT_EQ(findings[0].measured, gap);
    EXPECT_EQ(findings[0].joint, JointId(0));
    EXPECT_EQ(findings[0].text, gap > 1 ? "Rail stands 3 mm short of stile at joint corner."
                                        : "Rail stands 0.05 mm short of stile at joint corner.");
  }
}

TEST(Fit, IsLooseAboveItsAllowanceAndTightBelowIt) {
  for (const auto& [fit, kind, severity] : {std::tuple(-0.1, FindingKind::tight, Severity::error),
                                            {0.02, FindingKind::tight, Severity::warning},
                                            {0.2, FindingKind::loose, Severity::warning},
                                            {0.5, FindingKind::loose, Severity::error}}) {
    HandMade made = frameCorner();
    made.piece.joints.front().fit = fit;
    const auto findings = findingsOf(made.piece, "fit");
    ASSERT_EQ(findings.size(), 1u) << fit;
    EXPECT_EQ(findings[0].kind, kind);
    EXPECT_EQ(findings[0].severity, severity);
    EXPECT_EQ(findings[0].measured, fit);
    EXPECT_EQ(findings[0].mend, "Set the fit of joint corner between 0.05 mm and 0.15 mm.");
  }
}

TEST(Fit, IsRightAnywhereWithinItsAllowance) {
  for (const double fit : {0.05, 0.1, 0.15}) {
    HandMade made = frameCorner();
    made.piece.joints.front().fit = fit;
    EXPECT_TRUE(findingsOf(made.piece, "fit").empty()) << fit;
  }
}

TEST(Fit, OfALoosePanelIsNoErrorHoweverLoose) {
  HandMade made = frameCorner();
  made.piece.joints.front().fit = 5;
  made.piece.joints.front().glued = false;
  ASSERT_EQ(findingsOf(made.piece, "fit").size(), 1u);
  EXPECT_EQ(findingsOf(made.piece, "fit")[0].severity, Severity::warning);
}

TEST(Envelope, HoldsThePieceAgainstTheBrief) {
  // The corner is 360 wide, 24 deep and 600 high.
  for (const auto& [wanted, tolerance, found] :
       {std::tuple("360", "0", 0u), {"358", "2", 0u}, {"357.9", "2", 1u}, {"362.1", "2", 1u}}) {
    HandMade made = frameCorner();
    made.piece.model.brief.width = Expression{wanted, true};
    made.piece.model.brief.tolerance = Expression{tolerance, true};
    const auto findings = findingsOf(made.piece, "envelope");
    ASSERT_EQ(findings.size(), found) << wanted;
    if (findings.empty()) continue;
    EXPECT_EQ(findings[0].severity, Severity::error);
    EXPECT_NEAR(findings[0].measured, 360, 1e-6);
    EXPECT_EQ(findings[0].parts, (std::vector{PartId(0), PartId(1)}));
  }
}

TEST(Envelope, CountsTheTenonsThatStandOut) {
  HandMade made = frameCorner();
  made.insert(JointId(0), PartId(1), Purpose::tenon, {{360, 8, 410}, {400, 16, 446}}, Face::right);
  made.piece.model.brief.width = Expression{"360", true};
  const auto findings = findingsOf(made.piece, "envelope");
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_NEAR(findings[0].measured, 400, 1e-6);
}

TEST(Envelope, NotesADeviationThatTheClientApproved) {
  HandMade made = frameCorner();
  made.piece.model.brief.height = Expression{"550", true};
  made.piece.model.brief.approved = {"height"};
  const auto findings = findingsOf(made.piece, "envelope");
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0].severity, Severity::note);
  EXPECT_EQ(findings[0].text,
            "The height is 600 mm, 50 mm more than the 550 mm of the brief; the client approved "
            "it.");
}

/// But for the width of the rail, which is one tenon's too many.
std::vector<Finding> besidesTheRail(std::vector<Finding> findings) {
  std::erase_if(findings, [](const Finding& f) { return f.text.find("can twist") != f.text.npos; });
  return findings;
}

TEST(Proportion, OfARailOver75IsTwoTenonsOrHalfItsWidth) {
  // diyinfo.org: a rail over 75 mm has two tenons, each a quarter of its width; Noyes, "Handwork in
  // Wood": half the rail's width. The rail here is 100 wide.
  for (double width = 30; width <= 60; width += 2.5) {
    const auto findings = findingsOf(frameCorner(40, width, 12).piece, "proportion");
    ASSERT_EQ(findings.size(), width < 50 ? 1u : 0u) << width;
    if (findings.empty()) continue;
    EXPECT_EQ(findings[0].measured, width);
    EXPECT_EQ(findings[0].limit, 50);
    EXPECT_NE(findings[0].mend.find("two tenons in line, each about 25 mm wide"), std::string::npos)
        << findings[0].mend;
  }
}

TEST(Proportion, OfATenonIsAQuarterToHalfTheStock) {
  for (double thickness = 4; thickness <= 14; thickness += 0.5) {
    const auto findings =
        besidesTheRail(findingsOf(frameCorner(40, 20, thickness).piece, "proportion"));
    const bool weak = thickness < 6 || thickness > 12;
    ASSERT_EQ(findings.size(), weak ? 1u : 0u) << thickness;
    if (!weak) continue;
    EXPECT_EQ(findings[0].kind, FindingKind::weak);
    EXPECT_EQ(findings[0].severity, Severity::warning);
    EXPECT_NEAR(findings[0].limit, thickness < 6 ? 6 : 12, 1e-9);
  }
}

TEST(Proportion, OfATenonNarrowerThanItIsThickIsStillOfTheStocksThickness) {
  // 12 mm thick in stock of 24 mm is right, however narrow the tenon on the rail of 100 mm.
  for (const double width : {8.0, 11.0, 12.0, 13.0, 30.0}) {
    EXPECT_TRUE(besidesTheRail(findingsOf(frameCorner(40, width, 12).piece, "proportion")).empty())
        << width;
  }
  const auto thin = besidesTheRail(findingsOf(frameCorner(40, 4, 5).piece, "proportion"));
  ASSERT_EQ(thin.size(), 1u);
  EXPECT_NEAR(thin[0].measured, 5, 1e-9);
  EXPECT_EQ(thin[0].limit, 6);
  EXPECT_EQ(thin[0].text,
            "The tenon of joint corner on rail is 5 mm thick in stock of 24 mm: too thin to be "
            "strong.");
}

TEST(Proportion, OfATenonIsAtMostFiveThicknessesInWidth) {
  // diyinfo.org: the width of one tenon is at most five times its thickness.
  for (double width = 36; width <= 44; width += 0.5) {
    const auto findings = besidesTheRail(findingsOf(frameCorner(40, width, 8).piece, "proportion"));
    ASSERT_EQ(findings.size(), width > 40 ? 1u : 0u) << width;
    if (width > 40) {
      EXPECT_EQ(findings[0].mend, "Make it at most 40 mm wide, or split it into two tenons.");
    }
  }
}

TEST(Proportion, OfATenonIsAtLeastHalfTheStileInLength) {
  // woodmagazine.com: a blind tenon is half to two thirds of the mortised part's width.
  for (double length = 25; length <= 35; length += 0.5) {
    const auto findings = besidesTheRail(findingsOf(frameCorner(length).piece, "proportion"));
    ASSERT_EQ(findings.size(), length < 30 ? 1u : 0u) << length;
  }
}

TEST(Proportion, OfATenonInALegIsAtLeastAThirdWhereTwoMeet) {
  for (double length = 15; length <= 25; length += 0.5) {
    HandMade made = frameCorner(length);
    const PartId side = made.part("side", {{18, 24, 400}, {42, 300, 500}}, Axis::y, Axis::z);
    made.mortiseAndTenon("side", side, PartId(0), {{26, 4, 410}, {34, 24, 446}}, Face::front, 2, 0);
    const auto findings = besidesTheRail(findingsOf(made.piece, "proportion"));
    ASSERT_EQ(findings.size(), length < 20 ? 1u : 0u) << length;
  }
}

TEST(Proportion, OfAStubInAGrooveIsLeftToItsGroove) {
  HandMade made = frameCorner(10, 80, 8);
  ASSERT_EQ(besidesTheRail(findingsOf(made.piece, "proportion")).size(), 2u);
  for (Feature& feature : made.piece.parts[0].features) feature.purpose = Purpose::groove;
  EXPECT_TRUE(findingsOf(made.piece, "proportion").empty());
}

TEST(Proportion, OfAHousingIsAtMostHalfTheSide) {
  for (const double depth : {6.0, 9.0, 9.5, 12.0}) {
    HandMade made;
    const PartId side = made.part("side", {{0, 0, 0}, {18, 300, 700}}, Axis::z, Axis::y, "ply");
    const PartId shelf =
        made.part("shelf", {{18, 0, 300}, {600, 300, 318}}, Axis::x, Axis::y, "ply");
    const JointId joint = made.joint("housing", {shelf, side});
    made.insert(joint, shelf, Purpose::tongue, {{18 - depth, 0, 300}, {18, 300, 318}}, Face::left);
    made.cut(joint, side, Purpose::housing, {{18 - depth, 0, 300}, {18, 300, 318}}, Face::right);
    const auto findings = besidesTheRail(findingsOf(made.piece, "proportion"));
    ASSERT_EQ(findings.size(), depth > 9 ? 1u : 0u) << depth;
    if (findings.empty()) continue;
    EXPECT_EQ(findings[0].parts, std::vector{side});
  }
}

// The length of three to four thicknesses is published (furnituremaking.us, leg to apron joint);
// half of a wide rail would be more than a bar of a headboard needs.
TEST(TenonLength, InAWideRailIsThreeOfItsThicknesses) {
  const auto weakAt = [](double length, double railWidth) {
    test::ModelText text;
    text.part("rail", {"x", 0, 600}, {"z", 0, railWidth}, {"y", 0, 28})
        .part("bar", {"z", railWidth, 400}, {"x", 270, 60}, {"y", 6, 16})
        .joint("foot", {{"kind", "blind-mortise-tenon"},
                        {"tenon", "bar"},
                        {"mortise", "rail"},
                        {"tenon_length", length},
                        {"tenon_thickness", 8}});
    const auto fit = test::dryFitOf(text.json());
    return fit && std::ranges::any_of(fit->findings, [](const Finding& f) {
             return f.kind == FindingKind::weak && f.text.find("too short") != std::string::npos;
           });
  };
  EXPECT_FALSE(weakAt(24, 120));
  EXPECT_TRUE(weakAt(23, 120));
  EXPECT_TRUE(weakAt(24, 76)) << "a rail that is no wider than ten thicknesses takes half of it";
  EXPECT_FALSE(weakAt(38, 76));
}

}  // namespace
}  // namespace dryfit::joinery
