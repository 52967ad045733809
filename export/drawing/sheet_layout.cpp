#include "export/drawing/sheet_layout.h"

#include <algorithm>
#include <array>
#include <optional>

#include "kernel/tolerance.h"

namespace dryfit::exporting {
namespace {

constexpr double kApart = 4;   ///< between two blocks
constexpr double kInside = 3;  ///< from the frame
constexpr double kStep = 1;    ///< of the search

using Boxes = std::vector<Box2>;

Boxes moved(const Boxes& boxes, double dx, double dy) {
  Boxes result;
  for (const Box2& box : boxes) result.push_back(box.moved(dx, dy));
  return result;
}

Box2 round(const Boxes& boxes) {
  Box2 all;
  for (const Box2& box : boxes) all.add(box);
  return all;
}

Boxes boxesOf(const std::vector<Ink>& inks) {
  Boxes boxes;
  for (const Ink& ink : inks) boxes.push_back(ink.bounds());
  return boxes;
}

/// Where a block is to be moved.
struct Move {
  double dx = 0, dy = 0;
};

/// Blocks on a sheet, with their ink. A copy is a trial.
class Board {
 public:
  explicit Board(Box2 space) : space_(space) {}

  [[nodiscard]] bool isFree(const Boxes& boxes) const {
    const Box2 room = space_.grown(-kInside);
    return std::ranges::all_of(boxes, [&](const Box2& box) {
      return room.contains(box, kernel::kOnPaper) &&
             std::ranges::none_of(taken_, [&](const Box2& t) {
               return t.overlaps(box.grown(kApart - kernel::kOnPaper));
             });
    });
  }

  void put(std::vector<Ink> inks, Move move) {
    for (Ink& ink : inks) {
      ink.move(move.dx, move.dy);
      taken_.push_back(ink.bounds());
      ink_.add(ink);
    }
  }

  [[nodiscard]] bool putIfFree(const std::vector<Ink>& inks, Move move) {
    if (!isFree(moved(boxesOf(inks), move.dx, move.dy))) return false;
    put(inks, move);
    return true;
  }

  /// Puts the block at the first free place from the top and from the left; none where it fits
  /// nowhere.
  [[nodiscard]] std::optional<Move> putAnywhere(const std::vector<Ink>& inks) {
    const Box2 room = space_.grown(-kInside);
    const Boxes boxes = boxesOf(inks);
    const Box2 all = round(boxes);
    for (double top = room.max.y; top - all.height() >= room.min.y - kernel::kOnPaper;
         top -= kStep) {
      for (double left = room.min.x; left + all.width() <= room.max.x + kernel::kOnPaper;
           left += kStep) {
        const Move move{left - all.min.x, top - all.max.y};
        if (!isFree(moved(boxes, move.dx, move.dy))) continue;
        put(inks, move);
        return move;
      }
    }
    return std::nullopt;
  }

  /// Puts the block at the highest free place nearest to the middle of the sheet's width; none
  /// where it fits nowhere.
  [[nodiscard]] std::optional<Move> putNearMiddle(const std::vector<Ink>& inks) {
    const Box2 room = space_.grown(-kInside);
    const Boxes boxes = boxesOf(inks);
    const Box2 all = round(boxes);
    const double most = (room.width() - all.width()) / 2;
    for (double off = 0; off <= most + kernel::kOnPaper; off += kStep) {
      for (const double side : {-1.0, 1.0}) {
        const double dx = room.centre().x - all.centre().x + side * off;
        for (double top = room.max.y; top - all.height() >= room.min.y - kernel::kOnPaper;
             top -= kStep) {
          const Move move{dx, top - all.max.y};
          if (!isFree(moved(boxes, move.dx, move.dy))) continue;
          put(inks, move);
          return move;
        }
      }
    }
    return std::nullopt;
  }

  /// The lowest y from which the whole width of the sheet is free up to `top`.
  [[nodiscard]] double floorUnder(double top) const {
    double floor = space_.min.y;
    for (const Box2& box : taken_) {
      if (box.min.y < top - kernel::kOnPaper) floor = std::max(floor, std::min(top, box.max.y));
    }
    return floor;
  }

  [[nodiscard]] const Box2& space() const { return space_; }
  [[nodiscard]] const Ink& ink() const { return ink_; }

 private:
  Box2 space_;
  Boxes taken_;
  Ink ink_;
};

/// Title block, table and notes: the foot of the sheet.
bool putFoot(const SheetContents& c, Board& board, bool tableBeside) {
  const Box2& space = board.space();
  const Box2 title = c.titleBlock.bounds();
  // The outlines of title block and frame lie over each other.
  constexpr double kHalfLine = 0.35;
  const Move corner{space.max.x + kHalfLine - title.max.x, space.min.y - kHalfLine - title.min.y};
  board.put({c.titleBlock}, corner);
  const Box2 titlePlace = title.moved(corner.dx, corner.dy);
  double notesFloor = titlePlace.max.y;
  if (!c.table.marks.empty()) {
    const Box2 table = c.table.bounds();
    const Move beside{titlePlace.min.x - kApart - table.max.x, space.min.y + kInside - table.min.y};
    // On the title block, edge to edge, it is part of the corner and keeps no distance.
    const Move above{titlePlace.max.x - table.max.x, titlePlace.max.y - kHalfLine - table.min.y};
    if (tableBeside) {
      if (!board.putIfFree({c.table}, beside)) return false;
    } else {
      board.put({c.table}, above);
      notesFloor = table.moved(above.dx, above.dy).max.y;
      if (notesFloor > space.max.y - kInside) return false;
    }
  }
  if (c.notes.marks.empty()) return true;
  const Box2 notes = c.notes.bounds();
  const double left = titlePlace.min.x + (tableBeside ? 0 : kInside);
  // Over the title block, or low at the left where the table takes that place.
  const Move over{left - notes.min.x, notesFloor + kApart - notes.min.y};
  const Move low{space.min.x + kInside - notes.min.x, space.min.y + kInside - notes.min.y};
  return board.putIfFree({c.notes}, tableBeside ? over : low) ||
         board.putIfFree({c.notes}, tableBeside ? low : over);
}

/// The details side by side in the strip under the views, evenly apart; false where they do not
/// fit in one row.
bool putDetailRow(const std::vector<Ink>& details, double top, Board& board) {
  const Box2 room = board.space().grown(-kInside);
  const Boxes boxes = boxesOf(details);
  double width = 0;
  double height = 0;
  for (const Box2& box : boxes) {
    width += box.width();
    height = std::max(height, box.height());
  }
  const double floor = board.floorUnder(top);
  const auto count = static_cast<double>(details.size());
  const double gap = std::min(30.0, (room.width() - width) / (count + 1));
  if (gap < kApart || top - floor < height + 2 * kApart) return false;
  double left = room.centre().x - (width + gap * (count - 1)) / 2;
  const double rowBottom = (top + floor - height) / 2;
  Board trial = board;
  for (std::size_t i = 0; i < details.size(); ++i) {
    const Move move{left - boxes[i].min.x, rowBottom - boxes[i].min.y};
    if (!trial.putIfFree({details[i]}, move)) return false;
    left += boxes[i].width() + gap;
  }
  board = trial;
  return true;
}

/// The banner at the top of the sheet. Returns the highest y under it.
double putBanner(const SheetContents& c, Board& board) {
  const Box2& space = board.space();
  const double top = space.max.y - kInside;
  if (c.banner.marks.empty()) return top;
  const Box2 banner = c.banner.bounds();
  board.put({c.banner}, {space.centre().x - banner.centre().x, top - banner.max.y});
  return top - banner.height() - kApart;
}

/// The views at the top in the middle, or a little lower where there is room to spare. Returns
/// their lowest y; none where they do not fit.
std::optional<double> putViews(const SheetContents& c, double top, Board& board) {
  const Box2 views = round(boxesOf(c.views));
  const Box2& space = board.space();
  if (c.views.empty()) return top;
  const double spare = top - board.floorUnder(top) - views.height();
  double highest = 0;
  for (const Ink& detail : c.details) highest = std::max(highest, detail.bounds().height());
  const double drop = std::clamp((spare - highest) / 3, 2.0, c.details.empty() ? 60.0 : 12.0);
  const double centred = space.centre().x - views.centre().x;
  for (const double down : {drop, 2.0, 0.0}) {
    const Move move{centred, top - down - views.max.y};
    if (board.putIfFree(c.views, move)) return views.min.y + move.dy;
  }
  const std::optional<Move> move = board.putNearMiddle(c.views);
  if (!move) return std::nullopt;
  return views.min.y + move->dy;
}

bool arrangeOn(const SheetContents& c, DetailRoom room, Board& board, bool tableBeside) {
  if (!putFoot(c, board, tableBeside)) return false;
  const std::optional<double> lowest = putViews(c, putBanner(c, board), board);
  if (!lowest) return false;
  if (c.details.empty() || putDetailRow(c.details, *lowest, board)) return true;
  return room == DetailRoom::anywhere && std::ranges::all_of(c.details, [&](const Ink& detail) {
           return board.putAnywhere({detail}).has_value();
         });
}

}  // namespace

bool arrange(const SheetContents& contents, DetailRoom room, Sheet& sheet) {
  for (const bool tableBeside : {true, false}) {
    Board board(sheet.drawingSpace());
    if (!arrangeOn(contents, room, board, tableBeside)) continue;
    sheet.ink.add(board.ink());
    return true;
  }
  return false;
}

}  // namespace dryfit::exporting
