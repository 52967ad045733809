#include "joinery/piece/tapers.h"

#include "joinery/joints/evaluate.h"

#include <gtest/gtest.h>

#include <random>

#include "joinery/piece/part_list.h"
#include "tests/joinery/cupboard_sample.h"

namespace dryfit::joinery {
namespace {

/// Two uprights of a chart ladder, 1200 x 60 x 36, with a rail low down, a rail up to 880 mm and a
/// peg that stands out in front of each upright at the height of the upper rail.
std::string ladderText() {
  return R"({
  "format": "dryfit-model",
  "version": 1,
  "name": "Chart ladder",
  "unit": "mm",
  "materials": {
    "ash": {"kind": "solid", "species": "white ash", "thickness": 36},
    "ash_rail": {"kind": "solid", "species": "white ash", "thickness": 24}
  },
  "parts": {
    "left_upright": {
      "material": "ash",
      "length": {"along": "z", "from": 0, "size": 1200},
      "width": {"along": "x", "from": 0, "size": 60},
      "thickness": {"along": "y", "from": 0},
      "face_side": "front",
      "face_edge": "left"
    },
    "right_upright": {
      "material": "ash",
      "length": {"along": "z", "from": 0, "size": 1200},
      "width": {"along": "x", "to": 640, "size": 60},
      "thickness": {"along": "y", "from": 0},
      "face_side": "front",
      "face_edge": "right"
    },
    "lower_rail": {
      "material": "ash_rail",
      "length": {"along": "x", "from": "left_upright.right", "to": "right_upright.left"},
      "width": {"along": "z", "from": 90, "size": 70},
      "thickness": {"along": "y", "centre": 18}
    },
    "upper_rail": {
      "material": "ash_rail",
      "length": {"along": "x", "from": "left_upright.right", "to": "right_upright.left"},
      "width": {"along": "z", "to": 880, "size": 70},
      "thickness": {"along": "y", "centre": 18}
    },
    "left_peg": {
      "material": "ash_rail",
      "length": {"along": "y", "from": -120, "to": "left_upright.front"},
      "width": {"along": "z", "to": 880, "size": 40},
      "thickness": {"along": "x", "from": 4}
    },
    "right_peg": {
      "material": "ash_rail",
      "length": {"along": "y", "from": -120, "to": "right_upright.front"},
      "width": {"along": "z", "to": 880, "size": 40},
      "thickness": {"along": "x", "to": 636}
    }
  },
  "joints": {
    "lower_left": {"kind": "blind-mortise-tenon", "tenon": "lower_rail", "mortise": "left_upright"},
    "lower_right": {"kind": "blind-mortise-tenon", "tenon": "lower_rail", "mortise": "right_upright"},
    "upper_left": {
      "kind": "blind-mortise-tenon",
      "tenon": "upper_rail",
      "mortise": "left_upright",
      "tenon_length": 30
    },
    "upper_right": {
      "kind": "blind-mortise-tenon",
      "tenon": "upper_rail",
      "mortise": "right_upright",
      "tenon_length": 30
    },
    "left_peg_in": {"kind": "blind-mortise-tenon", "tenon": "left_peg", "mortise": "left_upright"},
    "right_peg_in": {"kind": "blind-mortise-tenon", "tenon": "right_peg", "mortise": "right_upright"}
  }
}
)";
}

/// The ladder with its uprights tapered by one entry.
ModelFile ladder(const std::string& by, const std::string& from, const std::string& more = "") {
  return fileFrom(
      replaced(ladderText(), "  \"joints\": {",
               "  \"tapers\": {\"uprights\": {\"parts\": [\"left_upright\", \"right_upright\"], "
               "\"size\": \"width\", \"narrow_end\": \"top\", \"by\": " +
                   by + ", \"from\": " + from + more + "}},\n  \"joints\": {"));
}

// The wedge is a right triangle of `by` by 1200 - from, 36 mm thick.
TEST(Taper, TakesTheSameWedgeOffEveryUprightByOneEntry) {
  const DryFit straight = fitOf(fileFrom(ladderText()).model());
  const std::mt19937::result_type seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  for (int round = 0; round < 5; ++round) {
    const double by = 0.5 + 0.1 * static_cast<double>(random() % 200);
    const double from = 885 + static_cast<double>(random() % 300);
    const DryFit fit = fitOf(ladder(fmt::format("{}", by), fmt::format("{}", from)).model());
    for (std::size_t i = 0; i < fit.solids.size(); ++i) {
      const bool upright = fit.piece.model.parts[i].name.ends_with("_upright");
      const double wedge = upright ? 0.5 * by * (1200 - from) * 36 : 0;
      EXPECT_NEAR(straight.solids[i].volume() - fit.solids[i].volume(), wedge, 1e-3)
          << fit.piece.model.parts[i].name;
    }
    EXPECT_EQ(fit.findings.size(), straight.findings.size());
  }
}

TEST(Taper, LeavesTheMarkedFacesStraight) {
  const DryFit fit = fitOf(ladder("2", "900").model());
  const PlacedPart& left = partNamed(fit.piece, "left_upright");    // face edge left
  const PlacedPart& right = partNamed(fit.piece, "right_upright");  // face edge right
  ASSERT_EQ(left.tapers.size(), 1U);
  EXPECT_EQ(left.named(left.tapers[0].face), Face::right);
  EXPECT_EQ(right.named(right.tapers[0].face), Face::left);
  // The centre of mass moves towards the straight side of each.
  const kernel::Point3 a = fit.placed(left.id).centroid();
  const kernel::Point3 b = fit.placed(right.id).centroid();
  EXPECT_LT(a.x, left.span.centre().x);
  EXPECT_GT(b.x, right.span.centre().x);
  // Narrow at the top: nothing up to 900, and half of it half way from there.
  EXPECT_NEAR(left.tapers[0].depthAt(1200, 1200), 2, 1e-12);
  EXPECT_NEAR(left.tapers[0].depthAt(900, 1200), 0, 1e-12);
  EXPECT_NEAR(left.tapers[0].depthAt(1050, 1200), 1, 1e-12);
}

TEST(Taper, UprightsThatMirrorEachOtherAreStillListedTogether) {
  const auto straight = groupParts(fitOf(fileFrom(ladderText()).model()).piece);
  const auto tapered = groupParts(fitOf(ladder("2", "900").model()).piece);
  EXPECT_EQ(tapered.size(), straight.size());
}

TEST(Taper, UnderAJointIsTold) {
  // The upper rail ends at 880 mm; a taper from 850 mm on has 30 of its 350 mm under it.
  const DryFit fit = fitOf(ladder("18", "850").model());
  const auto gaps = findingsOfKind(fit, FindingKind::gap);
  ASSERT_EQ(gaps.size(), 2U);  // the upper rail, at both of its ends
  for (const Finding& f : gaps) {
    EXPECT_EQ(f.severity, Severity::error);
    EXPECT_NEAR(f.measured, 18.0 * 30 / 350, 1e-6) << f.text;
    EXPECT_NE(f.mend.find("880 mm from the wide end"), std::string::npos) << f.mend;
  }
  int notes = 0;
  for (const Finding& f : fit.findings) notes += f.severity == Severity::note ? 1 : 0;
  EXPECT_EQ(notes, 2);  // the pegs, which meet the uprights by a straight face
}

TEST(Taper, ThatBoardsCameOutWithIsNoPartOfTheDrawnDesign) {
  const ModelFile file = ladder("2", "900", ", \"measured\": true");
  EXPECT_TRUE(partNamed(fitOf(file.model(), Basis::drawn).piece, "left_upright").tapers.empty());
  EXPECT_EQ(partNamed(fitOf(file.model(), Basis::measured).piece, "left_upright").tapers.size(),
            1U);
}

TEST(Taper, MayBeInThicknessAndOffANamedFace) {
  std::string text = ladder("2", "900").text();
  text = replaced(text, "\"size\": \"width\"", "\"size\": \"thickness\", \"face\": \"front\"");
  const DryFit fit = fitOf(fileFrom(text).model());
  const DryFit straight = fitOf(fileFrom(ladderText()).model());
  for (const char* upright : {"left_upright", "right_upright"}) {
    const PlacedPart& part = partNamed(fit.piece, upright);
    EXPECT_EQ(part.named(part.tapers[0].face), Face::front);
    EXPECT_NEAR(straight.solids[part.id.index()].volume() - fit.solids[part.id.index()].volume(),
                0.5 * 2 * 300 * 60, 1e-3);
    EXPECT_GT(fit.placed(part.id).centroid().y, straight.placed(part.id).centroid().y);
  }
}

TEST(Taper, RefusesWhatLeavesNoPart) {
  const auto refused = [](const ModelFile& file, const std::string& says) {
    const auto piece = evaluate(file.model(), Basis::drawn);
    ASSERT_FALSE(piece) << says;
    EXPECT_NE(piece.error().line().find(says), std::string::npos) << piece.error().line();
  };
  refused(ladder("60", "900"), "tapers.uprights.by");
  refused(ladder("0", "900"), "tapers.uprights.by");
  refused(ladder("2", "1200"), "tapers.uprights.from");
  refused(ladder("2", "-1"), "tapers.uprights.from");
  refused(ladder("2", "900", ", \"face\": \"front\""), "use left or right");
  refused(ladder("\"no_such\"", "900"), "tapers.uprights.by");
  const auto unread = [](const std::string& from, const std::string& to, const std::string& says) {
    const auto file = ModelFile::parse(replaced(ladder("2", "900").text(), from, to), "m");
    ASSERT_FALSE(file) << says;
    EXPECT_NE(file.error().line().find(says), std::string::npos) << file.error().line();
  };
  unread("\"left_upright\", \"right_upright\"", "\"left_upright\", \"left_upright\"",
         "named twice");
  unread("[\"left_upright\"", "[\"left_uprite\"", "left_upright");
  unread("\"narrow_end\": \"top\"", "\"narrow_end\": \"above\"", "bottom");
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
