#include <algorithm>
#include <cmath>

#include "export/drawing/draughting.h"
#include "export/drawing/text_measure.h"
#include "export/layout/stock_row.h"

namespace dryfit::exporting {

using joinery::PlacedBlank;

namespace {

constexpr double kPitch = 3.9;       ///< from one line of lettering to the next
constexpr double kDescent = 0.9;     ///< below the last base line
constexpr double kSideRoom = 0.5;    ///< beside the lettering
constexpr double kArrowLength = 11;  ///< of a grain arrow, where there is room for it
constexpr double kArrowWidth = 2.8;
constexpr double kMarkSize = 5;  ///< of a face side mark

/// `text` in lines inside `width`, none of them with a broken word; empty where that cannot be.
std::vector<std::string> wholeWordLines(const std::string& text, double width) {
  const auto lines = wrapText(text, width, kSmallTextHeight);
  std::string joined;
  for (const std::string& line : lines) joined += (joined.empty() ? "" : " ") + line;
  return joined == text ? lines : std::vector<std::string>{};
}

Point2 turnedLeft(Point2 p) {
  return {-p.y, p.x};
}

}  // namespace

/// Puts lines of lettering into `room` clear of all else, along its longer side where they do not
/// fit level.
bool StockRow::putLines(const std::vector<std::string>& lines, const Box2& room) {
  if (lines.empty()) return false;
  double width = 0;
  for (const std::string& line : lines) width = std::max(width, textWidth(line, kSmallTextHeight));
  width += 2 * kSideRoom;
  const double height =
      kSmallTextHeight + kPitch * static_cast<double>(lines.size() - 1) + kDescent + 0.4;
  for (const bool upright : {false, true}) {
    const double w = upright ? height : width;
    const double h = upright ? width : height;
    const auto at = room_.spot(room.grown(-0.35), w, h, room.centre());
    if (!at) continue;
    room_.take({{at->x - w / 2, at->y - h / 2}, {at->x + w / 2, at->y + h / 2}});
    double down = height / 2 - 0.2 - kSmallTextHeight;
    for (const std::string& line : lines) {
      const Point2 base = upright ? Point2{at->x - down, at->y} : Point2{at->x, at->y + down};
      ink_.add(Text{base, line, kSmallTextHeight, TextAnchor::middle, upright ? 90.0 : 0.0,
                    TextStyle::regular, Layer::text});
      down -= kPitch;
    }
    return true;
  }
  return false;
}

StockRow::Lettered StockRow::letter(const PlacedBlank& placed, const Box2& room, bool isHere) {
  const joinery::Blank& blank = c_.job.blankOf(placed.blank);
  const std::string number = c_.job.markOf(placed.blank);
  const std::string size = c_.job.size(blank.length, blank.width);
  if (isHere) {
    const std::string name = number + "  " + c_.job.nameOfBlank(placed.blank);
    const double longer = std::max(room.width(), room.height()) - 2;
    const double shorter = std::min(room.width(), room.height()) - 2;
    const std::string nameAndSize = name + "  " + size;
    for (const double width : {longer, shorter}) {
      if (width < 8) continue;
      const auto one = wholeWordLines(nameAndSize, width);
      if (one.size() == 1 && putLines(one, room)) return Lettered::name;
      auto lines = wholeWordLines(name, width);
      if (lines.empty()) continue;
      lines.push_back(size);
      if (putLines(lines, room)) return Lettered::name;
    }
    if (putLines({number + "  " + size}, room) || putLines({number, size}, room)) {
      return Lettered::size;
    }
  }
  return putLines({number}, room) ? Lettered::number : Lettered::outside;
}

void StockRow::drawGrain(const PlacedBlank& placed, const Box2& room) {
  const auto along = grainAlongX(c_.job.blankOf(placed.blank), placed);
  if (!along) return;
  const double w = *along ? kArrowLength : kArrowWidth;
  const double h = *along ? kArrowWidth : kArrowLength;
  const auto at = room_.spot(room.grown(-0.8), w + 0.6, h + 0.6, room.centre());
  if (!at) return;
  room_.take({{at->x - w / 2, at->y - h / 2}, {at->x + w / 2, at->y + h / 2}});
  const Point2 half = *along ? Point2{w / 2, 0} : Point2{0, h / 2};
  addGrainArrow(ink_, {at->x - half.x, at->y - half.y}, {at->x + half.x, at->y + half.y});
}

/// The face side lies up as drawn; the tail of its mark runs to the face edge.
void StockRow::drawFaceMark(const PlacedBlank& placed, const Box2& room) {
  const BlankFacts& facts = c_.job.factsOf(placed.blank);
  if (!facts.faceEdgeAbove || !facts.share.empty()) return;
  constexpr double kHalf = kMarkSize / 2 + 0.3;
  Box2 edge = room.grown(-0.3);
  const bool upward = *facts.faceEdgeAbove;
  // A strip along the face edge, as the blank lies.
  if (!placed.turned) {
    (upward ? edge.min.y : edge.max.y) = upward ? edge.max.y - 2 * kHalf : edge.min.y + 2 * kHalf;
  } else {
    (upward ? edge.max.x : edge.min.x) = upward ? edge.min.x + 2 * kHalf : edge.max.x - 2 * kHalf;
  }
  if (!room.contains(edge)) return;
  const auto at = room_.spot(edge, 2 * kHalf, 2 * kHalf, edge.centre());
  if (!at) return;
  room_.take({{at->x - kHalf, at->y - kHalf}, {at->x + kHalf, at->y + kHalf}});
  Ink mark;
  addFaceSideMark(mark, {0, 0}, kMarkSize);
  const Box2 bounds = mark.bounds();
  mark.move(-bounds.centre().x, -bounds.centre().y);
  for (Mark& one : mark.marks) {
    auto* stroke = std::get_if<Stroke>(&one);
    if (stroke == nullptr) continue;
    for (Point2& p : stroke->points) {
      if (placed.turned) p = turnedLeft(p);
      if (!upward) p = {-p.x, -p.y};
      p = {p.x + at->x, p.y + at->y};
    }
    ink_.add(*stroke);
  }
}

void StockRow::drawParts(StockView& counts) {
  for (const PlacedBlank& placed : c_.one.blanks) {
    const Box2 room = box(placed.at);
    if (room.empty()) continue;
    ink_.add(Stroke{{room.min, {room.max.x, room.min.y}, room.max, {room.min.x, room.max.y}},
                    true,
                    LineClass::mark,
                    Layer::outline});
    const bool isHere = mainlyHere(placed.at);
    const Lettered lettered = letter(placed, room, isHere);
    if (lettered == Lettered::outside && isHere) {
      callouts_.push_back({c_.job.numberOf(placed.blank), room.centre()});
    }
    if (!isHere) continue;
    drawGrain(placed, room);
    drawFaceMark(placed, room);
    counts.named += lettered == Lettered::name ? 1 : 0;
    counts.sized += lettered == Lettered::size ? 1 : 0;
    counts.plain += lettered == Lettered::number ? 1 : 0;
    counts.called += lettered == Lettered::outside ? 1 : 0;
  }
}

}  // namespace dryfit::exporting
