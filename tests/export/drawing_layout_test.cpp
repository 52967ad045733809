// Cutting layouts on paper: everything is there, legible, and where the layout says.

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <poppler/cpp/poppler-document.h>
#include <poppler/cpp/poppler-page.h>

#include <algorithm>
#include <memory>
#include <pugixml.hpp>

#include "export/drawing/pdf_writer.h"
#include "export/drawing/svg_writer.h"
#include "export/drawing/text_measure.h"
#include "export/layout/cut_plan.h"
#include "export/layout/labels.h"
#include "export/layout/layout_sheets.h"
#include "export/layout/layout_words.h"
#include "export/layout/stock_view.h"
#include "tests/export/drawing_rules.h"
#include "tests/support/made_layouts.h"

namespace dryfit::test {
namespace {

using exporting::LayoutJob;
using exporting::NamedSheet;
using exporting::Sheet;
using exporting::Text;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;

std::vector<NamedSheet> sheetsOf(const LayoutJob& job) {
  return exporting::layoutSheets(job).value();
}

/// All words of a sheet in one text, in the order of drawing.
std::string wordsOf(const Sheet& sheet) {
  std::string words;
  for (const Text& text : textsOf(sheet)) words += text.text + " ";
  return words;
}

std::vector<std::string> namesOf(const std::vector<NamedSheet>& sheets) {
  std::vector<std::string> names;
  for (const NamedSheet& sheet : sheets) names.push_back(sheet.name);
  return names;
}

TEST(LayoutSheets, AreLegibleAndInsideTheirFrames) {
  for (const LayoutJob& job : {testing::sheetJob(), testing::freeJob(), testing::boardJob()}) {
    for (const NamedSheet& named : sheetsOf(job)) expectGoodSheet(named.sheet);
  }
}

TEST(LayoutSheets, StayLegibleWhateverTheBoardsAndParts) {
  for (std::uint32_t seed = 1; seed <= 40; ++seed) {
    SCOPED_TRACE(seed);
    for (const NamedSheet& named : sheetsOf(testing::randomJob(seed))) {
      SCOPED_TRACE(named.name);
      expectGoodSheet(named.sheet);
    }
  }
}

TEST(LayoutSheets, DrawEqualSheetsOnce) {
  const auto sheets = sheetsOf(testing::sheetJob());
  EXPECT_THAT(namesOf(sheets), ElementsAre("00-summary", "00-summary-2", "01-birch-plywood-12",
                                           "02-birch-plywood-12"));
  EXPECT_THAT(wordsOf(sheets[2].sheet), HasSubstr("Cut 3 like this: no. 1, 2 and 3."));
  EXPECT_THAT(wordsOf(sheets[3].sheet), Not(HasSubstr("like this")));
}

TEST(LayoutSheets, NameEveryPartOnItsBoard) {
  const LayoutJob job = testing::boardJob();
  const auto sheets = sheetsOf(job);
  std::string all;
  for (const NamedSheet& named : sheets) all += wordsOf(named.sheet);
  for (std::size_t i = 0; i < job.layout.blanks.size(); ++i) {
    EXPECT_THAT(all, HasSubstr(job.facts[i].label));
    EXPECT_THAT(all, HasSubstr(job.size(job.layout.blanks[i].length, job.layout.blanks[i].width)));
  }
}

TEST(LayoutSheets, NameTheDefects) {
  const auto sheets = sheetsOf(testing::boardJob());
  const std::string words = wordsOf(sheets[1].sheet);
  EXPECT_THAT(words, HasSubstr("knot"));
  EXPECT_THAT(words, HasSubstr("split, first face"));
  EXPECT_THAT(words, HasSubstr("wane, second face"));
  EXPECT_THAT(words, HasSubstr("Tapered: 215 wide at the near end, 188 at the far end."));
}

TEST(LayoutSheets, SayWhatDidNotFitAndWhatNoLayoutCanBeat) {
  const std::string words = wordsOf(sheetsOf(testing::sheetJob())[0].sheet);
  EXPECT_THAT(words, HasSubstr("no sheet is 2620 long"));
  EXPECT_THAT(words, HasSubstr("No layout of the 41 that fit from this stock can cost less than"));
  EXPECT_THAT(words, HasSubstr("250.00 crowns"));
}

TEST(LayoutSheets, TellOfRoughBoardsWhereBoardsAreCut) {
  const std::string flat = "flatten one face and straighten one edge";
  for (const NamedSheet& named : sheetsOf(testing::sheetJob())) {
    EXPECT_THAT(wordsOf(named.sheet), Not(HasSubstr("Rough boards")));
  }
  std::string all;
  for (const NamedSheet& named : sheetsOf(testing::boardJob())) all += wordsOf(named.sheet);
  EXPECT_THAT(all, HasSubstr("Rough boards"));
  const auto lines = exporting::safetyOf(testing::boardJob());
  EXPECT_THAT(lines, ::testing::Contains(HasSubstr(flat)));
}

TEST(LayoutSheets, ListPlacesInsteadOfCutsForARouter) {
  const auto sheets = sheetsOf(testing::freeJob());
  const std::string words = wordsOf(sheets[2].sheet);
  EXPECT_THAT(words, HasSubstr("Positions of the parts"));
  EXPECT_THAT(words, Not(HasSubstr("cross cut")));
}

TEST(StockView, DrawsAPartToScale) {
  const LayoutJob job = testing::sheetJob();
  const auto& one = job.layout.stock.front();
  const auto view = drawStock(job, one, cutStepsOf(job, one), 0.1, 1);
  const auto& placed = one.blanks.front();
  const bool found = std::ranges::any_of(view.ink.marks, [&](const exporting::Mark& mark) {
    const auto* stroke = std::get_if<exporting::Stroke>(&mark);
    if (stroke == nullptr || !stroke->closed || stroke->line != exporting::LineClass::mark) {
      return false;
    }
    const exporting::Box2 box = boundsOf(mark).grown(-styleOf(stroke->line).width / 2);
    return std::abs(box.width() - placed.at.length * 0.1) < 1e-9 &&
           std::abs(box.height() - placed.at.width * 0.1) < 1e-9;
  });
  EXPECT_TRUE(found);
}

TEST(StockView, CountsEveryPartOnceHoweverManyRows) {
  const LayoutJob job = testing::boardJob();
  const auto& one = job.layout.stock.front();
  for (int rows = 1; rows <= 4; ++rows) {
    const auto view = drawStock(job, one, cutStepsOf(job, one), 0.1, rows);
    EXPECT_EQ(view.named + view.sized + view.plain + view.called,
              static_cast<int>(one.blanks.size()));
  }
}

TEST(CutSteps, AreMadeInPiecesThatEarlierOnesLeft) {
  for (std::uint32_t seed = 1; seed <= 20; ++seed) {
    SCOPED_TRACE(seed);
    const LayoutJob job = testing::randomJob(seed);
    for (const auto& one : job.layout.stock) {
      const auto steps = cutStepsOf(job, one);
      ASSERT_EQ(steps.size(), one.cuts.size());
      for (const exporting::CutStep& step : steps) {
        const double from = step.across ? step.piece.x : step.piece.y;
        const double to = step.across ? step.piece.farX() : step.piece.farY();
        EXPECT_GE(step.at, from - job.kerfIn(one) - 1e-6);
        EXPECT_LE(step.at, to + 1e-6);
        EXPECT_NEAR(step.setting, step.at - from, 1e-9);
        EXPECT_EQ(step.of == "whole", step.number == 1);
      }
    }
  }
}

TEST(CutSteps, NameThePartThatACutFreesAndSetTheFenceToIt) {
  const LayoutJob job = testing::sheetJob();
  const auto steps = cutStepsOf(job, job.layout.stock.front());
  const auto freed = std::ranges::find(steps, std::string("No. 5"), &exporting::CutStep::near);
  ASSERT_NE(freed, steps.end());
  EXPECT_FALSE(freed->trims);
  EXPECT_FALSE(freed->across);  // the back rail is narrower than its strip
  EXPECT_NEAR(freed->setting, 90, 1e-9);
  EXPECT_TRUE(steps.front().trims);
}

TEST(Labels, HoldOnePartEachInsideTheirCells) {
  const LayoutJob job = testing::sheetJob();
  std::size_t placed = 0;
  for (const auto& one : job.layout.stock) placed += one.blanks.size();
  for (const exporting::LabelGrid grid :
       {exporting::LabelGrid{3, 8}, exporting::LabelGrid{2, 5}, exporting::LabelGrid{4, 10}}) {
    const auto sheets = labelSheets(job, grid);
    const auto onPage = static_cast<std::size_t>(grid.columns * grid.rows);
    EXPECT_EQ(sheets.size(), (placed + onPage - 1) / onPage);
    for (const Sheet& sheet : sheets) {
      const double width = std::floor(sheet.width / grid.columns * 2) / 2;
      for (const Text& text : textsOf(sheet)) {
        const exporting::Box2 box = textBox(text);
        const double column = std::floor((box.min.x - 0.25) / width);
        EXPECT_LE(box.max.x, (column + 1) * width + 0.25) << text.text;
        EXPECT_GE(box.min.y, 3) << text.text;
        EXPECT_LE(box.max.y, sheet.height - 3) << text.text;
        EXPECT_GE(text.height, 2.5);
      }
      const auto texts = textsOf(sheet);
      for (std::size_t i = 0; i < texts.size(); ++i) {
        for (std::size_t j = i + 1; j < texts.size(); ++j) {
          EXPECT_FALSE(textBox(texts[i]).grown(-1e-6).overlaps(textBox(texts[j]).grown(-1e-6)))
              << texts[i].text << " lies over " << texts[j].text;
        }
      }
    }
  }
}

TEST(Labels, SayWhatThePartIsAndWhereItComesFrom) {
  const std::string words = wordsOf(labelSheets(testing::boardJob(), {3, 8}).front());
  for (const char* wanted :
       {"1  Front left stile", "Notice case", "Rough 520 × 62 × 27", "Finished 500 × 57 × 23",
        "face front, edge right", "oak, from Plank 3", "12  Door panel", "strip 2 of 4"}) {
    EXPECT_THAT(words, HasSubstr(wanted));
  }
}

TEST(Labels, TakeAGridThatLeavesRoomForTheirTexts) {
  EXPECT_TRUE(exporting::labelGridNamed("3x8"));
  EXPECT_EQ(exporting::labelGridNamed("2x10")->rows, 10);
  for (const char* wrong : {"", "3", "x", "3x", "0x8", "5x8", "3x11", "3x8x1", "-3x8", "3 x 8"}) {
    EXPECT_FALSE(exporting::labelGridNamed(wrong)) << wrong;
  }
}

TEST(LayoutFiles, AreOnePdfWithAPageASheetAndSoundSvg) {
  const auto sheets = sheetsOf(testing::boardJob());
  const std::string bytes = exporting::onePdf(sheets, "Layouts").value();
  const std::unique_ptr<poppler::document> document(
      poppler::document::load_from_raw_data(bytes.data(), static_cast<int>(bytes.size())));
  ASSERT_TRUE(document);
  ASSERT_EQ(document->pages(), static_cast<int>(sheets.size()));
  const std::unique_ptr<poppler::page> page(document->create_page(1));
  const poppler::byte_array text = page->text().to_utf8();
  const std::string words(text.begin(), text.end());
  for (const char* wanted : {"Plank 3", "Notice case", "Cutting layout", "white oak", "cross cut",
                             "rip", "Front left stile"}) {
    EXPECT_THAT(words, HasSubstr(wanted));
  }
  for (const NamedSheet& named : sheets) {
    pugi::xml_document svg;
    EXPECT_TRUE(svg.load_string(exporting::svgText(named.sheet).c_str())) << named.name;
    EXPECT_EQ(svg.select_nodes("//text").size(), textsOf(named.sheet).size());
  }
}

}  // namespace
}  // namespace dryfit::test
