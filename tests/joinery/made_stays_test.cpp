// What is made stays as it was made, and what is not made yet follows it.

#include <gmock/gmock.h>

#include <cmath>
#include <random>

#include "joinery/fit/absorb.h"
#include "joinery/piece/made_size.h"
#include "tests/joinery/cupboard_sample.h"
#include "tests/joinery/model_samples.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::joinery {
namespace {

using ::testing::IsEmpty;
using ::testing::SizeIs;

void measureThickness(ModelFile& file, Measurement::Scope scope, const std::string& name,
                      const std::string& value) {
  const auto set = file.setMeasurement({scope, name, SizeName::thickness, {value, true}});
  ASSERT_TRUE(set) << set.error().line();
}

TEST(AMadePart, KeepsItsThicknessWhenTheNextBoardsOfItsMaterialAreThinner) {
  ModelFile file = fileFrom(cupboardText());
  measureThickness(file, Measurement::Scope::material, "oak", "22.6");
  mark(file, "left_stile", MarkState::cut);
  measureThickness(file, Measurement::Scope::material, "oak", "22.2");
  const auto piece = evaluate(file.model(), Basis::measured);
  ASSERT_TRUE(piece) << piece.error().line();
  EXPECT_NEAR(partNamed(*piece, "left_stile").size.z, 22.6, 1e-9);
  EXPECT_NEAR(partNamed(*piece, "right_stile").size.z, 22.2, 1e-9);
  EXPECT_THAT(differencesFromMarks(*piece), IsEmpty());
  EXPECT_THAT(findingsOfKind(fitOf(file.model()), FindingKind::locked), IsEmpty());
}

TEST(AMadePart, KeepsItsThicknessWhenItsBatchIsMeasuredAnew) {
  ModelFile file = fileFrom(cupboardText());
  measureThickness(file, Measurement::Scope::batch, "october", "22.6");
  mark(file, "left_stile", MarkState::machined);
  measureThickness(file, Measurement::Scope::batch, "october", "22.2");
  const auto piece = evaluate(file.model(), Basis::measured);
  ASSERT_TRUE(piece) << piece.error().line();
  EXPECT_NEAR(partNamed(*piece, "left_stile").size.z, 22.6, 1e-9);
  EXPECT_NEAR(partNamed(*piece, "right_stile").size.z, 22.2, 1e-9);
}

TEST(AMadePart, IsFollowedByWhatIsNotMadeYet) {
  ModelFile file = fileFrom(cupboardText());
  ASSERT_TRUE(file.setMeasurement(
      {Measurement::Scope::part, "left_stile", SizeName::width, {"60.5", true}}));
  mark(file, "left_stile", MarkState::cut);
  ASSERT_TRUE(file.setDimension("stile_width", "64"));
  const auto piece = evaluate(file.model(), Basis::measured);
  ASSERT_TRUE(piece) << piece.error().line();
  EXPECT_NEAR(partNamed(*piece, "left_stile").size.y, 60.5, 1e-9);
  EXPECT_NEAR(partNamed(*piece, "right_stile").size.y, 64, 1e-9);
  EXPECT_NEAR(partNamed(*piece, "top_rail").size.x, 900 - 40 - 60.5 - 64, 1e-9);
}

TEST(AMadePart, IsLockedWhereTheDesignAsksForAnotherLengthAndKeepsItsOwn) {
  ModelFile file = fileFrom(cupboardText());
  mark(file, "top_rail", MarkState::jointed);
  ASSERT_TRUE(file.setDimension("opening_width", "906"));
  const auto piece = evaluate(file.model(), Basis::measured);
  ASSERT_TRUE(piece) << piece.error().line();
  const PlacedPart& rail = partNamed(*piece, "top_rail");
  EXPECT_NEAR(rail.size.x, 736, 1e-6);
  EXPECT_NEAR(rail.asked.x, 742, 1e-6);
  const auto locked = findingsOfKind(fitOf(file.model()), FindingKind::locked);
  ASSERT_THAT(locked, SizeIs(1));
  EXPECT_NEAR(locked[0].measured, 736, 1e-6);
  EXPECT_NEAR(locked[0].limit, 742, 1e-6);
}

/// The sizes that the marks of a model fix, in their order.
std::vector<double> fixedSizes(const Model& model) {
  std::vector<double> sizes;
  for (const Mark& mark : model.marks) {
    for (const PartAxis axis : {PartAxis::length, PartAxis::width, PartAxis::thickness}) {
      if (const auto size = madeSize(mark, axis)) sizes.push_back(*size);
    }
  }
  return sizes;
}

void expectMadeAsMarked(const Model& model, const std::string& told) {
  const auto piece = evaluate(model, Basis::measured);
  if (!piece) return;  // two boards that cannot meet have no sizes at all
  for (const Mark& mark : model.marks) {
    const PlacedPart& part = partNamed(*piece, mark.part);
    for (const PartAxis axis : {PartAxis::length, PartAxis::width, PartAxis::thickness}) {
      const auto size = madeSize(mark, axis);
      if (!size) continue;
      EXPECT_NEAR(part.size[indexOf(axis)], *size, 1e-6) << told << mark.part;
    }
  }
}

TEST(AMadePart, KeepsItsSizesWhateverElseIsMeasuredAndMarked) {
  int steps = 0;
  for (int round = 0; round < test::repetitions(60); ++round) {
    std::mt19937_64 random(test::seed() + static_cast<unsigned>(round));
    const auto pick = [&](std::size_t n) { return random() % n; };
    const auto number = [&] {
      return std::to_string(std::uniform_real_distribution<double>(15, 30)(random));
    };
    ModelFile file = fileFrom(cupboardText());
    std::string told = "round " + std::to_string(round) + ": ";
    for (int step = 0; step < 12; ++step, ++steps) {
      const std::vector<double> before = fixedSizes(file.model());
      const auto& parts = file.model().parts;
      const std::string part = parts[pick(parts.size())].name;
      const bool made = markOf(file.model(), part) != nullptr;
      switch (pick(4)) {
        case 0:
          measureThickness(file, Measurement::Scope::material, "oak", number());
          told += "oak; ";
          break;
        case 1:
          measureThickness(file, Measurement::Scope::batch, "october", number());
          told += "october; ";
          break;
        case 2:
          if (made) continue;  // measured anew, it is as it measures
          ASSERT_TRUE(file.setMeasurement(
              {Measurement::Scope::part, part, SizeName::thickness, {number(), true}}));
          told += part + " measured; ";
          break;
        default:
          if (made) continue;
          mark(file, part, static_cast<MarkState>(1 + pick(3)));
          told += part + " marked; ";
      }
      const std::vector<double> after = fixedSizes(file.model());
      ASSERT_GE(after.size(), before.size());
      for (std::size_t i = 0; i < before.size(); ++i) EXPECT_EQ(before[i], after[i]) << told;
      expectMadeAsMarked(file.model(), told);
      if (HasFailure()) return;
    }
  }
  EXPECT_GT(steps, 0);
}

TEST(Locked, AndAbsorbNeverContradictEachOther) {
  for (int round = 0; round < test::repetitions(12); ++round) {
    std::mt19937_64 random(test::seed() + static_cast<unsigned>(round));
    ModelFile file = fileFrom(cupboardText());
    for (const Part& part : std::vector<Part>(file.model().parts)) {
      if (random() % 2 == 0) mark(file, part.name, static_cast<MarkState>(1 + random() % 3));
    }
    if (random() % 2 == 0) {
      measureThickness(file, Measurement::Scope::material, "oak", "22.4");
    } else {
      ASSERT_TRUE(file.setDimension("opening_width", std::to_string(896 + random() % 8)));
    }
    const DryFit fit = fitOf(file.model());
    const bool locked = !findingsOfKind(fit, FindingKind::locked).empty();
    bool out = false;
    for (const double off : misfits(fit.piece)) {
      out = out || std::fabs(off) > lengthBy(RuleId::markTolerance).mm();
    }
    EXPECT_EQ(locked, out) << "round " << round;
    const auto all = absorptions(file.model(), Basis::measured);
    ASSERT_TRUE(all) << all.error().line();
    if (!locked) {
      EXPECT_THAT(all->sound, IsEmpty());
      EXPECT_THAT(all->unsound, IsEmpty());
    }
  }
}

}  // namespace
}  // namespace dryfit::joinery
