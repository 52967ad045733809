#include "joinery/piece/part_list.h"

#include <gtest/gtest.h>

#include <random>

#include "joinery/piece/piece.h"

namespace dryfit::joinery {
namespace {

using kernel::Block;
using kernel::Box3;
using kernel::Cylinder;
using kernel::Frame;
using kernel::Point3;
using kernel::Prism;
using kernel::Tool;

constexpr kernel::Vec3 kSize{300, 60, 22};

/// Parts of one size in one piece, each with its own cuts and additions.
class Bench {
 public:
  PlacedPart& add(const std::string& material = "oak", Grain grain = Grain::length) {
    Part part;
    part.name = "p" + std::to_string(piece.parts.size());
    part.material = material;
    part.grain = grain;
    piece.model.parts.push_back(part);
    PlacedPart placed;
    placed.id = PartId(piece.parts.size());
    placed.size = kSize;
    placed.faceSideFree = placed.faceEdgeFree = true;
    piece.parts.push_back(placed);
    return piece.parts.back();
  }
  [[nodiscard]] std::vector<PartGroup> groups() const { return groupParts(piece); }
  Piece piece;
};

void give(PlacedPart& part, Tool tool, Stage stage = Stage::cut) {
  Feature feature;
  feature.part = part.id;
  feature.stage = stage;
  feature.extent = kernel::boundsOf(Frame{}, Box3{});
  if (const auto* block = std::get_if<Block>(&tool)) {
    feature.extent = kernel::boundsOf(block->frame, block->box);
  }
  feature.tool = std::move(tool);
  part.features.push_back(std::move(feature));
}

Tool box(Point3 min, Point3 max) {
  return Block{{min, max}, {}};
}

/// The tool as it lies after the axes in `flip` of the part are turned round.
Tool flipped(const Tool& tool, std::array<bool, 3> flip) {
  const auto point = [&](Point3 p) {
    for (int i = 0; i < 3; ++i) {
      if (flip[i]) p.set(i, kSize[i] - p[i]);
    }
    return p;
  };
  if (const auto* block = std::get_if<Block>(&tool)) {
    const Point3 a = point(block->box.min), b = point(block->box.max);
    return Block{Box3{a, a}.united({b, b}), {}};
  }
  Cylinder bar = std::get<Cylinder>(tool);
  const Point3 end = point(bar.base + bar.axis * bar.height);
  bar.base = point(bar.base);
  bar.axis = (end - bar.base).unit();
  return bar;
}

const Tool kMortise = box({20, 10, 8}, {60, 35, 23});
const Tool kTenon = box({300, 15, 7}, {338, 45, 15});

TEST(PartList, PutsEqualPartsTogetherInTheOrderOfTheModel) {
  Bench bench;
  give(bench.add(), kMortise);
  bench.add();
  give(bench.add(), kMortise);
  bench.add();
  const auto groups = bench.groups();
  ASSERT_EQ(groups.size(), 2U);
  EXPECT_EQ(groups[0].number, 1);
  EXPECT_EQ(groups[0].parts, (std::vector{PartId(0), PartId(2)}));
  EXPECT_EQ(groups[1].number, 2);
  EXPECT_EQ(groups[1].parts, (std::vector{PartId(1), PartId(3)}));
}

TEST(PartList, KnowsAPartTurnedEndForEndOrOver) {
  for (const std::array<bool, 3> turn :
       {std::array{false, true, true}, std::array{true, false, true},
        std::array{true, true, false}}) {
    Bench bench;
    PlacedPart& first = bench.add();
    give(first, kMortise);
    give(first, box({200, 0, 0}, {210, 5, 22}));
    PlacedPart& second = bench.add();
    give(second, flipped(box({200, 0, 0}, {210, 5, 22}), turn));  // order does not matter
    give(second, flipped(kMortise, turn));
    EXPECT_EQ(bench.groups().size(), 1U);
  }
}

TEST(PartList, KeepsPartsApartThatAreMarkedOnOtherFaces) {
  // A mortise in the face edge, and one in the edge opposite: the same board turned over, but a
  // gauge set from the face edge cuts only one of them.
  Bench bench;
  for (const bool far : {false, true}) {
    PlacedPart& bearer = bench.add();
    give(bearer, box({20, -1, 8}, {60, 30, 14}));
    bearer.faceSideFree = bearer.faceEdgeFree = false;
    bearer.faceEdge = {1, far};
  }
  const auto groups = bench.groups();
  ASSERT_EQ(groups.size(), 2U);
  EXPECT_EQ(groups[1].mirrorOf, 0);
}

TEST(PartList, TakesTheStilesOfADoorForAPair) {
  // Alike by form, but marked on their inner edges and with the face side in front.
  Bench bench;
  for (const bool right : {false, true}) {
    PlacedPart& stile = bench.add();
    const Tool mortise = box({20, 40, 8}, {60, 61, 14});
    give(stile, right ? flipped(mortise, {false, true, false}) : mortise);
    stile.faceSideFree = stile.faceEdgeFree = false;
    stile.faceEdge = {1, !right};
  }
  const auto groups = bench.groups();
  ASSERT_EQ(groups.size(), 2U);
  EXPECT_EQ(groups[1].mirrorOf, 1);
}

TEST(PartList, TellsWhatACutIsForAndWhichEdgesAreCovered) {
  Bench bench;
  for (int i = 0; i < 4; ++i) give(bench.add(), kMortise);
  bench.piece.parts[1].features[0].purpose = Purpose::haunchSocket;
  bench.piece.model.parts[2].edging = {Face::left};
  EXPECT_EQ(bench.groups().size(), 3U);
}

TEST(PartList, KeepsAMirroredPairApart) {
  for (const std::array<bool, 3> mirror :
       {std::array{true, false, false}, std::array{false, true, false},
        std::array{false, false, true}, std::array{true, true, true}}) {
    Bench bench;
    give(bench.add(), kMortise);
    give(bench.add(), flipped(kMortise, mirror));
    const auto groups = bench.groups();
    ASSERT_EQ(groups.size(), 2U);
    EXPECT_EQ(groups[0].mirrorOf, 0);
    EXPECT_EQ(groups[1].mirrorOf, 1);
  }
}

TEST(PartList, HasNoMirrorOfASymmetricalPart) {
  // A mortise through the middle of the thickness has no left and right.
  const Tool through = box({20, 10, -1}, {60, 35, 23});
  Bench bench;
  give(bench.add(), through);
  give(bench.add(), flipped(through, {true, false, false}));
  EXPECT_EQ(bench.groups().size(), 1U);
}

TEST(PartList, TellsMaterialAndGrainApart) {
  Bench bench;
  bench.add("oak");
  bench.add("elm");
  bench.add("oak", Grain::width);
  const auto groups = bench.groups();
  ASSERT_EQ(groups.size(), 3U);
  for (const PartGroup& group : groups) EXPECT_EQ(group.mirrorOf, 0);
}

TEST(PartList, ComparesWithinAMillionthOfAMillimetre) {
  const auto groups = [](double off) {
    Bench bench;
    give(bench.add(), kMortise);
    give(bench.add(), box({20 + off, 10, 8}, {60 + off, 35, 23}));
    return bench.groups().size();
  };
  EXPECT_EQ(groups(5e-7), 1U);
  EXPECT_EQ(groups(2e-6), 2U);
}

TEST(PartList, TakesNoNoticeOfHowFarACutOverruns) {
  Bench bench;
  give(bench.add(), box({20, 10, 8}, {60, 35, 23}));
  give(bench.add(), box({20, 10, 8}, {60, 35, 32}));
  EXPECT_EQ(bench.groups().size(), 1U);
}

TEST(PartList, TellsAnAdditionFromACut) {
  Bench bench;
  give(bench.add(), kTenon, Stage::insert);
  give(bench.add(), kTenon, Stage::cut);
  EXPECT_EQ(bench.groups().size(), 2U);
}

TEST(PartList, CountsTenonsInTheLengthAndNotInTheShoulders) {
  Bench bench;
  give(bench.add(), kTenon, Stage::insert);
  const PartGroup group = bench.groups().front();
  EXPECT_DOUBLE_EQ(group.length.mm(), 338);
  EXPECT_DOUBLE_EQ(group.shoulderLength.mm(), 300);
  EXPECT_DOUBLE_EQ(group.width.mm(), 60);
  EXPECT_DOUBLE_EQ(group.thickness.mm(), 22);
}

TEST(PartList, ComparesDowelHoles) {
  const auto hole = [](double x, double radius) {
    return Tool(Cylinder{{x, 30, 22}, {0, 0, -1}, radius, 12});
  };
  Bench bench;
  give(bench.add(), hole(40, 4));
  give(bench.add(), hole(260, 4));  // end for end, but from the other side: turned about z
  give(bench.add(), hole(40, 5));
  EXPECT_EQ(bench.groups().size(), 2U);
}

TEST(PartList, ComparesTurnedBlocksAndPrismsByTheirEdges) {
  const Frame tilt = Frame::rotation({300, 0, 0}, {0, 0, 1}, Angle::degrees(10));
  const Box3 end{{300, -50, -1}, {400, 200, 23}};
  // The same wood taken off by a turned block and by a prism over its bottom face.
  Prism prism;
  prism.frame = tilt;
  prism.frame.origin = tilt.place({0, 0, -1});
  prism.outline = {{400, 200}, {300, 200}, {300, -50}, {400, -50}};
  prism.height = 24;
  Bench bench;
  give(bench.add(), Block{end, tilt}, Stage::shape);
  give(bench.add(), prism, Stage::shape);
  give(bench.add(), Block{end, Frame::rotation({300, 0, 0}, {0, 0, 1}, Angle::degrees(11))},
       Stage::shape);
  const auto groups = bench.groups();
  ASSERT_EQ(groups.size(), 2U);
  EXPECT_EQ(groups[0].parts.size(), 2U);
}

TEST(PartList, FindsRandomPartsAgainHoweverTheyLie) {
  const unsigned seed = 12;
  SCOPED_TRACE(seed);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> share(0, 1);
  const std::array<std::array<bool, 3>, 4> turns{
      {{false, false, false}, {false, true, true}, {true, false, true}, {true, true, false}}};
  for (int round = 0; round < 100; ++round) {
    std::vector<Tool> tools;
    for (std::size_t k = 0; k < 1 + random() % 5; ++k) {
      const Point3 lo{share(random) * 250, share(random) * 40, share(random) * 15};
      tools.push_back(box(lo, lo + kernel::Vec3{10 + share(random) * 20, 5 + share(random) * 10,
                                                2 + share(random) * 4}));
    }
    Bench bench;
    for (const auto& turn : turns) {
      PlacedPart& part = bench.add();
      std::shuffle(tools.begin(), tools.end(), random);
      for (const Tool& tool : tools) give(part, flipped(tool, turn));
    }
    PlacedPart& mirrored = bench.add();
    for (const Tool& tool : tools) give(mirrored, flipped(tool, {true, false, false}));
    const auto groups = bench.groups();
    ASSERT_EQ(groups.size(), 2U);
    EXPECT_EQ(groups[0].parts.size(), 4U);
    EXPECT_EQ(groups[1].mirrorOf, 1);
  }
}

TEST(Recipe, AddsAndCutsInTheOrderOfTheStages) {
  Bench bench;
  PlacedPart& part = bench.add();
  give(part, kMortise, Stage::cut);
  give(part, kTenon, Stage::insert);
  give(part, box({280, 0, 0}, {300, 60, 22}), Stage::shape);
  give(part, box({300, 0, 0}, {320, 60, 22}), Stage::extend);
  const kernel::Recipe recipe = part.recipe();
  using Kind = kernel::Step::Kind;
  ASSERT_EQ(recipe.steps.size(), 4U);
  const std::array kinds{Kind::add, Kind::remove, Kind::add, Kind::remove};
  for (std::size_t i = 0; i < 4; ++i) EXPECT_EQ(recipe.steps[i].kind, kinds[i]);
  EXPECT_EQ(recipe.steps[2].tools, std::vector<Tool>{kTenon});
  EXPECT_EQ(part.overall().max.x, 338);
  EXPECT_TRUE(bench.add().recipe().steps.empty());
}

}  // namespace
}  // namespace dryfit::joinery
