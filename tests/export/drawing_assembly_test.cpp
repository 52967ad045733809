// The drawing of a whole piece.

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <set>

#include "export/drawing/assembly_drawing.h"
#include "export/drawing/assembly_views.h"
#include "export/drawing/balloon_ring.h"
#include "export/drawing/parts_in_sight.h"
#include "joinery/file/model_file.h"
#include "joinery/joints/evaluate.h"
#include "tests/export/drawing_pieces.h"
#include "tests/export/drawing_rules.h"
#include "tests/support/random_pieces.h"

namespace dryfit::test {
namespace {

using exporting::AssemblyView;
using exporting::Sheet;
using kernel::Box3;
using kernel::Point3;
using kernel::Vec3;

std::vector<Sheet> assemblyOf(const DrawnPiece& drawn, joinery::Unit unit = joinery::Unit::mm) {
  exporting::DrawingOptions options;
  options.unit = unit;
  return exporting::drawAssembly(drawn.piece, drawn.solids, drawn.groups, options).value();
}

/// Every demo piece, and some made by hand.
std::map<std::string, DrawnPiece> pieces() {
  std::map<std::string, DrawnPiece> all;
  for (const auto& entry : std::filesystem::directory_iterator(DRYFIT_MODELS)) {
    if (entry.path().extension() != ".dryfit") continue;
    const auto file = joinery::ModelFile::load(entry.path());
    const auto piece = joinery::evaluate(file.value().model(), joinery::Basis::drawn);
    all.emplace(entry.path().stem(), makeDrawable(piece.value()));
  }
  all.emplace("door", makeDrawable(doorPiece()));
  all.emplace("table", makeDrawable(tablePiece()));
  all.emplace("bookcase", makeDrawable(bookcasePiece()));
  all.emplace("box", makeDrawable(closedBoxPiece()));
  return all;
}

std::vector<AssemblyView> viewsOf(const DrawnPiece& drawn) {
  return exporting::assemblyViews(drawn.piece, drawn.solids, drawn.groups).value();
}

bool shows(const std::vector<Sheet>& sheets, const std::string& text) {
  return std::ranges::any_of(sheets, [&](const Sheet& sheet) { return hasText(sheet, text); });
}

TEST(AssemblyDrawing, KeepsTextsApartAndInsideTheFrame) {
  for (const auto& [name, drawn] : pieces()) {
    SCOPED_TRACE(name);
    for (const joinery::Unit unit : {joinery::Unit::mm, joinery::Unit::inch}) {
      for (const Sheet& sheet : assemblyOf(drawn, unit)) {
        expectGoodSheet(sheet);
        expectClearBalloons(sheet);
      }
    }
  }
}

TEST(AssemblyDrawing, TakesADoorOffWholeWhereItHidesWhatIsInside) {
  const auto file = joinery::ModelFile::load(std::filesystem::path(DRYFIT_MODELS) / "starters" /
                                             "wardrobe.dryfit");
  const DrawnPiece drawn =
      makeDrawable(joinery::evaluate(file.value().model(), joinery::Basis::drawn).value());
  int inside = 0;
  for (const AssemblyView& view : viewsOf(drawn)) {
    std::size_t ofDoors = 0, away = 0;
    for (const joinery::PartGroup& group : drawn.groups) {
      const std::string& name = drawn.piece.part(group.parts.front()).name;
      if (!name.starts_with("door_")) continue;
      ++ofDoors;
      away += std::ranges::count(view.without, group.number) > 0 ? 1 : 0;
    }
    EXPECT_TRUE(away == 0 || away == ofDoors) << view.name << ": half a door hangs in the air";
    inside += away > 0 ? 1 : 0;
  }
  EXPECT_EQ(inside, 1) << "the hat shelf is seen with the doors off";
}

TEST(AssemblyDrawing, PointsAtEveryPartNumberOnceAndListsItOnce) {
  for (const auto& [name, drawn] : pieces()) {
    SCOPED_TRACE(name);
    const std::vector<Sheet> sheets = assemblyOf(drawn);
    std::multiset<std::string> balloons;
    std::multiset<std::string> listed;
    for (const Sheet& sheet : sheets) {
      for (const FoundBalloon& b : balloonsOf(sheet)) balloons.insert(b.item);
      for (const exporting::Text& t : textsOf(sheet)) {
        if (t.layer == exporting::Layer::table && t.style == exporting::TextStyle::bold) {
          listed.insert(t.text);
        }
      }
    }
    for (const joinery::PartGroup& group : drawn.groups) {
      EXPECT_EQ(balloons.count(std::to_string(group.number)), 1U) << group.number;
      EXPECT_EQ(listed.count(std::to_string(group.number)), 1U) << group.number;
    }
  }
}

TEST(AssemblyDrawing, SharesTheNumbersOutOnAllFourSidesOfACrowdedView) {
  exporting::Box2 outline{{0, 0}, {100, 100}};
  std::vector<exporting::RingItem> items;
  for (int i = 0; i < 24; ++i) {
    exporting::RingItem item{std::to_string(i), {}, false};
    item.ends.push_back({{10 + 16.0 * (i % 6), 14 + 24.0 * (i / 6)}, 0});
    items.push_back(item);
  }
  std::set<int> sides;
  for (const auto& b : exporting::ringOf(outline, items)) {
    if (b.centre.x < 0) sides.insert(0);
    if (b.centre.x > 100) sides.insert(1);
    if (b.centre.y < 0) sides.insert(2);
    if (b.centre.y > 100) sides.insert(3);
  }
  EXPECT_EQ(sides.size(), 4U);
}

TEST(AssemblyDrawing, CrossesNoLeadersWhateverThePlaces) {
  std::mt19937_64 random(seed());
  std::uniform_real_distribution<double> place(4, 116);
  for (int round = 0; round < 60; ++round) {
    SCOPED_TRACE("seed " + std::to_string(seed()) + ", round " + std::to_string(round));
    std::vector<exporting::RingItem> items;
    for (int i = 0; i < 20; ++i) {
      exporting::RingItem item{std::to_string(i), {}, false};
      const exporting::Point2 at{place(random), place(random)};
      for (const double off : {-4.0, 0.0, 4.0}) item.ends.push_back({{at.x + off, at.y}, 0});
      items.push_back(item);
    }
    const auto ring = exporting::ringOf({{0, 0}, {120, 120}}, items);
    ASSERT_EQ(ring.size(), items.size());
    for (std::size_t i = 0; i < ring.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        EXPECT_FALSE(
            exporting::segmentsCross(ring[i].centre, ring[i].end, ring[j].centre, ring[j].end))
            << i << ", " << j;
      }
    }
  }
}

TEST(AssemblyDrawing, GivesOverallWidthHeightAndDepth) {
  const std::vector<Sheet> sheets = assemblyOf(makeDrawable(tablePiece()));
  for (const char* size : {"500", "700", "400", "500 × 700 × 400"}) {
    EXPECT_TRUE(shows(sheets, size)) << size;
  }
}

TEST(AssemblyDrawing, FillsItsPaper) {
  for (const auto& [name, drawn] : pieces()) {
    for (const Sheet& sheet : assemblyOf(drawn)) {
      EXPECT_LE(emptyShare(sheet), 0.3) << name << ", " << sheet.format;
    }
  }
}

TEST(AssemblyDrawing, NumbersTheSheetsOfOneDrawingByLetters) {
  for (const auto& [name, drawn] : pieces()) {
    const std::vector<Sheet> sheets = assemblyOf(drawn);
    ASSERT_LE(sheets.size(), 2U) << name;
    EXPECT_TRUE(hasText(sheets.front(), sheets.size() == 1 ? "1 / 1" : "1a / 1")) << name;
    if (sheets.size() == 2) {
      EXPECT_TRUE(hasText(sheets.back(), "1b / 1")) << name;
    }
  }
}

/// The space that a line of sight passes through, 0.2 mm thick, from `from` on toward the eye.
kernel::Solid needle(Point3 from, Vec3 toEye, double length) {
  const Point3 to = from + toEye * length;
  Box3 box{from, from};
  box = box.united({to, to}).grown(0.1);
  return kernel::makeBox(box).value();
}

double sharedWith(const kernel::Solid& solid, const kernel::Solid& tool) {
  const auto shared = kernel::common(solid, std::span(&tool, 1));
  return shared ? shared->volume() : 0;
}

TEST(AssemblyDrawing, PointsAtWoodOfThePartThatNothingHides) {
  for (const auto& [name, drawn] : pieces()) {
    SCOPED_TRACE(name);
    // There parts lie in each other on purpose.
    if (name == "mistakes") continue;
    std::set<int> seen;
    for (const AssemblyView& view : viewsOf(drawn)) {
      const Vec3 toEye = view.eye.right.cross(view.eye.up);
      std::set<std::size_t> away;
      for (const int number : view.without) {
        for (const auto id : drawn.groups[static_cast<std::size_t>(number) - 1].parts) {
          away.insert(id.index());
        }
      }
      for (const auto& pointer : view.pointers) {
        EXPECT_FALSE(pointer.hidden) << pointer.number;
        EXPECT_TRUE(seen.insert(pointer.number).second) << pointer.number;
        ASSERT_FALSE(pointer.ends.empty());
        EXPECT_FALSE(away.contains(pointer.part.index()));
        for (const std::size_t k :
             {std::size_t{0}, pointer.ends.size() / 2, pointer.ends.size() - 1}) {
          const Point3 at = pointer.ends[k].at;
          const kernel::Solid under = needle(at - toEye, toEye, 1);
          const kernel::Solid before = needle(at + toEye * 0.6, toEye, 4000);
          for (const joinery::PlacedPart& part : drawn.piece.parts) {
            if (away.contains(part.id.index())) continue;
            const kernel::Solid solid = drawn.solids[part.id.index()].placed(part.frame);
            if (part.id == pointer.part) {
              EXPECT_GT(sharedWith(solid, under), 0) << pointer.number;
            } else if (!before.bounds().common(solid.bounds()).empty()) {
              EXPECT_LT(sharedWith(solid, before), 1e-6)
                  << pointer.number << " behind " << drawn.piece.part(part.id).name;
            }
          }
        }
      }
    }
    EXPECT_EQ(seen.size(), drawn.groups.size());
  }
}

TEST(AssemblyDrawing, TakesAwayWhatLiesBeforeAPartInside) {
  // Front, left side and top hide the shelf and the bottom from all three eyes.
  const DrawnPiece drawn = makeDrawable(closedBoxPiece());
  const auto views = viewsOf(drawn);
  ASSERT_GE(views.size(), 4U);
  EXPECT_TRUE(std::ranges::any_of(views, &AssemblyView::opened));
  const std::vector<Sheet> sheets = assemblyOf(drawn);
  for (const AssemblyView& view : views) {
    if (!view.opened()) continue;
    EXPECT_TRUE(shows(sheets, "without parts " + exporting::numberRanges(view.without)) ||
                shows(sheets, "without part " + exporting::numberRanges(view.without)));
  }
}

TEST(AssemblyDrawing, LeavesOutOnlyPartsThatNobodySees) {
  std::size_t leftOut = 0;
  for (const auto& [name, drawn] : pieces()) {
    SCOPED_TRACE(name);
    const std::vector<bool> none(drawn.piece.parts.size(), false);
    for (const AssemblyView& view : viewsOf(drawn)) {
      if (view.opened()) continue;
      const std::vector<bool> inSight = exporting::partsInSight(drawn.piece, view.eye, none);
      std::vector<kernel::Solid> all;
      std::vector<kernel::Solid> seen;
      for (const joinery::PlacedPart& part : drawn.piece.parts) {
        all.push_back(drawn.solids[part.id.index()].placed(part.frame));
        if (inSight[part.id.index()]) seen.push_back(all.back());
      }
      leftOut += all.size() - seen.size();
      const auto visible = [&](const std::vector<kernel::Solid>& solids) {
        auto lines = kernel::hiddenLines(solids, view.eye).value();
        std::erase_if(lines, [](const kernel::ViewLine& line) { return !line.visible; });
        return lines;
      };
      EXPECT_EQ(visible(all), visible(seen)) << view.name;
    }
  }
  EXPECT_GT(leftOut, 20U);
}

TEST(AssemblyDrawing, WritesRunsOfNumbersShort) {
  EXPECT_EQ(exporting::numberRanges({3, 7, 8, 9, 12, 13}), "3, 7–9, 12, 13");
  EXPECT_EQ(exporting::numberRanges({}), "");
}

}  // namespace
}  // namespace dryfit::test
