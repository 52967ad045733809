#pragma once

#include <cstdint>
#include <unordered_map>
#include <vector>

#include "joinery/base/progress.h"
#include "joinery/piece/piece.h"
#include "kernel/recipe.h"
#include "kernel/result.h"
#include "kernel/solid.h"

namespace dryfit::joinery {

/// Solids by the recipe they are made by. Parts of equal recipes share one solid, within a state
/// and from state to state; recipes that the last few states did not ask for are dropped.
class SolidStore {
 public:
  /// The solid of every part, by PartId; those not in the store are built, on all cores.
  /// A part of which no wood is left is there uncut (see partsWithoutWood). Errors: as
  /// kernel::build otherwise, `where` names the part; cancelled.
  [[nodiscard]] Result<std::vector<kernel::Solid>> solidsOf(const Piece& piece,
                                                            const Progress& progress = {});
  /// How many the last call built.
  [[nodiscard]] int built() const { return built_; }
  [[nodiscard]] std::size_t size() const { return solids_.size(); }

 private:
  struct Made {
    kernel::Recipe recipe;
    kernel::Solid solid;
    int lastAsked = 0;
  };
  using ByKey = std::unordered_multimap<std::uint64_t, Made>;
  [[nodiscard]] Made* find(std::uint64_t key, const kernel::Recipe& recipe);
  void dropOld();

  ByKey solids_;
  int state_ = 0, built_ = 0;
};

}  // namespace dryfit::joinery
