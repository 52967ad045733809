#include "joinery/piece/tapers.h"

#include "joinery/joints/evaluate.h"

#include <gtest/gtest.h>

#include <random>

#include "joinery/piece/part_list.h"
#include "tests/joinery/cupboard_sample.h"
#include "tests/support/demo_pieces.h"

namespace dryfit::joinery {
namespace {

/// The side table with its four legs tapered by one entry. Aprons reach 90 mm down the legs.
ModelFile table(const std::string& by, const std::string& from, const std::string& more = "") {
  const std::string plain = test::demoPiece("side-table").text();
  return fileFrom(replaced(
      plain, "  \"joints\": {",
      "  \"tapers\": {\"legs\": {\"parts\": [\"front_left_leg\", \"front_right_leg\", "
      "\"back_left_leg\", \"back_right_leg\"], \"size\": \"width\", \"narrow_end\": \"bottom\", "
      "\"by\": " +
          by + ", \"from\": " + from + more + "}},\n  \"joints\": {"));
}

// A leg is 50 x 50 x 600 mm. The wedge is a right triangle of `by` by 600 - from, 50 mm thick.
TEST(Taper, TakesTheSameWedgeOffEveryLegByOneEntry) {
  const DryFit straight = fitOf(test::demoPiece("side-table").model());
  const std::mt19937::result_type seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  for (int round = 0; round < 5; ++round) {
    const double by = 0.5 + 0.1 * static_cast<double>(random() % 200);
    const double from = 95 + static_cast<double>(random() % 400);
    const DryFit fit = fitOf(table(fmt::format("{}", by), fmt::format("{}", from)).model());
    for (std::size_t i = 0; i < fit.solids.size(); ++i) {
      const bool leg = fit.piece.model.parts[i].name.find("_leg") != std::string::npos;
      const double wedge = leg ? 0.5 * by * (600 - from) * 50 : 0;
      EXPECT_NEAR(straight.solids[i].volume() - fit.solids[i].volume(), wedge, 1e-3)
          << fit.piece.model.parts[i].name;
    }
    EXPECT_EQ(fit.findings.size(), straight.findings.size());
  }
}

TEST(Taper, LeavesTheMarkedFacesStraight) {
  const DryFit fit = fitOf(table("2", "100").model());
  const PlacedPart& left = partNamed(fit.piece, "front_left_leg");    // face edge left
  const PlacedPart& right = partNamed(fit.piece, "front_right_leg");  // face edge right
  ASSERT_EQ(left.tapers.size(), 1U);
  EXPECT_EQ(left.named(left.tapers[0].face), Face::right);
  EXPECT_EQ(right.named(right.tapers[0].face), Face::left);
  // The centre of mass moves towards the straight side of each.
  const kernel::Point3 a = fit.placed(left.id).centroid();
  const kernel::Point3 b = fit.placed(right.id).centroid();
  EXPECT_LT(a.x, left.span.centre().x);
  EXPECT_GT(b.x, right.span.centre().x);
  // Narrow at the bottom.
  EXPECT_NEAR(left.tapers[0].depthAt(0, 600), 2, 1e-12);
  EXPECT_NEAR(left.tapers[0].depthAt(500, 600), 0, 1e-12);
  EXPECT_NEAR(left.tapers[0].depthAt(250, 600), 1, 1e-12);
}

TEST(Taper, LegsThatMirrorEachOtherAreStillListedTogether) {
  const auto straight = groupParts(fitOf(test::demoPiece("side-table").model()).piece);
  const auto tapered = groupParts(fitOf(table("2", "100").model()).piece);
  EXPECT_EQ(tapered.size(), straight.size());
}

TEST(Taper, UnderAJointIsTold) {
  // The apron comes 90 mm down the leg; at 60 mm the taper has 30 of 540 mm under it.
  const DryFit fit = fitOf(table("18", "60").model());
  const auto gaps = findingsOfKind(fit, FindingKind::gap);
  ASSERT_EQ(gaps.size(), 4U);  // the aprons that run along x, at both of their ends
  for (const Finding& f : gaps) {
    EXPECT_EQ(f.severity, Severity::error);
    EXPECT_NEAR(f.measured, 18.0 * 30 / 540, 1e-6) << f.text;
    EXPECT_NE(f.mend.find("90 mm from the wide end"), std::string::npos) << f.mend;
  }
  int notes = 0;
  for (const Finding& f : fit.findings) notes += f.severity == Severity::note ? 1 : 0;
  EXPECT_EQ(notes, 4);  // the aprons that meet the legs by a straight face
}

TEST(Taper, ThatBoardsCameOutWithIsNoPartOfTheDrawnDesign) {
  const ModelFile file = table("2", "100", ", \"measured\": true");
  EXPECT_TRUE(partNamed(fitOf(file.model(), Basis::drawn).piece, "front_left_leg").tapers.empty());
  EXPECT_EQ(partNamed(fitOf(file.model(), Basis::measured).piece, "front_left_leg").tapers.size(),
            1U);
}

TEST(Taper, MayBeInThicknessAndOffANamedFace) {
  std::string text = table("2", "100").text();
  text = replaced(text, "\"size\": \"width\"", "\"size\": \"thickness\", \"face\": \"front\"");
  const DryFit fit = fitOf(fileFrom(text).model());
  const DryFit straight = fitOf(test::demoPiece("side-table").model());
  for (const char* leg : {"front_left_leg", "back_right_leg"}) {
    const PlacedPart& part = partNamed(fit.piece, leg);
    EXPECT_EQ(part.named(part.tapers[0].face), Face::front);
    EXPECT_NEAR(straight.solids[part.id.index()].volume() - fit.solids[part.id.index()].volume(),
                0.5 * 2 * 500 * 50, 1e-3);
    EXPECT_GT(fit.placed(part.id).centroid().y, straight.placed(part.id).centroid().y);
  }
}

TEST(Taper, RefusesWhatLeavesNoPart) {
  const auto refused = [](const ModelFile& file, const std::string& says) {
    const auto piece = evaluate(file.model(), Basis::drawn);
    ASSERT_FALSE(piece) << says;
    EXPECT_NE(piece.error().line().find(says), std::string::npos) << piece.error().line();
  };
  refused(table("50", "100"), "tapers.legs.by");
  refused(table("0", "100"), "tapers.legs.by");
  refused(table("2", "600"), "tapers.legs.from");
  refused(table("2", "-1"), "tapers.legs.from");
  refused(table("2", "100", ", \"face\": \"front\""), "use left or right");
  refused(table("\"no_such\"", "100"), "tapers.legs.by");
  const auto unread = [](const std::string& from, const std::string& to, const std::string& says) {
    const auto file = ModelFile::parse(replaced(table("2", "100").text(), from, to), "m");
    ASSERT_FALSE(file) << says;
    EXPECT_NE(file.error().line().find(says), std::string::npos) << file.error().line();
  };
  unread("\"front_left_leg\", \"front_right_leg\"", "\"front_left_leg\", \"front_left_leg\"",
         "named twice");
  unread("[\"front_left_leg\"", "[\"front_left_lag\"", "front_left_leg");
  unread("\"narrow_end\": \"bottom\"", "\"narrow_end\": \"below\"", "bottom");
}

TEST(Moisture, IsKeptWithTheMeasuredSizes) {
  ModelFile file = fileFrom(cupboardText());
  using Scope = Measurement::Scope;
  ASSERT_TRUE(file.setMoisture(Scope::batch, "october", "9.5"));
  ASSERT_TRUE(file.setMoisture(Scope::material, "oak", "11"));
  EXPECT_NE(file.text().find("\"october\": {\"moisture\": 9.5}"), std::string::npos);
  EXPECT_EQ(fileFrom(file.text()).text(), file.text());
  EXPECT_FALSE(file.setMoisture(Scope::part, "left_stile", "wet"));
  EXPECT_FALSE(file.setMoisture(Scope::part, "left_stile", "-1"));
  EXPECT_FALSE(file.setMoisture(Scope::part, "left_style", "9"));
  EXPECT_TRUE(fitOf(file.model()).findings.size() ==
              fitOf(fileFrom(cupboardText()).model()).findings.size());
  ASSERT_TRUE(file.setMoisture(Scope::batch, "october", ""));
  ASSERT_TRUE(file.setMoisture(Scope::material, "oak", ""));
  EXPECT_EQ(file.text(), cupboardText());
}

}  // namespace
}  // namespace dryfit::joinery
