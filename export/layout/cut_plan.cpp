#include "export/layout/cut_plan.h"

#include <algorithm>
#include <map>

namespace dryfit::exporting {

using joinery::FlatRect;
using joinery::StockLayout;

namespace {

constexpr double kSlack = 0.05;  ///< mm, for sums of sizes

bool holds(const FlatRect& outer, const FlatRect& inner) {
  return inner.x >= outer.x - kSlack && inner.y >= outer.y - kSlack &&
         inner.farX() <= outer.farX() + kSlack && inner.farY() <= outer.farY() + kSlack;
}

class CutReader {
 public:
  CutReader(const LayoutJob& job, const StockLayout& one) : job_(job), one_(one) {
    pieces_.emplace(0, boundsOfStock(job.itemOf(one)));
    for (std::size_t k = 0; k < one.cuts.size(); ++k) {
      const joinery::Cut& cut = one.cuts[k];
      const auto found = pieces_.find(cut.piece);
      if (found == pieces_.end()) continue;
      cutBy_[cut.piece] = static_cast<int>(k);
      const auto [near, far] = halves(found->second, cut);
      pieces_[static_cast<int>(2 * k + 1)] = near;
      pieces_[static_cast<int>(2 * k + 2)] = far;
    }
  }

  [[nodiscard]] std::vector<CutStep> steps() const {
    std::vector<CutStep> steps;
    for (std::size_t k = 0; k < one_.cuts.size(); ++k) {
      const joinery::Cut& cut = one_.cuts[k];
      if (!pieces_.contains(cut.piece)) continue;
      const int near = static_cast<int>(2 * k + 1);
      CutStep step;
      step.number = static_cast<int>(k) + 1;
      step.across = cut.across;
      step.of = pieceName(cut.piece);
      step.piece = pieces_.at(cut.piece);
      step.at = cut.at;
      step.setting = cut.at - (cut.across ? step.piece.x : step.piece.y);
      step.trims = blanksIn(near).empty();
      step.near = contentOf(near);
      step.far = contentOf(near + 1);
      steps.push_back(std::move(step));
    }
    return steps;
  }

 private:
  [[nodiscard]] std::pair<FlatRect, FlatRect> halves(FlatRect piece,
                                                     const joinery::Cut& cut) const {
    FlatRect near = piece;
    FlatRect far = piece;
    const double after = cut.at + job_.kerfIn(one_);
    if (cut.across) {
      near.length = std::max(0.0, cut.at - piece.x);
      far.x = after;
      far.length = std::max(0.0, piece.farX() - after);
    } else {
      near.width = std::max(0.0, cut.at - piece.y);
      far.y = after;
      far.width = std::max(0.0, piece.farY() - after);
    }
    return {near, far};
  }

  [[nodiscard]] std::vector<int> blanksIn(int piece) const {
    std::vector<int> inside;
    for (const auto& placed : one_.blanks) {
      if (holds(pieces_.at(piece), placed.at)) inside.push_back(placed.blank);
    }
    return inside;
  }

  [[nodiscard]] static std::string pieceName(int piece) {
    if (piece == 0) return "whole";
    return std::to_string((piece + 1) / 2) + (piece % 2 == 1 ? "a" : "b");
  }

  [[nodiscard]] std::string contentOf(int piece) const {
    if (cutBy_.contains(piece)) return pieceName(piece);
    const std::vector<int> inside = blanksIn(piece);
    if (!inside.empty()) {
      const int number = job_.factsOf(inside.front()).number;
      return number > 0 ? "No. " + std::to_string(number) : job_.nameOfBlank(inside.front());
    }
    const bool kept = std::ranges::any_of(
        one_.offcuts, [&](const FlatRect& r) { return holds(pieces_.at(piece), r); });
    return kept ? "offcut" : "waste";
  }

  const LayoutJob& job_;
  const StockLayout& one_;
  std::map<int, FlatRect> pieces_;
  std::map<int, int> cutBy_;  ///< cut of a piece
};

}  // namespace

std::vector<CutStep> cutStepsOf(const LayoutJob& job, const StockLayout& one) {
  return CutReader(job, one).steps();
}

}  // namespace dryfit::exporting
