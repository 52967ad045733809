// The drawing of a whole piece.

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "export/drawing/assembly_drawing.h"
#include "export/drawing/assembly_views.h"
#include "tests/export/drawing_pieces.h"
#include "tests/export/drawing_rules.h"

namespace dryfit::test {
namespace {

using exporting::Sheet;

Sheet assemblyOf(const DrawnPiece& drawn, joinery::Unit unit = joinery::Unit::mm) {
  exporting::DrawingOptions options;
  options.unit = unit;
  return exporting::drawAssembly(drawn.piece, drawn.solids, drawn.groups, options).value();
}

TEST(AssemblyDrawing, KeepsTextsApartAndInsideTheFrame) {
  for (const joinery::Piece& piece : {doorPiece(), tablePiece(), bookcasePiece()}) {
    const DrawnPiece drawn = makeDrawable(piece);
    expectGoodSheet(assemblyOf(drawn));
    expectGoodSheet(assemblyOf(drawn, joinery::Unit::inch));
  }
}

TEST(AssemblyDrawing, ListsEveryPartAndPointsAtIt) {
  const DrawnPiece drawn = makeDrawable(bookcasePiece());
  const Sheet sheet = assemblyOf(drawn);
  for (const joinery::PartGroup& group : drawn.groups) {
    const std::string number = std::to_string(group.number);
    const auto texts = textsOf(sheet);
    const auto bold = std::ranges::count_if(texts, [&](const exporting::Text& t) {
      return t.text == number && t.style == exporting::TextStyle::bold;
    });
    EXPECT_GE(bold, 2) << "a balloon and the list, part " << number;
  }
  EXPECT_TRUE(hasText(sheet, "Shelf 1"));
  EXPECT_TRUE(hasText(sheet, "Right side (mirror of 1)"));
}

TEST(AssemblyDrawing, GivesOverallWidthHeightAndDepth) {
  const Sheet sheet = assemblyOf(makeDrawable(tablePiece()));
  for (const char* size : {"500", "700", "400", "500 × 700 × 400"}) {
    EXPECT_TRUE(hasText(sheet, size)) << size;
  }
}

TEST(AssemblyDrawing, PointsAtAPlaceOfThePartThatNothingHides) {
  const DrawnPiece drawn = makeDrawable(tablePiece());
  const auto pointers = exporting::partPointers(drawn.piece, drawn.groups);
  ASSERT_EQ(pointers.size(), drawn.groups.size());
  for (const auto& pointer : pointers) {
    EXPECT_FALSE(pointer.hidden) << pointer.number;
    const auto& group = drawn.groups[pointer.number - 1];
    for (const kernel::Point3& at : pointer.at) {
      const bool onPart = std::ranges::any_of(group.parts, [&](joinery::PartId id) {
        const kernel::Box3 box = drawn.piece.parts[id.index()].span.grown(1e-6);
        bool inside = true;
        for (int axis = 0; axis < 3; ++axis) {
          inside = inside && box.min[axis] <= at[axis] && at[axis] <= box.max[axis];
        }
        return inside;
      });
      EXPECT_TRUE(onPart) << pointer.number;
    }
  }
}

TEST(AssemblyDrawing, DashesTheLeaderToAPartInside) {
  // Front, left side and top hide the shelf and the bottom from all three eyes.
  const DrawnPiece drawn = makeDrawable(closedBoxPiece());
  const auto pointers = exporting::partPointers(drawn.piece, drawn.groups);
  const auto hidden = std::ranges::count_if(pointers, &exporting::PartPointer::hidden);
  EXPECT_EQ(hidden, 2) << "the shelf and the bottom";
  EXPECT_TRUE(hasText(assemblyOf(drawn), "Dashed leader: the part is hidden behind others."));
}

}  // namespace
}  // namespace dryfit::test
