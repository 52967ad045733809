#include "tests/export/drawing_rules.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "export/drawing/text_measure.h"

namespace dryfit::test {

using exporting::Box2;
using exporting::Layer;
using exporting::Mark;
using exporting::Sheet;
using exporting::Stroke;
using exporting::Text;

namespace {

void expectNoTwoTextsOverlap(const Sheet& sheet) {
  const std::vector<Text> texts = textsOf(sheet);
  for (std::size_t i = 0; i < texts.size(); ++i) {
    for (std::size_t j = i + 1; j < texts.size(); ++j) {
      EXPECT_FALSE(textBox(texts[i]).grown(-1e-6).overlaps(textBox(texts[j]).grown(-1e-6)))
          << sheet.title << ": \"" << texts[i].text << "\" lies over \"" << texts[j].text << '"';
    }
  }
}

void expectInkInsideFrame(const Sheet& sheet) {
  const Box2 space = sheet.drawingSpace();
  for (const Mark& mark : sheet.ink.marks) {
    const auto* stroke = std::get_if<Stroke>(&mark);
    if (stroke != nullptr && stroke->layer == Layer::frame) continue;
    // The outlines of the title block and of the table on it share the frame's line.
    const bool onFrame =
        stroke != nullptr && (stroke->layer == Layer::titleBlock || stroke->layer == Layer::table);
    EXPECT_TRUE(space.contains(boundsOf(mark), onFrame ? 0.36 : 0)) << sheet.title;
  }
}

}  // namespace

std::vector<Text> textsOf(const Sheet& sheet) {
  std::vector<Text> texts;
  for (const Mark& mark : sheet.ink.marks) {
    if (const auto* text = std::get_if<Text>(&mark)) texts.push_back(*text);
  }
  return texts;
}

bool hasText(const Sheet& sheet, const std::string& wanted) {
  return std::ranges::any_of(textsOf(sheet), [&](const Text& t) { return t.text == wanted; });
}

void expectGoodSheet(const Sheet& sheet) {
  expectNoTwoTextsOverlap(sheet);
  expectInkInsideFrame(sheet);
  // ISO 3098: lettering on A4 and A3 is not under 2.5 mm (from memory).
  for (const Text& text : textsOf(sheet)) EXPECT_GE(text.height, 2.5) << text.text;
}

}  // namespace dryfit::test
