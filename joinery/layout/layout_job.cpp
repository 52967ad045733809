#include "joinery/layout/layout_job.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "joinery/trade/allowances.h"
#include "joinery/trade/species.h"

namespace dryfit::joinery::cutting {
namespace {

constexpr double kSameThickness = 1e-6;
// A board or sheet left from an earlier job is paid for: it weighs half of new stock.
constexpr double kOffcutWeight = 0.5;

/// Whether a blank lies turned on stock of this grain: 0 no, 1 yes, 2 as one likes.
int turnOn(const Blank& blank, Grain stock) {
  if (blank.grain == Grain::none || stock == Grain::none) return 2;
  return blank.grain == stock ? 0 : 1;
}

Pose single(const Blank& blank, bool turned) {
  const Size l = sizeOf(turned ? blank.width : blank.length);
  const Size w = sizeOf(turned ? blank.length : blank.width);
  return {l, w, {{0, {0, 0, l, w}, turned}}};
}

std::vector<Pose> singlePoses(const Blank& blank, Grain stock) {
  const int turn = turnOn(blank, stock);
  std::vector<Pose> poses;
  if (turn != 1) poses.push_back(single(blank, false));
  if (turn == 1 || (turn == 2 && blank.length != blank.width)) poses.push_back(single(blank, true));
  return poses;
}

/// All in one row, along the stock or across it.
std::vector<Pose> rowPoses(const std::vector<Blank>& blanks, const std::vector<int>& row,
                           Grain stock, Size kerf) {
  std::vector<Pose> poses;
  for (const bool turned : {false, true}) {
    const bool allowed = std::all_of(row.begin(), row.end(), [&](int b) {
      return turnOn(blanks[static_cast<std::size_t>(b)], stock) != (turned ? 0 : 1);
    });
    if (!allowed) continue;
    for (const bool along : {false, true}) {
      Pose pose;
      Size at = 0;
      for (std::size_t slot = 0; slot < row.size(); ++slot) {
        const Pose one = single(blanks[static_cast<std::size_t>(row[slot])], turned);
        Area area{along ? at : 0, along ? 0 : at, one.length, one.width};
        pose.length = std::max(pose.length, area.farX());
        pose.width = std::max(pose.width, area.farY());
        at += (along ? one.length : one.width) + kerf;
        pose.members.push_back({static_cast<int>(slot), area, turned});
      }
      poses.push_back(std::move(pose));
    }
  }
  return poses;
}

bool fits(const Pose& pose, const Bin& bin) {
  return pose.length <= bin.wood.usable().length && pose.width <= bin.wood.usable().width;
}

class Maker {
 public:
  Maker(const std::vector<Blank>& blanks, const StockList& stock, Job& job)
      : blanks_(blanks), stock_(stock), job_(job) {}

  void addBins(const std::vector<int>& members, const std::vector<int>& used) {
    double thinnest = 1e9;
    bool anyPrice = false;
    job_.byPrice = true;
    for (std::size_t s = 0; s < stock_.items.size(); ++s) {
      const StockItem& item = stock_.items[s];
      const bool suits = std::any_of(members.begin(), members.end(), [&](int b) {
        return suitsStock(blanks_[static_cast<std::size_t>(b)], item);
      });
      if (!suits) continue;
      // What is at hand is paid for, so an offcut needs no price.
      if (!item.price && !item.offcut) job_.byPrice = false;
      anyPrice = anyPrice || item.price.has_value();
      ClearWood wood(item, job_.settings);
      thinnest = std::min(thinnest, item.thickness);
      if (item.count <= used[s] || wood.none()) continue;
      job_.bins.push_back({static_cast<int>(s), item.count - used[s], used[s], std::move(wood),
                           item.form == StockForm::board ? Grain::length : item.grain,
                           item.form == StockForm::sheet, item.thickness, outlineArea(item) * 1e-6,
                           0, 0});
    }
    job_.byPrice = job_.byPrice && anyPrice;
    for (Bin& bin : job_.bins) {
      const StockItem& item = stock_.items[static_cast<std::size_t>(bin.stock)];
      bin.cost = job_.byPrice ? item.price.value_or(0.0) : bin.area;
      const double thick = job_.byPrice || bin.sheet ? 1.0 : bin.thickness / thinnest;
      bin.search = bin.cost * thick * (item.offcut ? kOffcutWeight : 1.0) + 1e-7 * bin.area;
    }
  }

  void addItems(const std::vector<int>& members, std::vector<std::string>& apart) {
    std::map<std::string, std::vector<int>> matches;
    for (const int b : members) {
      const std::string& match = blanks_[static_cast<std::size_t>(b)].match;
      if (!match.empty()) matches[match].push_back(b);
    }
    std::vector<int> singles;
    for (const int b : members) {
      const std::string& match = blanks_[static_cast<std::size_t>(b)].match;
      const bool keep = !match.empty() && matches[match].size() > 1 &&
                        std::find(apart.begin(), apart.end(), match) == apart.end();
      if (!keep) {
        singles.push_back(b);
      } else if (matches[match].front() == b && !addMatch(match, matches[match])) {
        apart.push_back(match);
        singles.insert(singles.end(), matches[match].begin(), matches[match].end());
      }
    }
    // A match taken apart just now has put its other members in already.
    std::sort(singles.begin(), singles.end());
    singles.erase(std::unique(singles.begin(), singles.end()), singles.end());
    addSingles(singles);
    for (const Item& item : job_.items) {
      std::vector<char> suits;
      for (const Bin& bin : job_.bins) suits.push_back(suitsBin(item, bin) ? 1 : 0);
      job_.suits.push_back(std::move(suits));
    }
  }

 private:
  static double outlineArea(const StockItem& item) {
    const std::vector<FlatPoint> outline = outlineOf(item);
    double twice = 0;
    for (std::size_t i = 0; i < outline.size(); ++i) {
      const FlatPoint &a = outline[i], &b = outline[(i + 1) % outline.size()];
      twice += a.x * b.y - b.x * a.y;
    }
    return twice < 0 ? -twice / 2 : twice / 2;
  }

  [[nodiscard]] bool suitsBin(const Item& item, const Bin& bin) const {
    const StockItem& stock = stock_.items[static_cast<std::size_t>(bin.stock)];
    for (const int b : item.copies.front()) {
      if (!suitsStock(blanks_[static_cast<std::size_t>(b)], stock)) return false;
    }
    const auto grain = static_cast<std::size_t>(bin.grain);
    return std::all_of(item.parts.begin(), item.parts.end(), [&](const auto& part) {
      return std::any_of(part[grain].begin(), part[grain].end(),
                         [&](const Pose& pose) { return fits(pose, bin); });
    });
  }

  /// The match as one item, if some piece of stock may hold it.
  bool addMatch(const std::string& match, const std::vector<int>& row) {
    Item item;
    item.match = match;
    item.beside = job_.sheets;
    item.copies = {row};
    for (const int b : row) {
      const Blank& blank = blanks_[static_cast<std::size_t>(b)];
      item.area += single(blank, false).members[0].at.area();
      item.thickness = std::max(item.thickness, blank.thickness);
    }
    if (item.beside) {
      item.parts.emplace_back();
      for (const Grain grain : {Grain::length, Grain::width, Grain::none}) {
        item.parts[0][static_cast<std::size_t>(grain)] = rowPoses(blanks_, row, grain, job_.kerf());
      }
    } else {
      for (std::size_t slot = 0; slot < row.size(); ++slot) {
        item.parts.push_back(partOf(row[slot], static_cast<int>(slot)));
      }
    }
    const bool holds = std::any_of(job_.bins.begin(), job_.bins.end(),
                                   [&](const Bin& bin) { return suitsBin(item, bin); });
    if (holds) job_.items.push_back(std::move(item));
    return holds;
  }

  [[nodiscard]] std::array<std::vector<Pose>, 3> partOf(int blank, int slot) const {
    std::array<std::vector<Pose>, 3> part;
    for (const Grain grain : {Grain::length, Grain::width, Grain::none}) {
      auto& poses = part[static_cast<std::size_t>(grain)];
      poses = singlePoses(blanks_[static_cast<std::size_t>(blank)], grain);
      for (Pose& pose : poses) pose.members[0].slot = slot;
    }
    return part;
  }

  void addSingles(const std::vector<int>& singles) {
    std::map<std::tuple<Size, Size, double, double, std::string, Grain>, std::size_t> equal;
    for (const int b : singles) {
      const Blank& blank = blanks_[static_cast<std::size_t>(b)];
      const auto [at, isNew] =
          equal.try_emplace({sizeOf(blank.length), sizeOf(blank.width), blank.thickness,
                             blank.thicknessMost, blank.species, blank.grain},
                            job_.items.size());
      if (isNew) {
        Item item;
        item.parts.push_back(partOf(b, 0));
        item.area = single(blank, false).members[0].at.area();
        item.thickness = blank.thickness;
        item.thicknessMost = blank.thicknessMost;
        job_.items.push_back(std::move(item));
      }
      job_.items[at->second].copies.push_back({b});
    }
  }

  const std::vector<Blank>& blanks_;
  const StockList& stock_;
  Job& job_;
};

}  // namespace

bool suitsStock(const Blank& blank, const StockItem& item) {
  if (blank.form != item.form || item.count < 1) return false;
  if (item.material.empty()) {
    if (item.species.empty() || !sameWood(item.species, blank.species)) return false;
  } else if (item.material != blank.material) {
    return false;
  }
  if (item.thickness < blank.thickness - kSameThickness) return false;
  if (blank.form == StockForm::sheet) return item.thickness <= blank.thicknessMost + kSameThickness;
  // Much thicker boards are sawn thinner first, not planed away.
  return item.thickness <= allowance(AllowanceId::boardThicknessTimes).value * blank.thickness +
                               allowance(AllowanceId::boardThicknessMore).value;
}

Job makeJob(const std::vector<Blank>& blanks, const std::vector<int>& members,
            const StockList& stock, const std::vector<int>& used, const LayoutSettings& settings,
            std::vector<std::string>& apart) {
  Job job;
  const Blank& first = blanks[static_cast<std::size_t>(members.front())];
  job.settings = settings;
  job.sheets = first.form == StockForm::sheet;
  job.free = job.sheets && settings.sheetMethod == CutMethod::free;
  Maker maker(blanks, stock, job);
  maker.addBins(members, used);
  maker.addItems(members, apart);
  return job;
}

}  // namespace dryfit::joinery::cutting
