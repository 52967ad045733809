// Sheets from which nothing should be cut say so.

#include <gtest/gtest.h>

#include <algorithm>
#include <variant>

#include "export/drawing/drawing_set.h"
#include "export/drawing/part_drawing.h"
#include "export/drawing/stop_banner.h"
#include "tests/export/drawing_pieces.h"
#include "tests/export/drawing_rules.h"

namespace dryfit::test {
namespace {

using exporting::DrawingOptions;
using exporting::Sheet;

DrawnPiece door() {
  return makeDrawable(doorPiece());
}

Sheet sheetOf(const DrawnPiece& drawn, const std::string& part,
              const DrawingOptions& options = {}) {
  const auto group = std::ranges::find_if(drawn.groups, [&](const joinery::PartGroup& g) {
    return drawn.piece.part(g.parts.front()).name == part;
  });
  return exporting::drawPart(drawn.piece, drawn.solids, *group, options).value();
}

bool hasText(const Sheet& sheet, const std::string& wanted) {
  return std::ranges::any_of(sheet.ink.marks, [&](const exporting::Mark& mark) {
    const auto* text = std::get_if<exporting::Text>(&mark);
    return text != nullptr && text->text == wanted;
  });
}

TEST(StopBanner, SaysAcrossTheSheetNotToCutAPartThatAnErrorNames) {
  const DrawnPiece drawn = door();
  DrawingOptions options;
  options.errors = {"Joint top_left cannot be cut: the left of top rail is 83 mm from left stile.",
                    "Second.", "Third.", "Fourth.", "Fifth."};
  const Sheet sheet = sheetOf(drawn, "top_rail", options);
  expectGoodSheet(sheet);
  EXPECT_TRUE(hasText(sheet, "DO NOT CUT FROM THIS SHEET"));
  EXPECT_TRUE(hasText(sheet, options.errors.front()));
  EXPECT_TRUE(hasText(sheet, "And 2 more: see the findings."));
  EXPECT_FALSE(hasText(sheetOf(drawn, "top_rail"), "DO NOT CUT FROM THIS SHEET"));
}

TEST(StopBanner, StandsOnTheSheetsOfWhatAnErrorNamesAlone) {
  const DrawnPiece drawn = door();
  joinery::Finding finding;
  finding.severity = joinery::Severity::error;
  finding.text = "Something is wrong with the panel.";
  finding.parts = {joinery::PartId(4)};
  joinery::DryFit fit{drawn.piece, drawn.solids, {finding}};
  int warned = 0;
  const auto sheets = exporting::drawAll(fit, joinery::Unit::mm).value();
  for (const auto& named : sheets) {
    if (!hasText(named.sheet, "DO NOT CUT FROM THIS SHEET")) continue;
    ++warned;
    EXPECT_TRUE(hasText(named.sheet, finding.text)) << named.name;
    EXPECT_TRUE(named.name.find("assembly") != std::string::npos ||
                named.name.find("panel") != std::string::npos)
        << named.name;
  }
  EXPECT_EQ(warned, 2);
}

}  // namespace
}  // namespace dryfit::test
