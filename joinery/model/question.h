#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "joinery/formula/expression.h"

namespace dryfit::joinery {

/// What a new piece asks of its maker, as it is written at a dimension.
struct Question {
  std::string ask;  ///< "How wide?"
  std::optional<Expression> least, greatest;
  std::string whyLeast, whyGreatest;                    ///< they are where they are; may be empty
  std::vector<std::pair<std::string, double>> options;  ///< words, and the number each stands for
};

/// A word that the maker chooses: a wood.
struct WordChoice {
  std::string name;
  std::string ask;  ///< empty: not asked for
  std::string value;
  std::vector<std::string> options;
  std::string note;
};

}  // namespace dryfit::joinery
