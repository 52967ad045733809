#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <map>
#include <random>

#include "joinery/layout/lay_out.h"
#include "joinery/layout/limited_knapsack.h"
#include "tests/support/layout_check.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::joinery {
namespace {

/// All least rectangles that through cuts can make a set of parts from, by trying every way to part
/// the set in two. Sizes in whole units with the kerf on top.
class EveryWay {
 public:
  EveryWay(std::vector<std::pair<int, int>> parts, int kerf)
      : parts_(std::move(parts)), kerf_(kerf) {}

  bool fits(unsigned set, int length, int width) {
    const auto& all = rectangles(set);
    return std::any_of(all.begin(), all.end(),
                       [&](const auto& r) { return r.first <= length && r.second <= width; });
  }

 private:
  const std::vector<std::pair<int, int>>& rectangles(unsigned set) {
    if (const auto known = known_.find(set); known != known_.end()) return known->second;
    std::vector<std::pair<int, int>> all;
    if ((set & (set - 1)) == 0) {
      const auto part = static_cast<std::size_t>(__builtin_ctz(set));
      all.push_back(parts_[part]);
    }
    for (unsigned some = (set - 1) & set; some > 0; some = (some - 1) & set) {
      for (const auto& a : rectangles(some)) {
        for (const auto& b : rectangles(set & ~some)) {
          all.emplace_back(a.first + kerf_ + b.first, std::max(a.second, b.second));
          all.emplace_back(std::max(a.first, b.first), a.second + kerf_ + b.second);
        }
      }
    }
    // A rectangle no smaller either way than another is of no use.
    std::sort(all.begin(), all.end());
    std::vector<std::pair<int, int>> least;
    for (const auto& r : all) {
      if (least.empty() || r.second < least.back().second) least.push_back(r);
    }
    return known_[set] = least;
  }

  std::vector<std::pair<int, int>> parts_;
  int kerf_;
  std::map<unsigned, std::vector<std::pair<int, int>>> known_;
};

/// The fewest bins for a set when `fits` tells what one bin takes.
int fewest(unsigned all, const std::function<bool(unsigned)>& fits) {
  std::vector<int> least(all + 1, 99);
  least[0] = 0;
  for (unsigned set = 1; set <= all; ++set) {
    for (unsigned some = set; some > 0; some = (some - 1) & set) {
      if (least[set & ~some] + 1 < least[set] && fits(some)) least[set] = least[set & ~some] + 1;
    }
  }
  return least[all];
}

Blank partOf(StockForm form, double length, double width) {
  Blank blank;
  blank.name = "part";
  blank.material = "wood";
  blank.species = "wood";
  blank.form = form;
  blank.length = length;
  blank.width = width;
  blank.thickness = 10;
  return blank;
}
StockItem stockOf(StockForm form, double length, double width, int count) {
  StockItem item;
  item.name = "stock " + std::to_string(length);
  item.form = form;
  item.species = "wood";
  item.length = length;
  item.nearWidth = item.farWidth = width;
  item.thickness = 10;
  item.count = count;
  return item;
}
LayoutSettings untrimmed(double kerf) {
  LayoutSettings settings;
  settings.sheetTrim = settings.boardEndTrim = settings.boardEdgeTrim = 0;
  settings.boardKerf = settings.sheetKerf = kerf;
  settings.effort = 25;
  return settings;
}

TEST(Layout, OfATinySheetJobIsAsGoodAsTryingEveryWay) {
  for (int n = 0; n < test::repetitions(60); ++n) {
    const std::uint64_t seed = test::seed() + static_cast<std::uint64_t>(n);
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937_64 random(seed);
    const auto whole = [&](int low, int high) {
      return std::uniform_int_distribution<int>(low, high)(random);
    };
    const int kerf = whole(0, 4), length = whole(400, 900), width = whole(300, 600);
    std::vector<std::pair<int, int>> parts;
    std::vector<Blank> blanks;
    for (int i = whole(2, 5); i > 0; --i) {
      parts.emplace_back(whole(100, std::min(500, length)), whole(80, std::min(300, width)));
      blanks.push_back(partOf(StockForm::sheet, parts.back().first, parts.back().second));
    }
    EveryWay everyWay(parts, kerf);
    const unsigned all = (1u << parts.size()) - 1;
    const int least = fewest(all, [&](unsigned s) { return everyWay.fits(s, length, width); });
    StockList stock;
    stock.items = {stockOf(StockForm::sheet, length, width, 9)};
    const Layout layout = layOut(blanks, stock, untrimmed(kerf)).value();
    EXPECT_TRUE(test::faultsOf(layout, stock).empty());
    EXPECT_TRUE(layout.unplaced.empty());
    EXPECT_EQ(static_cast<int>(layout.stock.size()), least);
  }
}

TEST(Layout, OfATinyBoardJobIsAsGoodAsTryingEveryWay) {
  for (int n = 0; n < test::repetitions(60); ++n) {
    const std::uint64_t seed = test::seed() + 1000 + static_cast<std::uint64_t>(n);
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937_64 random(seed);
    const auto whole = [&](int low, int high) {
      return std::uniform_int_distribution<int>(low, high)(random);
    };
    const int kerf = whole(0, 4), length = whole(1000, 2400);
    std::vector<int> parts;
    std::vector<Blank> blanks;
    for (int i = whole(3, 9); i > 0; --i) {
      parts.push_back(whole(150, 900));
      blanks.push_back(partOf(StockForm::board, parts.back(), 60));
    }
    const auto fits = [&](unsigned set) {
      int sum = -kerf;
      for (std::size_t i = 0; i < parts.size(); ++i)
        sum += (set >> i & 1u) != 0 ? parts[i] + kerf : 0;
      return sum <= length;
    };
    const int least = fewest((1u << parts.size()) - 1, fits);
    StockList stock;
    for (int i = 0; i < 9; ++i) {
      stock.items.push_back(stockOf(StockForm::board, length, 70, 1));
      stock.items.back().name += "_" + std::to_string(i);
    }
    const Layout layout = layOut(blanks, stock, untrimmed(kerf)).value();
    EXPECT_TRUE(test::faultsOf(layout, stock).empty());
    EXPECT_EQ(static_cast<int>(layout.stock.size()), least);
    EXPECT_NEAR(layout.materials[0].bound, layout.materials[0].cost, 1e-6);
  }
}

// The limited knapsack against trying every choice of copies.
TEST(LimitedKnapsack, IsWorthAsMuchAsTryingEveryWay) {
  using cutting::LimitedItem;
  for (int n = 0; n < test::repetitions(150); ++n) {
    const std::uint64_t seed = test::seed() + 2000 + static_cast<std::uint64_t>(n);
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937_64 random(seed);
    const auto whole = [&](int low, int high) {
      return std::uniform_int_distribution<int>(low, high)(random);
    };
    const int length = whole(20, 60), width = whole(20, 60);
    std::vector<LimitedItem> items;
    std::vector<std::pair<int, int>> parts;
    std::vector<double> values;
    for (int i = whole(2, 3); i > 0; --i) {
      const int l = whole(5, length), w = whole(5, width), copies = whole(1, 2);
      items.push_back({{{l, w}}, copies, static_cast<double>(whole(10, l * w))});
      parts.insert(parts.end(), static_cast<std::size_t>(copies), {l, w});
      values.insert(values.end(), static_cast<std::size_t>(copies), items.back().value);
    }
    EveryWay everyWay(parts, 0);
    double most = 0;
    for (unsigned set = 1; set < 1u << parts.size(); ++set) {
      double value = 0;
      for (std::size_t i = 0; i < parts.size(); ++i) value += (set >> i & 1u) != 0 ? values[i] : 0;
      if (value > most && everyWay.fits(set, length, width)) most = value;
    }
    const auto found = cutting::limitedKnapsack(items, length, width);
    EXPECT_TRUE(found.exact);
    EXPECT_EQ(found.value, most);
  }
}

// What the checker is good for: it must see what is spoilt.
TEST(LayoutCheck, SeesEverySpoiltLayout) {
  StockList stock;
  stock.items = {stockOf(StockForm::sheet, 1000, 600, 2)};
  stock.items[0].defects.push_back({DefectKind::knot, {900, 500, 60, 60}, StockFace::both});
  std::vector<Blank> blanks;
  for (int i = 0; i < 5; ++i)
    blanks.push_back(partOf(StockForm::sheet, 300 + 10 * i, 200 - 15 * i));
  const Layout good = layOut(blanks, stock, untrimmed(3)).value();
  ASSERT_TRUE(test::faultsOf(good, stock).empty());
  const std::vector<std::function<void(Layout&)>> spoilers{
      [](Layout& l) { l.stock[0].blanks[0].at.x += 2; },
      [](Layout& l) { l.stock[0].blanks[0].at.length += 1; },
      [](Layout& l) {
        l.stock[0].blanks[0].at = {900, 480, 90, 90};
      },
      [](Layout& l) { l.stock[0].blanks[0].turned = !l.stock[0].blanks[0].turned; },
      [](Layout& l) { l.stock[0].blanks.pop_back(); },
      [](Layout& l) { l.stock[0].blanks[1].blank = l.stock[0].blanks[0].blank; },
      [](Layout& l) { l.stock[0].cuts.pop_back(); },
      [](Layout& l) { l.stock[0].cuts[0].at += 1; },
      [](Layout& l) { l.stock[0].copy = 2; },
      [](Layout& l) {
        l.stock[0].offcuts.push_back({0, 0, 400, 100});
      },
      [](Layout& l) { l.settings.sheetKerf += 0.5; },
      [](Layout& l) { l.settings.sheetTrim = 5; },
      [](Layout& l) { l.settings.turnsMost = 1; },
      [](Layout& l) { l.blanks[0].thickness = 11; },
      [](Layout& l) { l.blanks[0].species = "other"; },
      [](Layout& l) { l.blanks[0].match = l.blanks[4].match = "pair"; },
      [](Layout& l) { l.materials[0].cost *= 0.9; },
      [](Layout& l) { l.materials[0].bound = l.materials[0].cost * 1.01; },
      [](Layout& l) { l.materials[0].placed -= 1; },
  };
  for (std::size_t i = 0; i < spoilers.size(); ++i) {
    Layout bad = good;
    spoilers[i](bad);
    EXPECT_FALSE(test::faultsOf(bad, stock).empty()) << "spoilt the way of number " << i;
  }
}

}  // namespace
}  // namespace dryfit::joinery
