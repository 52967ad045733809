#include "tests/export/drawing_rules.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "export/drawing/draughting.h"
#include "export/drawing/text_measure.h"

namespace dryfit::test {

using exporting::Box2;
using exporting::Layer;
using exporting::Mark;
using exporting::Point2;
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

namespace {

double between(Point2 a, Point2 b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

/// Points along a leader, close together.
std::vector<Point2> along(const FoundBalloon& b) {
  std::vector<Point2> points;
  const double length = between(b.centre, b.end);
  const double step = 0.1;
  for (double s = exporting::kBalloonRadius; s <= length; s += step) {
    points.push_back({b.centre.x + (b.end.x - b.centre.x) * s / length,
                      b.centre.y + (b.end.y - b.centre.y) * s / length});
  }
  return points;
}

double cross(Point2 a, Point2 b, Point2 c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

bool leadersCross(const FoundBalloon& a, const FoundBalloon& b) {
  return cross(a.centre, a.end, b.centre) * cross(a.centre, a.end, b.end) < 0 &&
         cross(b.centre, b.end, a.centre) * cross(b.centre, b.end, a.end) < 0;
}

void expectApart(const FoundBalloon& a, const FoundBalloon& b) {
  EXPECT_GE(between(a.centre, b.centre), 2 * exporting::kBalloonRadius) << a.item << ", " << b.item;
  EXPECT_FALSE(leadersCross(a, b)) << a.item << ", " << b.item;
  for (const auto& [one, other] : {std::pair(a, b), std::pair(b, a)}) {
    double toBalloon = 1e9;
    double toEnd = 1e9;
    for (const Point2& p : along(one)) {
      toBalloon = std::min(toBalloon, between(p, other.centre));
      toEnd = std::min(toEnd, between(p, other.end));
    }
    EXPECT_GE(toBalloon, exporting::kBalloonRadius) << one.item << " over balloon " << other.item;
    EXPECT_GE(toEnd, 1) << one.item << " passes where " << other.item << " ends";
  }
}

}  // namespace

std::vector<FoundBalloon> balloonsOf(const Sheet& sheet) {
  std::vector<FoundBalloon> balloons;
  for (const Mark& mark : sheet.ink.marks) {
    const auto* arc = std::get_if<exporting::Arc>(&mark);
    if (arc == nullptr || std::fabs(arc->radius - exporting::kBalloonRadius) > 1e-9) continue;
    FoundBalloon found{{}, arc->centre, arc->centre};
    for (const Text& text : textsOf(sheet)) {
      if (between(textBox(text).centre(), arc->centre) < 1.5) found.item = text.text;
    }
    for (const Mark& other : sheet.ink.marks) {
      const auto* leader = std::get_if<Stroke>(&other);
      if (leader == nullptr || leader->layer != Layer::dimensions || leader->points.size() != 2) {
        continue;
      }
      const Point2 from = leader->points[0];
      const Point2 to = leader->points[1];
      const bool onRim = std::fabs(between(from, arc->centre) - arc->radius) < 1e-6;
      // Its line goes through the middle.
      if (onRim && std::fabs(cross(from, to, arc->centre)) < 1e-6 * between(from, to) &&
          between(to, arc->centre) > arc->radius) {
        found.end = to;
      }
    }
    balloons.push_back(found);
  }
  return balloons;
}

void expectClearBalloons(const Sheet& sheet) {
  SCOPED_TRACE(sheet.title);
  const std::vector<FoundBalloon> balloons = balloonsOf(sheet);
  for (std::size_t i = 0; i < balloons.size(); ++i) {
    const FoundBalloon& b = balloons[i];
    EXPECT_FALSE(b.item.empty());
    EXPECT_GT(between(b.centre, b.end), exporting::kBalloonRadius) << b.item << " has no leader";
    for (std::size_t j = i + 1; j < balloons.size(); ++j) expectApart(b, balloons[j]);
    const Box2 round = Box2{b.centre, b.centre}.grown(exporting::kBalloonRadius);
    for (const Text& text : textsOf(sheet)) {
      const Box2 box = textBox(text);
      if (between(box.centre(), b.centre) < 1.5) continue;
      EXPECT_FALSE(box.overlaps(round)) << b.item << " over " << text.text;
      for (const Point2& p : along(b)) {
        EXPECT_FALSE(box.contains(Box2{p, p})) << b.item << " leads over " << text.text;
        if (box.contains(Box2{p, p})) break;
      }
    }
  }
}

double emptyShare(const Sheet& sheet) {
  constexpr double kSquare = 10;
  const Box2 space = sheet.drawingSpace();
  const auto columns = static_cast<int>(space.width() / kSquare);
  const auto rows = static_cast<int>(space.height() / kSquare);
  std::vector<std::vector<char>> inked(rows, std::vector<char>(columns, 0));
  const auto ink = [&](const Box2& box) {
    const auto cell = [](double from, double at, int count) {
      return std::clamp(static_cast<int>((at - from) / kSquare), 0, count - 1);
    };
    for (int r = cell(space.min.y, box.min.y, rows); r <= cell(space.min.y, box.max.y, rows); ++r) {
      for (int c = cell(space.min.x, box.min.x, columns);
           c <= cell(space.min.x, box.max.x, columns); ++c) {
        inked[r][c] = 1;
      }
    }
  };
  for (const Mark& mark : sheet.ink.marks) {
    const auto* stroke = std::get_if<Stroke>(&mark);
    if (stroke == nullptr) {
      ink(boundsOf(mark));
    } else if (stroke->layer != Layer::frame) {
      for (std::size_t i = 1; i < stroke->points.size(); ++i) {
        Box2 box;
        box.add(stroke->points[i - 1]);
        box.add(stroke->points[i]);
        ink(box);
      }
    }
  }
  // The rectangle that stands on each row, from the heights of the empty columns over it.
  int most = 0;
  std::vector<int> heights(columns, 0);
  for (int r = 0; r < rows; ++r) {
    for (int c = 0; c < columns; ++c) heights[c] = inked[r][c] != 0 ? 0 : heights[c] + 1;
    for (int c = 0; c < columns; ++c) {
      int height = rows;
      for (int k = c; k < columns && heights[k] > 0; ++k) {
        height = std::min(height, heights[k]);
        most = std::max(most, height * (k - c + 1));
      }
    }
  }
  return static_cast<double>(most) / (columns * rows);
}

void expectGoodSheet(const Sheet& sheet) {
  expectNoTwoTextsOverlap(sheet);
  expectInkInsideFrame(sheet);
  // ISO 3098: lettering on A4 and A3 is not under 2.5 mm (from memory).
  for (const Text& text : textsOf(sheet)) EXPECT_GE(text.height, 2.5) << text.text;
}

}  // namespace dryfit::test
