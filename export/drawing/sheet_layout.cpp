#include "export/drawing/sheet_layout.h"

#include <algorithm>
#include <optional>

namespace dryfit::exporting {
namespace {

constexpr double kApart = 5;     ///< between two blocks
constexpr double kInside = 3;    ///< from the frame
constexpr double kStep = 1;      ///< of the search

/// Blocks already on the sheet.
class Board {
 public:
  explicit Board(Box2 space) : space_(space) {}

  [[nodiscard]] bool isFree(const Box2& box, double inside = kInside) const {
    return space_.grown(-inside).contains(box, 1e-6) &&
           std::ranges::none_of(taken_, [&](const Box2& t) {
             return t.overlaps(box.grown(kApart - 1e-6));
           });
  }
  void take(const Box2& box) { taken_.push_back(box); }
  [[nodiscard]] const Box2& space() const { return space_; }

  /// The free place for a block that comes first from the top (or bottom), then from the left.
  [[nodiscard]] std::optional<Box2> findPlace(const Box2& box, bool fromTop) const {
    const Box2 room = space_.grown(-kInside);
    for (double y = 0; y <= room.height() - box.height() + 1e-6; y += kStep) {
      const double bottom = fromTop ? room.max.y - box.height() - y : room.min.y + y;
      for (double left = room.min.x; left <= room.max.x - box.width() + 1e-6; left += kStep) {
        const Box2 place = box.moved(left - box.min.x, bottom - box.min.y);
        if (isFree(place)) return place;
      }
    }
    return std::nullopt;
  }

 private:
  Box2 space_;
  std::vector<Box2> taken_;
};

void put(Ink& all, Ink ink, const Box2& from, const Box2& to) {
  ink.move(to.min.x - from.min.x, to.min.y - from.min.y);
  all.add(ink);
}

/// Places the details in one row in the free strip under the views, evenly apart, or one by one
/// wherever they fit.
bool placeDetails(const std::vector<Ink>& details, Board& board, Ink& all) {
  for (const Ink& detail : details) {
    const Box2 box = detail.bounds();
    const auto place = board.findPlace(box, true);
    if (!place) return false;
    put(all, detail, box, *place);
    board.take(*place);
  }
  return true;
}

}  // namespace

bool arrange(const SheetContents& contents, Sheet& sheet) {
  const Box2 space = sheet.drawingSpace();
  Board board(space);
  Ink all;

  const Box2 title = contents.titleBlock.bounds();
  // The outlines of title block and frame lie over each other.
  const Box2 corner = title.moved(space.max.x + 0.35 - title.max.x, space.min.y - 0.35 - title.min.y);
  put(all, contents.titleBlock, title, corner);
  board.take(corner);

  if (!contents.table.marks.empty()) {
    const Box2 table = contents.table.bounds();
    // Beside the title block where the sheet is wide enough, else on top of it.
    const double beside = corner.min.x - kApart - table.width();
    const bool fitsBeside = beside >= space.min.x + kInside && table.height() < 75;
    const Box2 place =
        fitsBeside
            ? table.moved(beside - table.min.x, space.min.y + kInside - table.min.y)
            : table.moved(space.max.x - kInside - table.max.x, corner.max.y + kApart - table.min.y);
    if (!board.isFree(place, 1)) return false;
    put(all, contents.table, table, place);
    board.take(place);
  }

  const Box2 views = contents.views.bounds();
  const double left = space.centre().x - views.width() / 2;
  const Box2 viewsPlace = views.moved(left - views.min.x, space.max.y - kInside - 2 - views.max.y);
  if (!board.isFree(viewsPlace)) return false;
  put(all, contents.views, views, viewsPlace);
  board.take(viewsPlace);

  if (!contents.notes.marks.empty()) {
    const Box2 notes = contents.notes.bounds();
    const auto place = board.findPlace(notes, false);
    if (!place) return false;
    put(all, contents.notes, notes, *place);
    board.take(*place);
  }
  if (!placeDetails(contents.details, board, all)) return false;
  sheet.ink.add(all);
  return true;
}

}  // namespace dryfit::exporting
