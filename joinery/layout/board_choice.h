#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "joinery/layout/board_cover.h"

namespace dryfit::joinery::cutting {

/// Which boards to take at least cost, by rules that any good set of boards satisfies.
struct BoardChoice {
  std::vector<double> costs;  ///< of each kind of board
  std::vector<int> counts;    ///< how many there are of it
  std::vector<CoverRule> rules;
  std::vector<std::vector<int>> tried;  ///< sets that will not do, nor any part of them
  double aim = 1;  ///< what the rules' sums are to reach; more than 1 leaves room to spare
};

struct ChosenBoards {
  std::vector<int> boards;  ///< how many of each kind; empty: no set was found
  double bound = 0;         ///< no set that satisfies all costs less; 1e300 where there is none
};

struct ChoiceSearch {
  int nodesMost = 3'000;
  std::function<bool()> goOn{};  ///< false: stop with the bound so far
};

/// Integer program, by branch and cut.
[[nodiscard]] ChosenBoards chooseBoards(const BoardChoice& choice, const ChoiceSearch& search);

}  // namespace dryfit::joinery::cutting
