#include "tests/support/layout_check.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <sstream>

#include "tests/support/board_shape.h"

namespace dryfit::test {
namespace {

using joinery::Blank;
using joinery::Cut;
using joinery::CutMethod;
using joinery::Defect;
using joinery::FlatRect;
using joinery::Grain;
using joinery::Layout;
using joinery::PlacedBlank;
using joinery::StockForm;
using joinery::StockItem;
using joinery::StockLayout;
using joinery::StockList;

constexpr double kNear = 0.005;  // mm

bool near(double a, double b) {
  return std::abs(a - b) <= kNear;
}
bool same(const FlatRect& a, const FlatRect& b) {
  return near(a.x, b.x) && near(a.y, b.y) && near(a.length, b.length) && near(a.width, b.width);
}
/// Apart by `gap` at least, one way or the other.
bool apart(const FlatRect& a, const FlatRect& b, double gap) {
  const double free = std::max(
      {b.x - a.x - a.length, a.x - b.x - b.length, b.y - a.y - a.width, a.y - b.y - b.width});
  return free >= gap - kNear;
}
bool within(const FlatRect& inner, const FlatRect& outer) {
  return inner.x >= outer.x - kNear && inner.y >= outer.y - kNear &&
         inner.x + inner.length <= outer.x + outer.length + kNear &&
         inner.y + inner.width <= outer.y + outer.width + kNear;
}

/// A piece lying on the saw.
struct Piece {
  FlatRect at;
  bool cut = false;
  int turns = -1;  ///< since the edges were trimmed; -1: they are not yet
  int made = 0;    ///< direction of the last cut since then
};

class Checker {
 public:
  Checker(const Layout& layout, const StockList& stock) : layout_(layout), stock_(stock) {}

  std::vector<std::string> run() {
    everyBlankOnce();
    std::set<std::pair<int, int>> pieces;
    for (const StockLayout& one : layout_.stock) {
      if (one.item < 0 || one.item >= static_cast<int>(stock_.items.size())) {
        say("a layout on stock that is not there");
        continue;
      }
      const StockItem& item = stock_.items[static_cast<std::size_t>(one.item)];
      place_ = item.name + " " + std::to_string(one.copy);
      if (one.copy < 0 || one.copy >= item.count) say("more copies than there are");
      if (!pieces.emplace(one.item, one.copy).second) say("one piece of stock laid out twice");
      checkOne(one, item);
    }
    place_ = "job";
    checkMatches();
    checkSums();
    return faults_;
  }

 private:
  template <class... Words>
  void say(const Words&... words) {
    std::ostringstream line;
    line << place_ << ": ";
    (line << ... << words);
    faults_.push_back(line.str());
  }
  [[nodiscard]] const Blank& blank(int b) const {
    return layout_.blanks[static_cast<std::size_t>(b)];
  }

  void everyBlankOnce() {
    place_ = "job";
    std::vector<int> times(layout_.blanks.size(), 0);
    const auto count = [&](int b) {
      if (b < 0 || b >= static_cast<int>(times.size())) return say("a blank that is not there");
      ++times[static_cast<std::size_t>(b)];
    };
    for (const StockLayout& one : layout_.stock) {
      for (const PlacedBlank& placed : one.blanks) count(placed.blank);
      if (one.blanks.empty()) say("stock cut up for nothing");
    }
    for (const joinery::Unplaced& u : layout_.unplaced) {
      count(u.blank);
      if (u.why.empty() || u.buy.empty()) say("an unplaced blank without a reason");
    }
    for (std::size_t b = 0; b < times.size(); ++b) {
      if (times[b] != 1) say(layout_.blanks[b].name, " comes ", times[b], " times");
    }
  }

  void checkOne(const StockLayout& one, const StockItem& item) {
    kerf_ = item.form == StockForm::board ? layout_.settings.boardKerf : layout_.settings.sheetKerf;
    const BoardShape shape(item);
    for (const PlacedBlank& placed : one.blanks) {
      checkBlank(placed, item, shape);
      if (blank(placed.blank).species != blank(one.blanks[0].blank).species) {
        say("two woods from one piece");
      }
    }
    for (std::size_t i = 0; i < one.blanks.size(); ++i) {
      for (std::size_t j = i + 1; j < one.blanks.size(); ++j) {
        if (!apart(one.blanks[i].at, one.blanks[j].at, kerf_)) {
          say(blank(one.blanks[i].blank).name, " and ", blank(one.blanks[j].blank).name,
              " leave no kerf");
        }
      }
    }
    const bool free = item.form == StockForm::sheet &&
                      layout_.settings.sheetMethod == CutMethod::free && one.cuts.empty();
    if (!free) saw(one, item, shape);
    checkOffcuts(one, item, shape);
  }

  void checkBlank(const PlacedBlank& placed, const StockItem& item, const BoardShape& shape) {
    const Blank& b = blank(placed.blank);
    const bool wood = item.material.empty() ? !b.species.empty() && item.species == b.species
                                            : item.material == b.material;
    if (b.form != item.form || !wood) say(b.name, " from other wood");
    if (item.thickness < b.thickness - 1e-5) say(b.name, " from too thin stock");
    if (item.form == StockForm::sheet && item.thickness > b.thicknessMost + 1e-5) {
      say(b.name, " from too thick a sheet");
    }
    if (!near(placed.at.length, placed.turned ? b.width : b.length) ||
        !near(placed.at.width, placed.turned ? b.length : b.width)) {
      say(b.name, " has another size");
    }
    // Along which axis of the stock the grain of each runs.
    const Grain stockGrain = item.form == StockForm::board ? Grain::length : item.grain;
    if (b.grain != Grain::none && stockGrain != Grain::none) {
      const bool stockAlongX = stockGrain == Grain::length;
      const bool partAlongX = (b.grain == Grain::length) != placed.turned;
      if (stockAlongX != partAlongX) say(b.name, " lies against the grain");
    }
    const double end =
        item.form == StockForm::board ? layout_.settings.boardEndTrim : layout_.settings.sheetTrim;
    const double edge =
        item.form == StockForm::board ? layout_.settings.boardEdgeTrim : layout_.settings.sheetTrim;
    if (!shape.holds(placed.at, end, edge, kNear)) say(b.name, " is off the stock or in its trim");
    for (const Defect& d : item.defects) {
      if (!apart(placed.at, d.zone, 0)) say(b.name, " lies on a defect");
    }
  }

  /// Makes every cut; each blank must come off as a piece of its own.
  void saw(const StockLayout& one, const StockItem& item, const BoardShape& shape) {
    std::vector<Piece> pieces{{shape.around()}};
    const double trim = layout_.settings.sheetTrim;
    const FlatRect trimmed{pieces[0].at.x + trim, pieces[0].at.y + trim,
                           pieces[0].at.length - 2 * trim, pieces[0].at.width - 2 * trim};
    const auto begin = [&](Piece& piece) {
      if (piece.turns < 0 && same(piece.at, trimmed)) piece.turns = 0;
    };
    begin(pieces[0]);
    int turns = 0;
    for (const Cut& cut : one.cuts) {
      if (cut.piece < 0 || cut.piece >= static_cast<int>(pieces.size()) ||
          pieces[static_cast<std::size_t>(cut.piece)].cut) {
        return say("a cut in a piece that is not there");
      }
      Piece& whole = pieces[static_cast<std::size_t>(cut.piece)];
      whole.cut = true;
      Piece first{whole.at}, second{whole.at};
      const double low = cut.across ? whole.at.x : whole.at.y;
      const double high = low + (cut.across ? whole.at.length : whole.at.width);
      if (cut.at + kerf_ < low - kNear || cut.at > high + kNear) {
        say("a cut beside its piece");
      }
      const double firstEnd = std::clamp(cut.at, low, high);
      const double secondStart = std::clamp(cut.at + kerf_, low, high);
      if (cut.across) {
        first.at.length = firstEnd - low;
        second.at.x = secondStart;
        second.at.length = high - secondStart;
      } else {
        first.at.width = firstEnd - low;
        second.at.y = secondStart;
        second.at.width = high - secondStart;
      }
      if (whole.turns >= 0) {
        first.made = second.made = cut.across ? 1 : 2;
        const int turned = whole.made != 0 && whole.made != first.made ? 1 : 0;
        first.turns = second.turns = whole.turns + turned;
        turns = std::max(turns, first.turns);
      }
      begin(first);
      begin(second);
      pieces.push_back(first);
      pieces.push_back(second);
    }
    const int most = layout_.settings.turnsMost;
    if (item.form == StockForm::sheet && most > 0 && turns > most) {
      say("turned ", turns, " times, not ", most);
    }
    std::vector<char> taken(pieces.size(), 0);
    for (const PlacedBlank& placed : one.blanks) {
      bool found = false;
      for (std::size_t p = 0; p < pieces.size() && !found; ++p) {
        if (pieces[p].cut || taken[p] != 0 || !same(pieces[p].at, placed.at)) continue;
        taken[p] = 1;
        found = true;
      }
      if (!found) say(blank(placed.blank).name, " does not come off as a piece");
    }
    for (const FlatRect& offcut : one.offcuts) {
      bool found = false;
      for (std::size_t p = 0; p < pieces.size() && !found; ++p) {
        found = !pieces[p].cut && taken[p] == 0 && within(offcut, pieces[p].at);
      }
      if (!found) say("an offcut that no piece holds");
    }
  }

  void checkOffcuts(const StockLayout& one, const StockItem& item, const BoardShape& shape) {
    for (std::size_t i = 0; i < one.offcuts.size(); ++i) {
      const FlatRect& offcut = one.offcuts[i];
      double length = offcut.length, width = offcut.width;
      if (item.form == StockForm::sheet && width > length) std::swap(length, width);
      if (length < layout_.settings.offcutLengthLeast - kNear ||
          width < layout_.settings.offcutWidthLeast - kNear) {
        say("an offcut too small to keep");
      }
      if (i > 0 &&
          offcut.length * offcut.width > one.offcuts[i - 1].length * one.offcuts[i - 1].width + 1) {
        say("a larger offcut after a smaller one");
      }
      if (!shape.holds(offcut, 0, 0, kNear)) say("an offcut off the stock");
      for (const Defect& d : item.defects) {
        if (!apart(offcut, d.zone, 0)) say("an offcut with a defect");
      }
      for (std::size_t j = 0; j < i; ++j) {
        if (!apart(offcut, one.offcuts[j], 0)) say("two offcuts of the same wood");
      }
      for (const PlacedBlank& placed : one.blanks) {
        if (!apart(offcut, placed.at, kerf_)) {
          say("an offcut of the wood of ", blank(placed.blank).name);
        }
      }
    }
  }

  struct Lying {
    int item, copy;
    FlatRect at;
  };

  void checkMatches() {
    std::map<int, Lying> lying;
    for (const StockLayout& one : layout_.stock) {
      for (const PlacedBlank& p : one.blanks) lying[p.blank] = {one.item, one.copy, p.at};
    }
    std::map<std::tuple<std::string, std::string, std::string>, std::vector<int>> matches;
    for (std::size_t b = 0; b < layout_.blanks.size(); ++b) {
      const Blank& one = layout_.blanks[b];
      if (!one.match.empty()) {
        matches[{one.match, one.material, one.species}].push_back(static_cast<int>(b));
      }
    }
    for (const auto& [key, members] : matches) {
      const std::string& match = std::get<0>(key);
      const auto& told = layout_.matchesApart;
      if (std::find(told.begin(), told.end(), match) != told.end()) continue;
      std::vector<Lying> row;
      for (const int b : members) {
        if (const auto at = lying.find(b); at != lying.end()) row.push_back(at->second);
      }
      if (members.size() > 1 && row.size() != members.size()) {
        say("match ", match, " is not whole");
        continue;
      }
      for (const Lying& one : row) {
        if (one.item != row[0].item || one.copy != row[0].copy) say("match ", match, " is apart");
      }
      if (blank(members[0]).form == StockForm::sheet && !besideEachOther(row)) {
        say("match ", match, " is not side by side");
      }
    }
  }

  [[nodiscard]] bool besideEachOther(std::vector<Lying> row) const {
    for (const bool along : {true, false}) {
      std::sort(row.begin(), row.end(), [&](const Lying& a, const Lying& b) {
        return along ? a.at.x < b.at.x : a.at.y < b.at.y;
      });
      bool good = true;
      for (std::size_t i = 1; i < row.size(); ++i) {
        const FlatRect &a = row[i - 1].at, &b = row[i].at;
        const double gap = along ? b.x - a.x - a.length : b.y - a.y - a.width;
        good = good && near(gap, layout_.settings.sheetKerf) &&
               near(along ? a.y : a.x, along ? b.y : b.x);
      }
      if (good) return true;
    }
    return false;
  }

  void checkSums() {
    int blanks = 0;
    for (const joinery::MaterialSummary& sum : layout_.materials) {
      int placed = 0, cuts = 0;
      double blankArea = 0, stockArea = 0, price = 0;
      for (const StockLayout& one : layout_.stock) {
        const auto isOfThese = [&](const PlacedBlank& p) {
          return std::ranges::find(sum.materials, blank(p.blank).material) != sum.materials.end();
        };
        if (one.blanks.empty() || !isOfThese(one.blanks[0])) continue;
        if (!std::ranges::all_of(one.blanks, isOfThese)) say("blanks of two woods on one board");
        const StockItem& item = stock_.items[static_cast<std::size_t>(one.item)];
        placed += static_cast<int>(one.blanks.size());
        cuts += static_cast<int>(one.cuts.size());
        stockArea += BoardShape(item).area();
        if (sum.byPrice && !item.price && !item.offcut) say("by price, but unpriced");
        price += item.price.value_or(0);
        for (const PlacedBlank& p : one.blanks) blankArea += p.at.length * p.at.width;
      }
      blanks += sum.blanks;
      const double cost = sum.byPrice ? price : stockArea * 1e-6;
      if (placed != sum.placed || cuts != sum.cuts)
        say(sum.materials.front(), ": counts are wrong");
      if (std::abs(blankArea - sum.blankArea) > 1e-6 * blankArea + 1)
        say(sum.materials.front(), ": area");
      if (std::abs(stockArea - sum.stockArea) > 1e-6 * stockArea + 1)
        say(sum.materials.front(), ": stock");
      if (std::abs(cost - sum.cost) > 1e-6 * cost + 1e-9) say(sum.materials.front(), ": cost");
      if (sum.bound > cost * (1 + 1e-9) + 1e-9) {
        say(sum.materials.front(), ": bound ", sum.bound, " (", sum.boundBy, ") above the cost ",
            cost);
      }
      if (sum.boundBy.empty()) say(sum.materials.front(), ": a bound by nothing");
    }
    if (blanks != static_cast<int>(layout_.blanks.size())) say("materials do not add up");
  }

  const Layout& layout_;
  double kerf_ = 0;  // of the board or sheet being looked at
  const StockList& stock_;
  std::string place_;
  std::vector<std::string> faults_;
};

}  // namespace

std::vector<std::string> faultsOf(const Layout& layout, const StockList& stock) {
  return Checker(layout, stock).run();
}

}  // namespace dryfit::test
