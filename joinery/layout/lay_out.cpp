#include "joinery/layout/lay_out.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "joinery/layout/board_search.h"
#include "joinery/layout/cut_sequence.h"
#include "joinery/layout/layout_bound.h"
#include "joinery/layout/plan_search.h"
#include "joinery/layout/price_bound.h"
#include "joinery/layout/unplaced_reason.h"

namespace dryfit::joinery {
namespace {

using cutting::Bin;
using cutting::FoundPlan;
using cutting::Job;
using cutting::SharedPattern;

constexpr double kLongest = 100'000;  // mm; nobody has longer stock

bool isSize(double mm) {
  return std::isfinite(mm) && mm > 0 && mm <= kLongest;
}
bool isRest(double mm) {
  return std::isfinite(mm) && mm >= 0 && mm <= kLongest;
}

Result<void> checkStock(const StockList& stock) {
  for (const StockItem& item : stock.items) {
    const auto bad = [&](const std::string& what, double value) {
      return fail(ErrorCode::badStock, fmt::format("{} {:g} is not a size", what, value), item.name,
                  "more than 0 and at most 100000 mm");
    };
    if (!isSize(item.thickness)) return bad("thickness", item.thickness);
    if (item.outline.empty()) {
      if (!isSize(item.length)) return bad("length", item.length);
      if (!isSize(item.nearWidth)) return bad("width", item.nearWidth);
      if (!isSize(item.farWidth)) return bad("width", item.farWidth);
    } else if (item.outline.size() < 3) {
      return fail(ErrorCode::badStock, "an outline has at least 3 points", item.name);
    }
    for (const FlatPoint& p : item.outline) {
      if (!std::isfinite(p.x) || std::abs(p.x) > kLongest) return bad("x of the outline", p.x);
      if (!std::isfinite(p.y) || std::abs(p.y) > kLongest) return bad("y of the outline", p.y);
    }
    for (const Defect& defect : item.defects) {
      for (const double v : {defect.zone.x, defect.zone.y}) {
        if (!std::isfinite(v) || std::abs(v) > kLongest) return bad("place of a defect", v);
      }
      for (const double v : {defect.zone.length, defect.zone.width}) {
        if (!isRest(v)) return bad("size of a defect", v);
      }
    }
    if (item.price && !(std::isfinite(*item.price) && *item.price >= 0)) {
      return fail(ErrorCode::badStock, fmt::format("{:g} is not a price", *item.price), item.name,
                  "0 or more");
    }
  }
  return {};
}

Result<void> checkJob(const std::vector<Blank>& blanks, const LayoutSettings& settings) {
  for (const Blank& blank : blanks) {
    for (const double v : {blank.length, blank.width, blank.thickness}) {
      if (!isSize(v)) {
        return fail(ErrorCode::badStock, fmt::format("{:g} is not a size", v), blank.name,
                    "more than 0 and at most 100000 mm");
      }
    }
  }
  for (const double v :
       {settings.boardKerf, settings.sheetKerf, settings.sheetTrim, settings.boardEndTrim,
        settings.boardEdgeTrim, settings.offcutLengthLeast, settings.offcutWidthLeast}) {
    if (!isRest(v)) {
      return fail(ErrorCode::badStock, fmt::format("{:g} is not a kerf, trim or offcut size", v),
                  "layout settings", "0 or more");
    }
  }
  return {};
}

/// Blanks of materials that share their stock.
struct Group {
  std::vector<std::string> materials;
  std::vector<int> blanks;
  double thickest = 0;
};

std::vector<Group> groupsByMaterial(const std::vector<Blank>& blanks) {
  std::map<std::tuple<std::string, std::string, StockForm>, std::size_t> numbers;
  std::vector<Group> groups;
  for (std::size_t b = 0; b < blanks.size(); ++b) {
    const auto [at, isNew] =
        numbers.try_emplace({blanks[b].material, blanks[b].species, blanks[b].form}, groups.size());
    if (isNew) groups.push_back({{blanks[b].material}, {}, 0});
    Group& group = groups[at->second];
    group.blanks.push_back(static_cast<int>(b));
    group.thickest = std::max(group.thickest, blanks[b].thickness);
  }
  return groups;
}

/// Which entries of the stock list suit any blank of a group.
std::vector<char> stockFor(const Group& group, const std::vector<Blank>& blanks,
                           const StockList& stock) {
  std::vector<char> suits;
  suits.reserve(stock.items.size());
  for (const StockItem& item : stock.items) {
    const bool any = std::ranges::any_of(group.blanks, [&](int b) {
      return cutting::suitsStock(blanks[static_cast<std::size_t>(b)], item);
    });
    suits.push_back(any ? 1 : 0);
  }
  return suits;
}

/// The blanks by what they are cut from. Materials of one wood that the same stock suits share it:
/// drawer sides may come from the offcut of a shelf, whatever the model calls the two.
std::vector<Group> groupsOf(const std::vector<Blank>& blanks, const StockList& stock) {
  std::map<std::tuple<std::string, StockForm, std::vector<char>>, std::size_t> numbers;
  std::vector<Group> groups;
  for (Group& group : groupsByMaterial(blanks)) {
    const Blank& first = blanks[static_cast<std::size_t>(group.blanks.front())];
    const std::vector<char> suits = stockFor(group, blanks, stock);
    const bool any = std::ranges::any_of(suits, [](char c) { return c != 0; });
    // What nothing suits stays apart, so that it is told by its name.
    const std::string wood = any ? first.species : first.material;
    const auto [at, isNew] = numbers.try_emplace({wood, first.form, suits}, groups.size());
    if (isNew) {
      groups.push_back(std::move(group));
      continue;
    }
    Group& shared = groups[at->second];
    shared.materials.push_back(group.materials.front());
    shared.blanks.insert(shared.blanks.end(), group.blanks.begin(), group.blanks.end());
    std::ranges::sort(shared.blanks);
    shared.thickest = std::max(shared.thickest, group.thickest);
  }
  return groups;
}

class LayOut {
 public:
  LayOut(Layout& layout, const StockList& stock, const LayoutProgress& progress)
      : layout_(layout), stock_(stock), progress_(progress), used_(stock.items.size(), 0) {}

  void run() {
    const std::vector<Group> groups = groupsOf(layout_.blanks, stock_);
    std::vector<std::size_t> order(groups.size());
    for (std::size_t g = 0; g < order.size(); ++g) order[g] = g;
    // Thick blanks first: thin ones may have what is left of thick boards, not the other way.
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
      return groups[a].thickest > groups[b].thickest;
    });
    layout_.materials.resize(groups.size());
    for (std::size_t n = 0; n < order.size(); ++n) {
      done_ = static_cast<double>(n) / static_cast<double>(order.size());
      share_ = 1.0 / static_cast<double>(order.size());
      layGroup(groups[order[n]], layout_.materials[order[n]]);
    }
    std::sort(layout_.stock.begin(), layout_.stock.end(),
              [](const StockLayout& a, const StockLayout& b) {
                return std::tie(a.item, a.copy) < std::tie(b.item, b.copy);
              });
    std::sort(layout_.unplaced.begin(), layout_.unplaced.end(),
              [](const Unplaced& a, const Unplaced& b) { return a.blank < b.blank; });
    auto& apart = layout_.matchesApart;
    std::sort(apart.begin(), apart.end());
    apart.erase(std::unique(apart.begin(), apart.end()), apart.end());
  }

 private:
  bool goOn(double share) {
    if (stopped_) return false;
    if (progress_ && !progress_(std::min(1.0, done_ + share_ * share))) stopped_ = true;
    return !stopped_;
  }

  void layGroup(const Group& group, MaterialSummary& summary) {
    std::vector<std::string> apart;
    for (int attempt = 0;; ++attempt) {
      const Job job =
          cutting::makeJob(layout_.blanks, group.blanks, stock_, used_, layout_.settings, apart);
      const FoundPlan found = cutting::findPlan(job, [&](double share) { return goOn(share); });
      if (!found.finished) layout_.finished = false;
      const std::size_t before = apart.size();
      for (std::size_t i = 0; i < job.items.size(); ++i) {
        if (found.plan.missing[i] > 0 && !job.items[i].match.empty()) {
          apart.push_back(job.items[i].match);
        }
      }
      // A match that found no place together may find one apart.
      if (apart.size() > before && attempt < 4) continue;
      if (othersTookFrom(group)) {
        // The bound counts with the stock that other materials took: it is of any layout.
        const Job whole = cutting::makeJob(layout_.blanks, group.blanks, stock_, untouched(),
                                           layout_.settings, apart);
        bound(whole, found, 0, take(job, found, group, summary), summary);
      } else {
        bound(job, found, found.bars, take(job, found, group, summary), summary);
      }
      break;
    }
    layout_.matchesApart.insert(layout_.matchesApart.end(), apart.begin(), apart.end());
  }

  [[nodiscard]] std::vector<int> untouched() const { return std::vector<int>(used_.size(), 0); }

  [[nodiscard]] bool othersTookFrom(const Group& group) const {
    for (std::size_t s = 0; s < used_.size(); ++s) {
      if (used_[s] == 0) continue;
      const bool suits = std::any_of(group.blanks.begin(), group.blanks.end(), [&](int b) {
        return cutting::suitsStock(layout_.blanks[static_cast<std::size_t>(b)], stock_.items[s]);
      });
      if (suits) return true;
    }
    return false;
  }

  /// Puts the plan into the layout; how many copies of each item it places.
  std::vector<std::size_t> take(const Job& job, const FoundPlan& found, const Group& group,
                                MaterialSummary& summary) {
    summary.materials = group.materials;
    summary.blanks = static_cast<int>(group.blanks.size());
    summary.byPrice = job.byPrice;
    std::vector<std::size_t> nextCopy(job.items.size(), 0);
    std::vector<int> nextOfBin;
    for (const Bin& bin : job.bins) nextOfBin.push_back(bin.used);
    std::vector<char> placed(layout_.blanks.size(), 0);
    for (const SharedPattern& pattern : found.plan.patterns) {
      std::vector<std::vector<const std::vector<int>*>> copies(job.items.size());
      for (const auto& [item, count] : pattern->counts) {
        const auto i = static_cast<std::size_t>(item);
        for (int c = 0; c < count; ++c) copies[i].push_back(&job.items[i].copies[nextCopy[i]++]);
      }
      const auto b = static_cast<std::size_t>(pattern->bin);
      layout_.stock.push_back(cutting::stockLayoutOf(job, *pattern, nextOfBin[b]++, copies));
      const Bin& bin = job.bins[b];
      ++used_[static_cast<std::size_t>(bin.stock)];
      summary.stockArea += bin.area * 1e6;
      summary.cost += bin.cost;
      summary.cuts += static_cast<int>(layout_.stock.back().cuts.size());
      for (const PlacedBlank& blank : layout_.stock.back().blanks) {
        placed[static_cast<std::size_t>(blank.blank)] = 1;
        ++summary.placed;
        summary.blankArea += blank.at.length * blank.at.width;
      }
    }
    for (const int b : group.blanks) {
      if (placed[static_cast<std::size_t>(b)] == 0) {
        layout_.unplaced.push_back(
            cutting::unplacedBecause(layout_.blanks, b, stock_, layout_.settings));
      }
    }
    return nextCopy;
  }

  static std::vector<cutting::PricedBin> pricedBins(const Job& job) {
    std::vector<cutting::PricedBin> bins;
    bins.reserve(job.bins.size());
    for (const Bin& bin : job.bins) bins.push_back({bin.cost, bin.count, 0});
    return bins;
  }

  /// `bars`: a bound on the search's weight of all blanks by bars alone; 0: none is known.
  void bound(const Job& job, const FoundPlan& found, double bars,
             const std::vector<std::size_t>& copiesPlaced, MaterialSummary& summary) {
    std::vector<int> counts;
    counts.reserve(copiesPlaced.size());
    for (const std::size_t c : copiesPlaced) counts.push_back(static_cast<int>(c));
    cutting::CostBound best = cutting::costBound(job, counts, found.prices, false);
    if (bars > 0 && found.plan.complete()) {
      double ratio = 1e300;
      for (const Bin& bin : job.bins) ratio = std::min(ratio, bin.cost / bin.search);
      const double cost = cutting::roundedUp(bars * ratio * (1 - 1e-9), pricedBins(job));
      if (cost > best.value * (1 + 1e-9)) best = {cost, "column generation along the boards"};
    }
    if (!job.sheets && best.value < summary.cost * (1 - 1e-9)) {
      const double boards =
          cutting::boardBound(job, counts, found.prices, summary.cost, [this] { return goOn(1); });
      const double cost = cutting::roundedUp(boards, pricedBins(job));
      if (cost > best.value * (1 + 1e-7)) best = {cost, "choice of boards"};
    }
    // They may differ by rounding, no more.
    const bool reached = std::abs(best.value - summary.cost) <= summary.cost * 1e-8 + 1e-9;
    summary.bound = reached ? summary.cost : best.value;
    summary.boundBy = best.by;
  }

  Layout& layout_;
  const StockList& stock_;
  const LayoutProgress& progress_;
  std::vector<int> used_;
  double done_ = 0, share_ = 1;
  bool stopped_ = false;
};

}  // namespace

Result<Layout> layOut(std::vector<Blank> blanks, const StockList& stock,
                      const LayoutSettings& settings, const LayoutProgress& progress) {
  if (const Result<void> ok = checkStock(stock); !ok) return tl::unexpected(ok.error());
  Layout layout;
  layout.settings = settings;
  if (stock.boardEndTrim) layout.settings.boardEndTrim = *stock.boardEndTrim;
  if (stock.boardEdgeTrim) layout.settings.boardEdgeTrim = *stock.boardEdgeTrim;
  if (const Result<void> ok = checkJob(blanks, layout.settings); !ok) {
    return tl::unexpected(ok.error());
  }
  layout.blanks = std::move(blanks);
  LayOut(layout, stock, progress).run();
  return layout;
}

}  // namespace dryfit::joinery
