#include "joinery/live_fit.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <set>
#include <string>

#include "joinery/length_text.h"
#include "joinery/marks.h"
#include "tests/support/demo_pieces.h"
#include "tests/support/joint_scenes.h"

namespace dryfit::joinery {
namespace {

/// One state of a design under random work.
struct State {
  Model model;
  Basis basis = Basis::drawn;
};

/// Does to a design what its maker may do, sensible or not.
class Worker {
 public:
  Worker(State start, unsigned seed) : random_(seed), state_(std::move(start)) {
    past_.push_back(state_);
  }
  [[nodiscard]] const State& state() const { return state_; }

  /// One edit; tells what it was.
  std::string edit() {
    const std::string done = change();
    past_.push_back(state_);
    return done;
  }
  /// Takes up an earlier state again.
  std::string returnTo(const State& earlier) {
    state_ = earlier;
    past_.push_back(state_);
    return "back to a piece without an error";
  }

 private:
  std::size_t upTo(std::size_t count) {
    return std::uniform_int_distribution<std::size_t>(0, count - 1)(random_);
  }
  double between(double lo, double hi) {
    return std::uniform_real_distribution<double>(lo, hi)(random_);
  }
  template <class List>
  auto& oneOf(List& list) {
    return list[upTo(list.size())];
  }

  std::string change() {
    // Wedges are slow work, which every cold fit does anew: none stays for long.
    if (!state_.model.tapers.empty() && upTo(3) == 0) {
      state_.model.tapers.clear();
      return "no more taper";
    }
    switch (upTo(10)) {
      case 0:
      case 1:
        return changeDimension();
      case 2:
      case 3:
      case 4:
        return measure();
      case 5:
      case 6:
        return changeJoint();
      case 7:
        return upTo(2) == 0 ? switchBasis() : changeWords();
      case 8:
        return upTo(6) == 0 ? taper() : mark();
      default:
        state_ = oneOf(past_);
        return "undo";
    }
  }

  std::string changeDimension() {
    if (state_.model.dimensions.empty()) return measure();
    Dimension& d = oneOf(state_.model.dimensions);
    const std::string before = d.value.text;
    switch (upTo(8)) {
      case 0:
        d.value = {"no_such_size + 1", false};
        break;
      case 1:
        d.value = {d.name + " * 2", false};
        break;
      case 2:
        d.value = {"0", true};
        break;
      default:
        d.value = {fmt::format("({}) * {:.3f}", before, between(0.95, 1.06)), false};
        if (d.value.text.size() > 200) d.value = {"50", true};
    }
    return "dimension " + d.name + " = " + d.value.text;
  }

  std::string measure() {
    auto& all = state_.model.measurements;
    if (!all.empty() && upTo(4) == 0) {
      all.erase(all.begin() + static_cast<std::ptrdiff_t>(upTo(all.size())));
      return "forget a measured size";
    }
    state_.basis = Basis::measured;
    Measurement m;
    const auto piece = placeParts(state_.model, Basis::drawn);
    if (!piece) return switchBasis();
    double drawn = 0;
    if (upTo(5) == 0) {
      m.scope = Measurement::Scope::material;
      m.name = oneOf(state_.model.materials).name;
      drawn = piece->values.at(m.name + ".thickness");
    } else {
      const std::size_t i = upTo(state_.model.parts.size());
      const int axis = static_cast<int>(upTo(3));
      m.scope = Measurement::Scope::part;
      m.name = state_.model.parts[i].name;
      m.size = static_cast<SizeName>(axis);
      drawn = piece->parts[i].size[axis];
    }
    const double real = std::max(drawn + between(-3, 1.5), 1.0) / millimetresIn(state_.model.unit);
    m.value = {fmt::format("{:.2f}", real), true};
    std::erase_if(all, [&](const Measurement& old) {
      return old.scope == m.scope && old.name == m.name && old.size == m.size;
    });
    all.push_back(m);
    return "measure " + m.name + " " + m.value.text;
  }

  /// Parts are made at what they measure now; later edits then run against their marks.
  std::string mark() {
    auto& all = state_.model.marks;
    if (!all.empty() && upTo(5) == 0) {
      all.erase(all.begin() + static_cast<std::ptrdiff_t>(upTo(all.size())));
      return "take a mark back";
    }
    const auto piece = evaluate(state_.model, Basis::measured);
    if (!piece) return switchBasis();
    const PartId part(upTo(piece->parts.size()));
    const Mark made = markFor(*piece, part, static_cast<MarkState>(upTo(4)));
    std::erase_if(all, [&](const Mark& old) { return old.part == made.part; });
    all.push_back(made);
    state_.basis = Basis::measured;
    return fmt::format("mark {} {}", made.part, nameOf(made.state));
  }

  std::string taper() {
    state_.model.tapers.clear();
    const Part& part = oneOf(state_.model.parts);
    Taper taper;
    taper.name = "lean";
    taper.parts = {part.name};
    taper.size = upTo(2) == 0 ? SizeName::width : SizeName::thickness;
    taper.narrowEnd = faceOf(part.length.along, upTo(2) == 0);
    taper.by = {fmt::format("{:.2f}", between(0.2, 3) / millimetresIn(state_.model.unit)), true};
    taper.measured = upTo(2) == 0;
    state_.model.tapers.push_back(taper);
    return "taper " + part.name;
  }

  std::string changeJoint() {
    if (state_.model.joints.empty()) return measure();
    Joint& joint = oneOf(state_.model.joints);
    const auto parameters = jointKindNamed(joint.kind)->parameters();
    if (parameters.empty()) return switchBasis();
    const Parameter& parameter = parameters[upTo(parameters.size())];
    const std::string name(parameter.name);
    std::erase_if(joint.parameters, [&](const auto& given) { return given.first == name; });
    if (upTo(4) == 0) return joint.name + "." + name + " left to the rules";
    Expression value{fmt::format("{:.2f}", between(0.02, 14)), true};
    if (parameter.type == Parameter::Type::number) value.text = std::to_string(1 + upTo(4));
    if (parameter.type == Parameter::Type::word) {
      value = {std::string(parameter.words[upTo(parameter.words.size())]), false};
    }
    joint.parameters.emplace_back(name, value);
    return joint.name + "." + name + " = " + value.text;
  }

  std::string switchBasis() {
    state_.basis = state_.basis == Basis::drawn ? Basis::measured : Basis::drawn;
    return "other basis";
  }

  /// Findings speak of parts by their labels, and of joints by their places in the list.
  std::string changeWords() {
    if (upTo(2) == 0 && !state_.model.joints.empty()) {
      auto& joints = state_.model.joints;
      std::swap(oneOf(joints), joints.front());
      return "another order of joints";
    }
    Part& part = oneOf(state_.model.parts);
    part.label = fmt::format("board {}", upTo(100));
    return part.name + " called " + part.label;
  }

  std::mt19937_64 random_;
  State state_;
  std::vector<State> past_;
};

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
  Worker worker({model, Basis::drawn}, seed);
  std::string done = "opened";
  State sound = worker.state();
  int failedInARow = 0;
  for (int i = 0; i <= edits; ++i) {
    SCOPED_TRACE(fmt::format("{}, seed {}, edit {}: {}", model.name, seed, i, done));
    const State s = worker.state();
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
  for (const auto& [name, edits] : {std::pair("linen-chest", 160), std::pair("side-table", 160),
                                    std::pair("mistakes", 30), std::pair("wall-shelf", 6)}) {
    workAtRandom(live, demo(name), seed, edits, tally);
  }
  EXPECT_GT(tally.fitted, 50);
  EXPECT_GT(tally.failed, 20);
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
      workAtRandom(live, file->model(), seed, 8, tally);
    }
  }
  EXPECT_GT(tally.fitted, 50);
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
  Model model = demo("linen-chest");
  LiveFit live;
  const auto before = live.update(model, Basis::measured);
  ASSERT_TRUE(before);
  const LiveWork cold = live.work();
  const std::string panel = "front_left_panel";
  model.measurements.push_back(
      {Measurement::Scope::part, panel, SizeName::thickness, {"7.2", true}});
  const auto after = live.update(model, Basis::measured);
  ASSERT_TRUE(after);

  const auto frame = withNeighbours((*after)->piece, partNamed(model, panel));
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
  const Model model = demo("linen-chest");
  LiveFit live;
  ASSERT_TRUE(live.update(model, Basis::drawn));
  ASSERT_TRUE(live.update(model, Basis::drawn));
  EXPECT_EQ(live.work().numbers, 0);
  EXPECT_EQ(live.work().joints, 0);
  EXPECT_EQ(live.work().solids, 0);
  EXPECT_EQ(live.work().pairs, 0);
}

TEST(LiveFit, UndoBuildsNoSolidAgain) {
  const Model model = demo("side-table");
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
  const Model model = demo("side-table");
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
  Model model = demo("side-table");
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
