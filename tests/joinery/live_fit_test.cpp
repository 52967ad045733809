#include "joinery/fit/live_fit.h"

#include "joinery/base/unit.h"

#include "joinery/piece/place_parts.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <set>
#include <string>

#include "joinery/formula/length_text.h"
#include "joinery/making/marks.h"
#include "tests/support/demo_pieces.h"
#include "tests/support/joint_scenes.h"
#include "tests/support/random_work.h"
#include "tests/support/repetitions.h"

namespace dryfit::joinery {
namespace {

void expectEqual(const DryFit& live, const DryFit& cold) {
  EXPECT_EQ(live.piece.values, cold.piece.values);
  EXPECT_TRUE(live.piece.parts == cold.piece.parts);
  EXPECT_TRUE(live.piece.joints == cold.piece.joints);
  EXPECT_TRUE(live.piece.basis == cold.piece.basis);
  ASSERT_EQ(live.solids.size(), cold.solids.size());
  for (std::size_t i = 0; i < cold.solids.size(); ++i) {
    EXPECT_EQ(live.solids[i].volume(), cold.solids[i].volume());
    EXPECT_TRUE(live.solids[i].bounds() == cold.solids[i].bounds());
    EXPECT_TRUE(live.solids[i].centroid() == cold.solids[i].centroid());
  }
  ASSERT_EQ(live.findings.size(), cold.findings.size());
  for (std::size_t i = 0; i < cold.findings.size(); ++i) {
    EXPECT_TRUE(live.findings[i] == cold.findings[i]) << live.findings[i].text << "\n"
                                                      << cold.findings[i].text;
  }
}

/// How many of the states could be dry fitted, and how many had an error.
struct Tally {
  int fitted = 0, failed = 0;
};

void workAtRandom(LiveFit& live, const Model& model, unsigned seed, int edits, Tally& tally) {
  RandomWorker worker({model, Basis::drawn}, seed);
  std::string done = "opened";
  DesignState sound = worker.state();
  int failedInARow = 0;
  for (int i = 0; i <= edits; ++i) {
    SCOPED_TRACE(fmt::format("{}, seed {}, edit {}: {}", model.name, seed, i, done));
    const DesignState s = worker.state();
    const Unit unit = std::array{Unit::mm, Unit::inch, Unit::cm}[static_cast<std::size_t>(i) % 3];
    const auto found = live.update(s.model, s.basis, {}, unit);
    const auto cold = dryFit(s.model, s.basis, {}, unit);
    ASSERT_EQ(found.has_value(), cold.has_value())
        << (cold ? found.error().line() : cold.error().line());
    if (cold) {
      ++tally.fitted;
      failedInARow = 0;
      sound = s;
      expectEqual(**found, *cold);
    } else {
      ++tally.failed;
      ++failedInARow;
      EXPECT_EQ(found.error().code, cold.error().code);
      EXPECT_EQ(found.error().line(), cold.error().line());
    }
    if (testing::Test::HasFailure()) return;
    // A maker who has spoilt the piece goes back sooner or later; so errors do not pile up.
    done = failedInARow >= 3 ? worker.returnTo(sound) : worker.edit();
  }
}

unsigned printedSeed() {
  const unsigned seed = std::random_device{}();
  fmt::print("seed {}\n", seed);
  return seed;
}

Model demo(const std::string& name) {
  return test::demoPiece(name).model();
}

TEST(LiveFit, EqualsAColdDryFitAfterRandomEditsOfTheDemoPieces) {
  const unsigned seed = printedSeed();
  LiveFit live;  // one for all: no model may be harmed by what is remembered of another
  Tally tally;
  // Dowels are round work, which takes a cold fit a hundred times as long.
  for (const auto& [name, edits] :
       {std::pair("periodicals-cupboard", 160), std::pair("reading-table", 160),
        std::pair("mistakes", 30), std::pair("wall-rack", 6), std::pair("step-stool", 3)}) {
    workAtRandom(live, demo(name), seed, test::repetitions(edits), tally);
  }
  EXPECT_GT(tally.fitted, test::repetitions(50));
  // Of few edits hardly one may bring an error.
  if (test::repetitions(100) >= 100) {
    EXPECT_GT(tally.failed, 20);
  }
}

TEST(LiveFit, EqualsAColdDryFitAfterRandomEditsOfEveryKindOfJoint) {
  const unsigned seed = printedSeed();
  std::mt19937_64 random(seed);
  Tally tally;
  for (const std::string& kind : test::sceneKinds()) {
    for (int round = 0; round < 2; ++round) {
      test::JointScene scene = test::randomScene(kind, random);
      if (round == 1) scene.text.turnAll("z", {10, 20, 0}, 20);
      const auto file = ModelFile::parse(scene.text.json().dump(), kind);
      ASSERT_TRUE(file) << file.error().line();
      LiveFit live;
      workAtRandom(live, file->model(), seed, test::repetitions(8), tally);
    }
  }
  EXPECT_GT(tally.fitted, test::repetitions(50));
}

/// The part, and all parts that a joint ties to it.
std::set<std::size_t> withNeighbours(const Piece& piece, std::size_t part) {
  std::set<std::size_t> all{part};
  for (const PlacedJoint& joint : piece.joints) {
    if (std::ranges::find(joint.mates, PartId(part)) == joint.mates.end()) continue;
    for (const PartId mate : joint.mates) all.insert(mate.index());
  }
  return all;
}

std::size_t partNamed(const Model& model, const std::string& name) {
  return static_cast<std::size_t>(std::ranges::find(model.parts, name, &Part::name) -
                                  model.parts.begin());
}

TEST(LiveFit, APanelsThicknessRebuildsOnlyThePanelAndItsFrame) {
  Model model = demo("periodicals-cupboard");
  LiveFit live;
  const auto before = live.update(model, Basis::measured);
  ASSERT_TRUE(before);
  const LiveWork cold = live.work();
  const std::string panel = "back_lower_left.panel";
  model.measurements.push_back(
      {Measurement::Scope::part, panel, SizeName::thickness, {"6.3", true}});
  const auto after = live.update(model, Basis::measured);
  ASSERT_TRUE(after);

  // The frame, and what stands in the frame's grooves: tenons are in line with them.
  std::set<std::size_t> frame = withNeighbours((*after)->piece, partNamed(model, panel));
  for (const std::size_t member : std::set(frame)) {
    frame.merge(withNeighbours((*after)->piece, member));
  }
  int remade = 0;
  for (std::size_t i = 0; i < model.parts.size(); ++i) {
    const bool same = (*before)->piece.parts[i].recipe() == (*after)->piece.parts[i].recipe();
    EXPECT_TRUE(same || frame.contains(i)) << model.parts[i].name;
    EXPECT_EQ(same, &(*before)->solids[i].impl() == &(*after)->solids[i].impl());
    remade += same ? 0 : 1;
  }
  EXPECT_GE(remade, 1);
  EXPECT_LE(live.work().solids, remade);
  EXPECT_GE(live.work().solids, 1);
  // The size itself, and the two faces that follow from it.
  EXPECT_EQ(live.work().numbers, 3);
  EXPECT_LT(live.work().joints, cold.joints / 2);
  EXPECT_LE(live.work().pairs, static_cast<int>(frame.size()) * 6);
  EXPECT_LT(live.work().pairs, cold.pairs / 2);
}

TEST(LiveFit, DoesNothingWhereNothingChanged) {
  const Model model = demo("periodicals-cupboard");
  LiveFit live;
  ASSERT_TRUE(live.update(model, Basis::drawn));
  ASSERT_TRUE(live.update(model, Basis::drawn));
  EXPECT_EQ(live.work().numbers, 0);
  EXPECT_EQ(live.work().joints, 0);
  EXPECT_EQ(live.work().solids, 0);
  EXPECT_EQ(live.work().pairs, 0);
}

TEST(LiveFit, UndoBuildsNoSolidAgain) {
  const Model model = demo("reading-table");
  Model other = model;
  other.measurements.push_back({Measurement::Scope::part,
                                model.parts.front().name,
                                SizeName::length,
                                {std::to_string(500 / millimetresIn(model.unit)), true}});
  LiveFit live;
  ASSERT_TRUE(live.update(model, Basis::drawn));
  (void)live.update(other, Basis::measured);
  ASSERT_TRUE(live.update(model, Basis::drawn));
  EXPECT_EQ(live.work().solids, 0);
  EXPECT_EQ(live.work().pairs, 0);
}

TEST(LiveFit, StaysUsableAfterAnErrorAndAfterAStop) {
  const Model model = demo("reading-table");
  Model broken = model;
  broken.parts.front().length.from = Expression{"no_such_size", false};
  LiveFit live;
  ASSERT_TRUE(live.update(model, Basis::drawn));
  const auto failed = live.update(broken, Basis::drawn);
  ASSERT_FALSE(failed);
  EXPECT_EQ(failed.error().code, ErrorCode::unknownName);
  const auto stopped = live.update(model, Basis::drawn, [](int, int) { return false; });
  ASSERT_FALSE(stopped);
  EXPECT_EQ(stopped.error().code, ErrorCode::cancelled);
  const auto again = live.update(model, Basis::drawn);
  ASSERT_TRUE(again);
  expectEqual(**again, *dryFit(model, Basis::drawn));
  EXPECT_EQ(live.work().joints, 0);
  EXPECT_EQ(live.work().solids, 0);
}

TEST(SolidStore, DropsSolidsThatTheLastStatesDidNotNeed) {
  Model model = demo("reading-table");
  SolidStore store;
  std::size_t most = 0;
  for (int i = 0; i < 40; ++i) {
    model.measurements = {{Measurement::Scope::part,
                           model.parts.front().name,
                           SizeName::length,
                           {std::to_string((500 + i) / millimetresIn(model.unit)), true}}};
    const auto piece = placeParts(model, Basis::measured);
    ASSERT_TRUE(piece) << piece.error().line();
    ASSERT_TRUE(store.solidsOf(*piece));
    if (i == 20) most = store.size();
    if (i > 20) {
      EXPECT_EQ(store.size(), most);
    }
  }
}

}  // namespace
}  // namespace dryfit::joinery
