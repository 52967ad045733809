// The demo pieces as a maker would use them, and every part of them held against a second geometry
// library.

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <string>

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

TEST(DemoPieces, TheChestIsAWholePieceOfWork) {
  const ModelFile chest = demoPiece("linen-chest");
  EXPECT_GE(chest.model().parts.size(), 25u);
  EXPECT_GE(chest.model().joints.size(), 40u);
}

TEST(DemoPieces, HaveThePartsVolumesThatASecondLibraryFinds) {
  int compared = 0;
  for (const std::string& name : soundPieces()) {
    const DryFit fit = fitOf(demoPiece(name));
    for (const auto& part : fit.piece.parts) {
      const auto volume = cgalVolume(part.recipe());
      ASSERT_TRUE(volume) << fit.piece.label(part.id);
      const auto& solid = fit.solids[part.id.index()];
      EXPECT_NEAR(solid.volume() / *volume, 1, 1e-9) << name << ": " << fit.piece.label(part.id);
      ++compared;
    }
  }
  EXPECT_GE(compared, 50);
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

TEST(LinenChest, FollowsThePlanedStockAndTheNarrowStiles) {
  ModelFile chest = demoPiece("linen-chest");
  const DryFit drawn = fitOf(chest);
  measure(chest, Measurement::Scope::material, "oak", joinery::SizeName::thickness, "21.2");
  measure(chest, Measurement::Scope::part, "front_left_stile", joinery::SizeName::width, "55.4");
  const DryFit measured = fitOf(chest, Basis::measured);

  // The rule of proportion: both faces of a corner stay equally wide.
  EXPECT_NEAR(sizeOf(measured.piece, "left_front_stile").y + 21.2, 55.4, 1e-9);
  EXPECT_NEAR(sizeOf(drawn.piece, "left_front_stile").y + 22, 58, 1e-9);
  // The front rail gains just what the stile lost; the chest stays 500 high.
  EXPECT_NEAR(sizeOf(measured.piece, "front_top_rail").x - sizeOf(drawn.piece, "front_top_rail").x,
              58 - 55.4, 1e-9);
  const auto& lid = measured.piece.parts[partNamed(measured.piece, "lid_front_rail").index()];
  EXPECT_NEAR(kernel::boundsOf(lid.frame, lid.blank()).max.z, 500, 1e-9);
  EXPECT_EQ(errorsOf(measured), "");
  // As drawn, nothing has changed.
  EXPECT_TRUE(joinery::compare(drawn.piece, fitOf(chest, Basis::drawn).piece).sizes.empty());
}

TEST(LinenChest, OpensItsLidWithoutStrikingTheCase) {
  ModelFile chest = demoPiece("linen-chest");
  for (const char* angle : {"15", "60", "90"}) {
    ASSERT_TRUE(chest.setDimension("lid_open", angle));
    const DryFit fit = fitOf(chest);
    for (const auto& finding : fit.findings) {
      EXPECT_NE(finding.kind, joinery::FindingKind::interference) << angle << ": " << finding.text;
    }
  }
}

TEST(LinenChest, FitsAtAnySensibleSize) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  const auto between = [&](double low, double high) {
    return std::to_string(std::uniform_real_distribution<>(low, high)(random));
  };
  for (int i = 0; i < test::repetitions(40); ++i) {
    ModelFile chest = demoPiece("linen-chest");
    ASSERT_TRUE(chest.setDimension("case_width", between(600, 1400)));
    ASSERT_TRUE(chest.setDimension("case_depth", between(380, 650)));
    ASSERT_TRUE(chest.setDimension("front_stile_width", between(54, 80)));
    ASSERT_TRUE(chest.setDimension("muntin_width", between(40, 80)));
    ASSERT_TRUE(chest.setDimension("leg_height", between(0, 120)));
    const DryFit fit = fitOf(chest);
    for (const auto& finding : fit.findings) {
      EXPECT_NE(finding.kind, joinery::FindingKind::interference) << finding.text;
      EXPECT_NE(finding.kind, joinery::FindingKind::gap) << finding.text;
    }
    for (const auto& solid : fit.solids) EXPECT_TRUE(kernel::validate(solid));
    const auto again = ModelFile::parse(chest.text(), "again");
    ASSERT_TRUE(again);
    EXPECT_EQ(again->text(), chest.text());
    EXPECT_TRUE(joinery::compare(fit.piece, fitOf(*again).piece).sizes.empty());
  }
}

}  // namespace
}  // namespace dryfit::test
