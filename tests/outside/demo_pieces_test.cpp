// The demo pieces as a maker would use them, and every part of them held against a second geometry
// library.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <string>
#include <variant>

#include "joinery/fit/dry_fit.h"
#include "joinery/making/measure.h"
#include "tests/support/cgal_recipe.h"
#include "tests/support/demo_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::test {
namespace {

using joinery::Basis;
using joinery::DryFit;
using joinery::Measurement;
using joinery::ModelFile;
using joinery::PartId;
using joinery::Severity;

DryFit fitOf(const ModelFile& file, Basis basis = Basis::drawn) {
  auto fit = joinery::dryFit(file.model(), basis);
  if (!fit) throw std::runtime_error(fit.error().line());
  return std::move(*fit);
}

PartId partNamed(const joinery::Piece& piece, const std::string& name) {
  for (std::size_t i = 0; i < piece.model.parts.size(); ++i) {
    if (piece.model.parts[i].name == name) return PartId(i);
  }
  throw std::runtime_error("no part " + name);
}

kernel::Vec3 sizeOf(const joinery::Piece& piece, const std::string& name) {
  return piece.parts[partNamed(piece, name).index()].size;
}

std::string errorsOf(const DryFit& fit) {
  std::string text;
  for (const auto& finding : fit.findings) {
    if (finding.severity == Severity::error) text += finding.text + "\n";
  }
  return text;
}

void measure(ModelFile& file, Measurement::Scope scope, const std::string& name,
             joinery::SizeName size, const std::string& value) {
  const auto done = file.setMeasurement({scope, name, size, {value, true}});
  ASSERT_TRUE(done) << done.error().line();
}

TEST(DemoPieces, FitWithoutAnyFinding) {
  for (const std::string& name : soundPieces()) {
    const DryFit fit = fitOf(demoPiece(name));
    for (const auto& finding : fit.findings) ADD_FAILURE() << name << ": " << finding.text;
  }
}

TEST(DemoPieces, TheCupboardIsAWholePieceOfWork) {
  const ModelFile cupboard = demoPiece("periodicals-cupboard");
  EXPECT_GE(cupboard.model().parts.size(), 60u);
  EXPECT_GE(cupboard.model().joints.size(), 90u);
}

/// A part's recipe without its dowel holes, and the wood that they take by closed form. The second
/// library works with flat faces alone.
struct Bored {
  kernel::Recipe flat;
  double holes = 0;  ///< mm³
};

Bored boredApart(const joinery::PlacedPart& part) {
  Bored bored{part.recipe()};
  for (kernel::Step& step : bored.flat.steps) {
    std::erase_if(step.tools, [](const kernel::Tool& tool) {
      return std::holds_alternative<kernel::Cylinder>(tool);
    });
  }
  for (const joinery::Feature& feature : part.features) {
    const auto* hole = std::get_if<kernel::Cylinder>(&feature.tool);
    if (hole == nullptr) continue;
    const double depth = feature.extent.size()[feature.face.axis];
    bored.holes += std::numbers::pi * hole->radius * hole->radius * depth;
  }
  return bored;
}

TEST(DemoPieces, HaveThePartsVolumesThatASecondLibraryFinds) {
  int compared = 0;
  for (const std::string& name : soundPieces()) {
    const DryFit fit = fitOf(demoPiece(name));
    for (const auto& part : fit.piece.parts) {
      const Bored bored = boredApart(part);
      const auto volume = cgalVolume(bored.flat);
      ASSERT_TRUE(volume) << fit.piece.label(part.id);
      const auto& solid = fit.solids[part.id.index()];
      EXPECT_NEAR(solid.volume() / (*volume - bored.holes), 1, 1e-9)
          << name << ": " << fit.piece.label(part.id);
      ++compared;
    }
  }
  EXPECT_GE(compared, 120);
}

TEST(DemoPieces, AreTheSameSolidsByGeneralCuts) {
  for (const std::string& name : soundPieces()) {
    const DryFit fit = fitOf(demoPiece(name));
    for (const auto& part : fit.piece.parts) {
      const auto general = kernel::buildGeneral(part.recipe());
      ASSERT_TRUE(general) << general.error().line();
      const auto& solid = fit.solids[part.id.index()];
      ASSERT_TRUE(kernel::validate(solid)) << fit.piece.label(part.id);
      EXPECT_NEAR(solid.volume() / general->volume(), 1, 1e-9);
      EXPECT_EQ(solid.topology(), general->topology()) << name << ": " << fit.piece.label(part.id);
    }
  }
}

TEST(PeriodicalsCupboard, FollowsThePlanedStockAndANarrowStile) {
  ModelFile cupboard = demoPiece("periodicals-cupboard");
  const DryFit drawn = fitOf(cupboard);
  measure(cupboard, Measurement::Scope::material, "cherry", joinery::SizeName::thickness, "19.3");
  measure(cupboard, Measurement::Scope::part, "front_left_stile", joinery::SizeName::width, "42.6");
  const DryFit measured = fitOf(cupboard, Basis::measured);

  // The frame stands 18 behind the top's edge, and the back reaches the 400 of the depth: what the
  // frame lost in thickness the sides gain in width, beside their tongues.
  const auto sideOf = [](const DryFit& fit) { return sizeOf(fit.piece, "left_side").y; };
  EXPECT_NEAR(sideOf(drawn), 400 - 18 - 20, 1e-9);
  EXPECT_NEAR(sideOf(measured), 400 - 18 - 19.3, 1e-9);
  // Rails of the frame and of the left door gain just what the stile lost, drawn at 44.
  for (const char* rail : {"top_rail", "drawer_rail", "left_door.upper_rail"}) {
    EXPECT_NEAR(sizeOf(measured.piece, rail).x - sizeOf(drawn.piece, rail).x, 44 - 42.6, 1e-9)
        << rail;
  }
  // 1000 - 2 * 18 of overhang - the two stiles.
  EXPECT_NEAR(sizeOf(measured.piece, "top_rail").x, 1000 - 36 - 42.6 - 44, 1e-9);
  EXPECT_NEAR(sizeOf(measured.piece, "right_door.upper_rail").x,
              sizeOf(drawn.piece, "right_door.upper_rail").x, 1e-9);
  // The cupboard stays 1680 high.
  const auto& top = measured.piece.parts[partNamed(measured.piece, "top_board").index()];
  EXPECT_NEAR(kernel::boundsOf(top.frame, top.blank()).max.z, 1680, 1e-9);
  EXPECT_EQ(errorsOf(measured), "");
  // As drawn, nothing has changed.
  EXPECT_TRUE(joinery::compare(drawn.piece, fitOf(cupboard, Basis::drawn).piece).sizes.empty());
}

TEST(PeriodicalsCupboard, OpensItsDoorsAndDrawersWithoutStrikingTheCase) {
  for (const auto& [dimension, value] :
       {std::pair("doors_open", "15"), std::pair("doors_open", "60"), std::pair("doors_open", "90"),
        std::pair("drawers_out", "40"), std::pair("drawers_out", "250")}) {
    ModelFile cupboard = demoPiece("periodicals-cupboard");
    ASSERT_TRUE(cupboard.setDimension(dimension, value));
    const DryFit fit = fitOf(cupboard);
    for (const auto& finding : fit.findings) {
      EXPECT_NE(finding.kind, joinery::FindingKind::interference)
          << dimension << " " << value << ": " << finding.text;
    }
  }
}

TEST(PeriodicalsCupboard, FitsAtAnySensibleSize) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  const auto between = [&](double low, double high) {
    return std::to_string(std::uniform_real_distribution<>(low, high)(random));
  };
  for (int i = 0; i < test::repetitions(40); ++i) {
    ModelFile cupboard = demoPiece("periodicals-cupboard");
    ASSERT_TRUE(cupboard.setDimension("cupboard_width", between(800, 1300)));
    ASSERT_TRUE(cupboard.setDimension("cupboard_depth", between(330, 520)));
    ASSERT_TRUE(cupboard.setDimension("cupboard_height", between(1400, 1900)));
    ASSERT_TRUE(cupboard.setDimension("stile_width", between(40, 62)));
    ASSERT_TRUE(cupboard.setDimension("plinth_height", between(70, 130)));
    const DryFit fit = fitOf(cupboard);
    for (const auto& finding : fit.findings) {
      EXPECT_NE(finding.kind, joinery::FindingKind::interference) << finding.text;
      EXPECT_NE(finding.kind, joinery::FindingKind::gap) << finding.text;
    }
    for (const auto& solid : fit.solids) EXPECT_TRUE(kernel::validate(solid));
    const auto again = ModelFile::parse(cupboard.text(), "again");
    ASSERT_TRUE(again);
    EXPECT_EQ(again->text(), cupboard.text());
    EXPECT_TRUE(joinery::compare(fit.piece, fitOf(*again).piece).sizes.empty());
  }
}

/// Where a part of the finished piece begins and ends.
kernel::Box3 standing(const DryFit& fit, const std::string& name) {
  return fit.placed(partNamed(fit.piece, name)).bounds();
}

TEST(StepStool, StandsLevelHoweverMuchItsLegsLean) {
  for (const double splay : {20.0, 50.0, 71.0, 90.0}) {
    SCOPED_TRACE(splay);
    ModelFile stool = demoPiece("step-stool");
    ASSERT_TRUE(stool.setDimension("splay", std::to_string(splay)));
    const DryFit fit = fitOf(stool);
    EXPECT_EQ(errorsOf(fit), "");
    for (const char* side : {"end_1", "end_2"}) {
      const std::string name = side;
      EXPECT_NEAR(standing(fit, name + ".foot").min.z, 0, 1e-6);
      // 420 high, less 28 of top and 48 of bearer: the legs end under it. Their tenons go on.
      EXPECT_NEAR(standing(fit, name + ".bearer").min.z, 420 - 28 - 48, 1e-6);
    }
    EXPECT_NEAR(standing(fit, "top").max.z, 420, 1e-6);
    EXPECT_NEAR(standing(fit, "tread").max.z, 210, 1e-6);
    // The middle of a leg runs from foot to bearer: as long as the slope of its right triangle.
    EXPECT_NEAR(sizeOf(fit.piece, "end_1.stringer").x, std::hypot(420 - 28 - 48 - 56, splay), 1e-6);
  }
}

TEST(ReadingTable, ItsDrawerFollowsTheOpening) {
  ModelFile table = demoPiece("reading-table");
  ASSERT_TRUE(table.setDimension("drawer_opening", "520"));
  ASSERT_TRUE(table.setDimension("table_depth", "700"));
  const DryFit fit = fitOf(table);
  for (const auto& finding : fit.findings) {
    EXPECT_EQ(finding.kind, joinery::FindingKind::envelope) << finding.text;
  }
  EXPECT_NEAR(sizeOf(fit.piece, "drawer_front").x, 520 - 2 * 1, 1e-9);
  // Between two sides of 12.
  EXPECT_NEAR(sizeOf(fit.piece, "drawer_back").x, 518 - 2 * 12, 1e-9);
  // From front rail to back apron: 700 - 2 * (36 + 4) - 46 - 24.
  EXPECT_NEAR(sizeOf(fit.piece, "left.runner").x, 700 - 80 - 46 - 24, 1e-9);
}

TEST(DemoPieces, TakeOtherSizesFromTheirBriefs) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  struct Brief {
    const char *piece, *width, *height, *depth;
  };
  for (const Brief& brief : {Brief{"reading-table", "table_width", "table_height", "table_depth"},
                             Brief{"step-stool", "stool_width", "stool_height", "stool_depth"},
                             Brief{"wall-rack", "rack_width", "rack_height", "rack_depth"}}) {
    const DryFit drawn = fitOf(demoPiece(brief.piece));
    for (int i = 0; i < test::repetitions(4); ++i) {
      ModelFile file = demoPiece(brief.piece);
      for (const char* name : {brief.width, brief.height, brief.depth}) {
        const double factor = std::uniform_real_distribution<>(0.8, 1.2)(random);
        const double size = std::round(drawn.piece.values.at(name) * factor);
        ASSERT_TRUE(file.setDimension(name, std::to_string(size)));
      }
      for (const auto& finding : fitOf(file).findings) {
        ADD_FAILURE() << brief.piece << ": " << finding.text;
      }
    }
  }
}

TEST(ChartChest, SaysEachThingOnceInUnderOneHundredAndTwentyLines) {
  const ModelFile file = demoPiece("chart-chest");
  const std::string text = file.text();
  EXPECT_LT(std::count(text.begin(), text.end(), '\n'), 120);
  int fronts = 0;
  for (const joinery::Part& part : file.model().parts) fronts += part.name.ends_with(".front");
  EXPECT_EQ(fronts, 8);
}

// White ash changes its width tangentially by 0.00274 for each point of moisture (Wood Handbook,
// FPL-GTR-282, chapter 13, from memory); four points are common practice for a heated room.
TEST(ChartChest, LeavesRoomOverADrawersFrontForWhatItSwells) {
  for (const int height : {980, 1700, 2480}) {
    ModelFile chest = demoPiece("chart-chest");
    ASSERT_TRUE(chest.setDimension("height", std::to_string(height)));
    const DryFit fit = fitOf(chest);
    // Between bottom and top, of 18 each, over the foot of 70; eight openings alike.
    const double opening = (height - 70 - 2 * 18) / 8.0;
    const double front = sizeOf(fit.piece, "drawer_4.front").y;
    const double over = opening - 2 - front;
    EXPECT_GE(over, 2 - 1e-9) << height;
    EXPECT_GE(over, front * 4 * 0.00274) << height;
    // And no wider than a gap that looks well.
    EXPECT_LE(over, 4) << height;
  }
}

}  // namespace
}  // namespace dryfit::test
