#include "tests/support/made_layouts.h"

#include <algorithm>
#include <random>
#include <utility>

namespace dryfit::testing {

using exporting::BlankFacts;
using exporting::LayoutJob;
using joinery::Blank;
using joinery::FlatRect;
using joinery::StockItem;
using joinery::StockLayout;

namespace {

struct Sized {
  int number = 0;
  std::string label, share;
  double length = 0, width = 0;
};

/// Fills one board or sheet strip by strip and keeps the record of the cuts.
class StripFiller {
 public:
  StripFiller(LayoutJob& job, int item, int copy) : job_(job) {
    one_.item = item;
    one_.copy = copy;
    kerf_ = job.kerfIn(one_);
    const FlatRect whole = exporting::boundsOfStock(job.itemOf(one_));
    const auto& s = job.layout.settings;
    const bool sheet = job.itemOf(one_).form == joinery::StockForm::sheet;
    const double end = sheet ? s.sheetTrim : s.boardEndTrim;
    const double edge = sheet ? s.sheetTrim : s.boardEdgeTrim;
    rest_ = cut(0, whole, true, whole.x + end - kerf_).second;
    rest_ = cut(rest_.first, rest_.second, true, whole.farX() - end).first;
    rest_ = cut(rest_.first, rest_.second, false, whole.y + edge - kerf_).second;
    rest_ = cut(rest_.first, rest_.second, false, whole.farY() - edge).first;
  }

  /// Parts side by side in one strip as wide as the widest; gives how many found room.
  std::size_t strip(const std::vector<Sized>& parts) {
    double width = 0;
    for (const Sized& part : parts) width = std::max(width, part.width);
    if (width > rest_.second.width - kerf_) return 0;
    auto [near, far] = cut(rest_.first, rest_.second, false, rest_.second.y + width);
    rest_ = far;
    std::size_t placed = 0;
    for (const Sized& part : parts) {
      if (part.length > near.second.length - kerf_) break;
      const auto [piece, after] = cut(near.first, near.second, true, near.second.x + part.length);
      if (part.width < width - kerf_) {
        (void)cut(piece.first, piece.second, false, piece.second.y + part.width);
      }
      place(part, {piece.second.x, piece.second.y, part.length, part.width});
      near = after;
      ++placed;
    }
    return placed;
  }

  void finish() {
    const auto& s = job_.layout.settings;
    if (rest_.second.length >= s.offcutLengthLeast && rest_.second.width >= s.offcutWidthLeast) {
      one_.offcuts.push_back(rest_.second);
    }
    job_.layout.stock.push_back(std::move(one_));
  }

 private:
  using Piece = std::pair<int, FlatRect>;

  std::pair<Piece, Piece> cut(int piece, FlatRect rect, bool across, double at) {
    const int k = static_cast<int>(one_.cuts.size());
    one_.cuts.push_back({piece, across, at});
    FlatRect near = rect;
    FlatRect far = rect;
    if (across) {
      near.length = at - rect.x;
      far.x = at + kerf_;
      far.length = rect.farX() - far.x;
    } else {
      near.width = at - rect.y;
      far.y = at + kerf_;
      far.width = rect.farY() - far.y;
    }
    return {{2 * k + 1, near}, {2 * k + 2, far}};
  }

  void place(const Sized& part, const FlatRect& at) {
    Blank blank;
    blank.name = part.label + " " + std::to_string(job_.layout.blanks.size());
    blank.material = job_.itemOf(one_).material;
    blank.form = job_.itemOf(one_).form;
    blank.length = part.length;
    blank.width = part.width;
    blank.thickness = job_.itemOf(one_).thickness;
    BlankFacts facts;
    facts.number = part.number;
    facts.label = part.label;
    facts.share = part.share;
    facts.finished = {part.length - 20, part.width - 5, blank.thickness - 4};
    facts.faceSide = "front";
    facts.faceEdge = "right";
    facts.faceEdgeAbove = part.number % 2 == 0;
    one_.blanks.push_back({static_cast<int>(job_.layout.blanks.size()), at, false});
    job_.layout.blanks.push_back(std::move(blank));
    job_.facts.push_back(std::move(facts));
  }

  LayoutJob& job_;
  double kerf_ = 0;
  StockLayout one_;
  Piece rest_;
};

/// Sums up each material from what is placed; the bound is the area itself, which is one.
void sumUp(LayoutJob& job) {
  for (const StockLayout& one : job.layout.stock) {
    const StockItem& item = job.itemOf(one);
    auto found = std::ranges::find(job.layout.materials, std::vector{item.material},
                                   &joinery::MaterialSummary::materials);
    if (found == job.layout.materials.end()) {
      job.layout.materials.push_back({});
      found = std::prev(job.layout.materials.end());
      found->materials = {item.material};
      found->byPrice = item.price.has_value();
      found->boundBy = "area";
    }
    const double area = item.area();
    double parts = 0;
    for (const auto& placed : one.blanks) parts += placed.at.length * placed.at.width;
    found->blanks += static_cast<int>(one.blanks.size());
    found->placed += static_cast<int>(one.blanks.size());
    found->blankArea += parts;
    found->stockArea += area;
    found->cost += item.price.value_or(area / 1e6);
    found->bound += item.price.value_or(area / 1e6) * parts / area;
    found->cuts += static_cast<int>(one.cuts.size());
  }
}

LayoutJob emptyJob(std::string piece) {
  LayoutJob job;
  job.piece = std::move(piece);
  job.stock.currency = "crowns";
  return job;
}

StockItem sheetItem(int count) {
  StockItem item;
  item.name = "Birch plywood 12";
  item.form = joinery::StockForm::sheet;
  item.material = "ply";
  item.species = "birch plywood";
  item.length = 2500;
  item.nearWidth = item.farWidth = 1250;
  item.thickness = 12.2;
  item.count = count;
  item.price = 62.5;
  return item;
}

void fillSheet(StripFiller& filler) {
  filler.strip({{1, "Cabinet side", "", 780, 380},
                {1, "Cabinet side", "", 780, 380},
                {2, "Cabinet bottom", "", 764, 380}});
  filler.strip({{3, "Shelf", "", 762, 340},
                {3, "Shelf", "", 762, 340},
                {4, "Drawer bottom", "", 420, 300},
                {5, "Back rail", "", 240, 90}});
  filler.strip({{6, "Drawer side", "", 400, 120},
                {6, "Drawer side", "", 400, 120},
                {7, "Drawer front, inner", "", 380, 120},
                {7, "Drawer front, inner", "", 380, 120},
                {8, "Corner block", "", 60, 60},
                {8, "Corner block", "", 60, 60}});
}

Blank unplacedBlank(const std::string& name) {
  Blank blank;
  blank.name = name;
  blank.material = "ply";
  blank.length = 2620;
  blank.width = 400;
  blank.thickness = 12;
  return blank;
}

}  // namespace

LayoutJob sheetJob() {
  LayoutJob job = emptyJob("Tool cabinet");
  job.stock.items.push_back(sheetItem(4));
  for (int copy = 0; copy < 3; ++copy) {
    StripFiller filler(job, 0, copy);
    fillSheet(filler);
    filler.finish();
  }
  StripFiller last(job, 0, 3);
  last.strip({{9, "Back", "", 1564, 780}, {10, "Door", "", 776, 500}});
  last.finish();
  sumUp(job);
  job.layout.unplaced.push_back({static_cast<int>(job.layout.blanks.size()),
                                 "no sheet is 2620 long",
                                 "a sheet of birch plywood 12, at least 2640 × 420"});
  job.layout.blanks.push_back(unplacedBlank("tall_side"));
  BlankFacts facts;
  facts.number = 11;
  facts.label = "Tall side";
  job.facts.push_back(facts);
  ++job.layout.materials.front().blanks;
  return job;
}

LayoutJob freeJob() {
  LayoutJob job = sheetJob();
  job.layout.settings.sheetMethod = joinery::CutMethod::free;
  for (StockLayout& one : job.layout.stock) one.cuts.clear();
  return job;
}

LayoutJob boardJob() {
  LayoutJob job = emptyJob("Notice case");
  StockItem board;
  board.name = "Plank 3";
  board.material = "oak";
  board.species = "white oak";
  board.length = 3150;
  board.nearWidth = 215;
  board.farWidth = 188;
  board.thickness = 27;
  board.moisture = 9.5;
  board.batch = "october";
  board.defects = {{joinery::DefectKind::knot, {1210, 140, 60, 45}, joinery::StockFace::both},
                   {joinery::DefectKind::split, {2990, 60, 160, 25}, joinery::StockFace::first},
                   {joinery::DefectKind::wane, {400, 192, 900, 20}, joinery::StockFace::second}};
  board.note = "bark edge at the far end";
  StockItem small = board;
  small.name = "Short end";
  small.length = 900;
  small.nearWidth = small.farWidth = 140;
  small.defects.clear();
  small.offcut = true;
  job.stock.items = {board, small};
  StripFiller first(job, 0, 0);
  first.strip({{1, "Front left stile", "", 520, 62},
               {1, "Front right stile", "", 520, 62},
               {4, "Front top rail", "", 930, 62},
               {5, "Front bottom rail", "", 930, 74}});
  first.strip(
      {{12, "Door panel", "strip 2 of 4", 860, 61}, {12, "Door panel", "strip 3 of 4", 860, 61}});
  first.finish();
  StripFiller second(job, 1, 0);
  second.strip({{20, "Bearer", "", 380, 24}, {20, "Bearer", "", 380, 24}});
  second.strip({{21, "Turn button", "", 45, 22},
                {21, "Turn button", "", 45, 22},
                {22, "Plug", "", 20, 20},
                {22, "Plug", "", 20, 20},
                {22, "Plug", "", 20, 20}});
  second.finish();
  sumUp(job);
  return job;
}

LayoutJob randomJob(std::uint32_t seed) {
  std::mt19937 random(seed);
  const auto between = [&](double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  };
  const auto chance = [&](double p) { return between(0, 1) < p; };
  LayoutJob job = emptyJob("Random piece");
  job.unit = chance(0.3) ? joinery::Unit::inch : joinery::Unit::mm;
  job.layout.settings.boardKerf = between(0.5, 6);
  job.layout.settings.sheetKerf = between(0.5, 6);
  const int items = static_cast<int>(between(1, 4));
  for (int i = 0; i < items; ++i) {
    StockItem item = sheetItem(1);
    item.name = "Stock with a name of some length " + std::to_string(i);
    item.material = chance(0.5) ? "ply" : "oak";
    if (chance(0.6)) {
      item.form = joinery::StockForm::board;
      item.species = "white oak";
      item.length = between(600, 4500);
      item.nearWidth = between(90, 420);
      item.farWidth = item.nearWidth * between(0.75, 1);
    } else {
      item.length = between(800, 3100);
      item.nearWidth = item.farWidth = between(500, 1600);
    }
    for (int d = static_cast<int>(between(0, 5)); d > 0; --d) {
      const double length = between(10, 200);
      const double width = between(8, 60);
      item.defects.push_back(
          {static_cast<joinery::DefectKind>(d),
           {between(0, item.length - length), between(0, item.farWidth - width), length, width},
           static_cast<joinery::StockFace>(d % 3)});
    }
    job.stock.items.push_back(item);
    StripFiller filler(job, i, 0);
    for (int s = static_cast<int>(between(1, 7)); s > 0; --s) {
      std::vector<Sized> parts;
      const double size = between(15, 400);
      for (int n = static_cast<int>(between(1, 12)); n > 0; --n) {
        parts.push_back({static_cast<int>(between(1, 40)), "Part with a long name", "",
                         between(12, 900), size * between(0.5, 1)});
      }
      filler.strip(parts);
    }
    filler.finish();
  }
  sumUp(job);
  return job;
}

}  // namespace dryfit::testing
