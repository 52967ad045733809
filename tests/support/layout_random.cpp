#include "tests/support/layout_random.h"

#include <cmath>
#include <string>

namespace dryfit::test {
namespace {

using joinery::Blank;
using joinery::CutMethod;
using joinery::Defect;
using joinery::Grain;
using joinery::StockForm;
using joinery::StockItem;

class Maker {
 public:
  explicit Maker(std::mt19937_64& random) : random_(random) {}

  LayoutJob makeOfBoards() {
    const int kinds = whole(5, 11), blanks = whole(12, 40);
    double wanted = 0;
    std::vector<Blank> sizes;
    for (int k = 0; k < kinds; ++k) {
      Blank blank;
      blank.material = "frame";
      blank.species = "white oak";
      blank.thickness = 24;
      blank.length = chance(50) ? whole(280, 560) : whole(400, 1150);
      blank.width = chance(70) ? whole(40, 80) : whole(80, 145);
      sizes.push_back(blank);
    }
    for (int b = 0; b < blanks; ++b) {
      job_.blanks.push_back(sizes[static_cast<std::size_t>(whole(0, kinds - 1))]);
      job_.blanks.back().name = "part " + std::to_string(b);
      wanted += job_.blanks.back().length * job_.blanks.back().width;
    }
    for (double had = 0; had < 2 * wanted || job_.stock.items.size() < 8;) {
      addBoard();
      had += job_.stock.items.back().area();
    }
    return job_;
  }

  LayoutJob make(int blanksMost) {
    settings();
    const int materials = whole(1, 2);
    for (int m = 0; m < materials; ++m) {
      const StockForm form = chance(50) ? StockForm::board : StockForm::sheet;
      const std::string name = "material_" + std::to_string(m);
      const std::string species = chance(80) ? "wood_" + std::to_string(m) : "wood_0";
      const double thickness = whole(12, 40);
      const int blanks = whole(1, std::max(1, blanksMost / materials));
      Blank last;
      for (int b = 0; b < blanks; ++b) {
        Blank blank = b > 0 && chance(40) ? last : blankOf(form, name, species, thickness);
        blank.name = name + "_" + std::to_string(b);
        blank.match = chance(15) ? "match_" + std::to_string(whole(0, 2)) : "";
        last = blank;
        job_.blanks.push_back(blank);
      }
      const int items = whole(0, 6);
      for (int i = 0; i < items; ++i) addStock(form, name, species, thickness);
    }
    return job_;
  }

 private:
  bool chance(int percent) { return whole(1, 100) <= percent; }
  int whole(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
  double tenths(double low, double high) {
    return whole(static_cast<int>(low * 10), static_cast<int>(high * 10)) / 10.0;
  }
  template <class T>
  T oneOf(std::initializer_list<T> list) {
    return *(list.begin() + whole(0, static_cast<int>(list.size()) - 1));
  }

  void settings() {
    auto& s = job_.settings;
    s.sheetMethod = chance(30) ? CutMethod::free : CutMethod::throughCuts;
    s.boardKerf = oneOf({0.0, 1.0, 2.4, 3.2, 3.175});
    s.sheetKerf = oneOf({0.0, 1.0, 2.4, 3.2, 3.175, 8.0});
    s.sheetTrim = oneOf({0.0, 2.0, 10.0});
    s.boardEndTrim = oneOf({0.0, 25.0, 50.0});
    s.boardEdgeTrim = oneOf({0.0, 3.0});
    s.turnsMost = chance(60) ? 0 : whole(1, 3);
    s.effort = 5;
  }

  void addBoard() {
    StockItem item;
    item.name = "board " + std::to_string(job_.stock.items.size());
    item.species = "white oak";
    item.thickness = 27;
    item.offcut = chance(12);
    item.length = item.offcut ? whole(450, 1200) : whole(1800, 3050);
    item.nearWidth = item.farWidth = whole(item.offcut ? 90 : 145, 235);
    if (chance(35)) item.farWidth -= whole(5, 35);
    for (int d = chance(60) ? 0 : whole(1, 2); d > 0; --d) {
      Defect defect;
      const double length = whole(20, 160), width = whole(15, 45);
      defect.zone = {tenths(0, item.length - length), tenths(0, item.farWidth - width), length,
                     width};
      item.defects.push_back(defect);
    }
    // By the area, dearer or cheaper as the wood is; whole units of money.
    const double rate = 125e-6 * whole(80, 120) / 100;
    item.price = item.offcut ? 0 : std::round(item.area() * rate);
    job_.stock.items.push_back(item);
  }

  Blank blankOf(StockForm form, const std::string& name, const std::string& species,
                double thickness) {
    Blank blank;
    blank.material = name;
    blank.species = species;
    blank.form = form;
    const bool inches = chance(20);
    const double unit = inches ? 25.4 / 64 : 0.1;
    const auto size = [&](double low, double high) {
      return unit * whole(static_cast<int>(low / unit), static_cast<int>(high / unit));
    };
    if (form == StockForm::board) {
      blank.length = size(120, chance(85) ? 1100 : 2800);
      blank.width = size(25, chance(85) ? 130 : 260);
      blank.grain = chance(90) ? Grain::length : oneOf({Grain::width, Grain::none});
      blank.thickness = chance(80) ? thickness : thickness + 3;
    } else {
      blank.length = size(80, 1200);
      blank.width = size(50, chance(90) ? 700 : 1300);
      blank.grain = oneOf({Grain::length, Grain::length, Grain::none, Grain::width});
      blank.thickness = thickness;
      blank.thicknessMost = thickness + 1;
    }
    return blank;
  }

  void addStock(StockForm form, const std::string& name, const std::string& species,
                double thickness) {
    StockItem item;
    item.name = "stock_" + std::to_string(job_.stock.items.size());
    item.form = form;
    if (chance(20)) item.material = name;
    item.species = species;
    item.offcut = chance(15);
    if (chance(50)) item.price = whole(0, 500) / 10.0;
    if (form == StockForm::board) {
      item.thickness = thickness + oneOf({0.0, 3.0, 8.0, -2.0});
      item.length = tenths(500, 3000);
      item.nearWidth = tenths(60, 300);
      item.farWidth = chance(60) ? item.nearWidth : tenths(60, 300);
      if (chance(20)) item.outline = crooked(item.length, item.nearWidth);
    } else {
      item.thickness = thickness + oneOf({0.0, 0.0, 0.5, 1.5});
      item.length = item.offcut ? tenths(300, 1200) : oneOf({2440.0, 2500.0, 2800.0});
      item.nearWidth = item.farWidth = item.offcut ? tenths(100, 700) : oneOf({1220.0, 1250.0});
      item.grain = oneOf({Grain::length, Grain::length, Grain::width, Grain::none});
      item.count = whole(1, 4);
    }
    for (int d = chance(60) ? 0 : whole(1, 3); d > 0; --d) {
      Defect defect;
      defect.zone = {tenths(0, item.length), tenths(0, item.nearWidth), tenths(5, 150),
                     tenths(5, 60)};
      item.defects.push_back(defect);
    }
    job_.stock.items.push_back(item);
  }

  /// An outline with slanted ends, maybe with a waist.
  std::vector<joinery::FlatPoint> crooked(double length, double width) {
    std::vector<joinery::FlatPoint> points{{0, tenths(0, 10)}};
    if (chance(50)) points.push_back({length / 2, tenths(0, width / 4)});
    points.push_back({length - tenths(0, 60), 0});
    points.push_back({length, width - tenths(0, 20)});
    if (chance(50)) points.push_back({length / 3, width - tenths(0, width / 4)});
    points.push_back({tenths(0, 60), width});
    return points;
  }

  std::mt19937_64& random_;
  LayoutJob job_;
};

}  // namespace

LayoutJob randomLayoutJob(std::mt19937_64& random, int blanksMost) {
  return Maker(random).make(blanksMost);
}

LayoutJob randomBoardJob(std::mt19937_64& random) {
  return Maker(random).makeOfBoards();
}

}  // namespace dryfit::test
