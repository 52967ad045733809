#pragma once

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "joinery/layout/clear_wood.h"
#include "joinery/layout/cut_tree.h"
#include "joinery/layout/layout.h"

namespace dryfit::joinery::cutting {

/// Where one blank lies within the rectangle that is cut for it and its neighbours.
struct PoseMember {
  int slot = 0;  ///< which blank of the item
  Area at;       ///< from the corner of the rectangle
  bool turned = false;
};

/// One way a rectangle may lie on stock: a single blank, or several side by side.
struct Pose {
  Size length = 0, width = 0;
  std::vector<PoseMember> members;
};

/// Rectangles to be cut from one board or sheet together, in equal copies: mostly one blank each.
struct Item {
  /// For each rectangle, its poses by the grain of the stock (index of the enumerator).
  std::vector<std::array<std::vector<Pose>, 3>> parts;
  std::vector<std::vector<int>> copies;  ///< blanks of every copy, by slot
  double area = 0;                       ///< of one copy, squares of Size
  double thickness = 0, thicknessMost = 1e9;
  std::string match;    ///< kept together
  bool beside = false;  ///< and side by side

  [[nodiscard]] int demand() const { return static_cast<int>(copies.size()); }
};

/// Equal pieces of stock.
struct Bin {
  int stock = 0;            ///< index in the stock list
  int count = 1, used = 0;  ///< pieces left, and how many earlier materials took
  ClearWood wood;
  Grain grain = Grain::length;
  bool sheet = false;
  double thickness = 0;
  double area = 0;    ///< of the whole piece, m²
  double cost = 0;    ///< as it is reported
  double search = 0;  ///< as the search weighs it: offcuts at hand less, too thick stock more
};

/// All blanks of one wood and the stock that suits them.
struct Job {
  LayoutSettings settings;
  bool sheets = false;
  bool free = false;  ///< parts may lie anyhow
  bool byPrice = false;
  std::vector<Item> items;
  std::vector<Bin> bins;
  std::vector<std::vector<char>> suits;  ///< [item][bin]

  [[nodiscard]] Size kerf() const {
    return sizeOf(sheets ? settings.sheetKerf : settings.boardKerf);
  }
  /// How often cutting may change direction; 0: any number.
  [[nodiscard]] int turnsMost() const { return sheets ? std::max(0, settings.turnsMost) : 0; }
};

/// Whether a blank may be cut from a piece of stock as far as material and thickness go.
[[nodiscard]] bool suitsStock(const Blank& blank, const StockItem& item);

/// The job of these blanks. `used` tells how many copies of each stock item are gone. Matches named
/// in `apart`, and those that no piece of stock can hold together, are taken apart; the latter are
/// added to `apart`.
[[nodiscard]] Job makeJob(const std::vector<Blank>& blanks, const std::vector<int>& members,
                          const StockList& stock, const std::vector<int>& used,
                          const LayoutSettings& settings, std::vector<std::string>& apart);

}  // namespace dryfit::joinery::cutting
