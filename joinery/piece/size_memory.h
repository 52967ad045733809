#pragma once

#include <optional>
#include <vector>

#include "joinery/formula/expression_cache.h"
#include "joinery/piece/size_graph.h"

namespace dryfit::joinery {

/// What `placeParts` keeps of the last state that it could work out, so that the next state takes
/// over each number whose inputs are equal. It is only ever asked by content, so a memory of any
/// other model, or of a state long gone, does no harm.
struct SizeMemory {
  ExpressionCache expressions;
  std::optional<SizeGraph> sizes;
  std::vector<double> values;  ///< numbers of `sizes`

  int numbersWorkedOut = 0;  ///< by the last call
};

}  // namespace dryfit::joinery
