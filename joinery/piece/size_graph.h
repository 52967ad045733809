#pragma once

#include <array>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "joinery/base/dependency_graph.h"
#include "joinery/formula/expression_cache.h"
#include "joinery/model/model.h"
#include "joinery/piece/piece.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// How one number is worked out: factor * expression + the sum of factor * number, in mm.
struct SizeFormula {
  std::optional<Expression> expression;
  std::string place;  ///< of the expression
  double factor = 1;
  std::vector<std::pair<double, DependencyGraph::Id>> terms;
  friend bool operator==(const SizeFormula&, const SizeFormula&) = default;
};

/// Every number of a model's dimensions, materials and parts, with how it is worked out.
///
/// Names: a dimension's own, MATERIAL.thickness, PART.left right front back bottom top, PART.length
/// width thickness.
class SizeGraph {
 public:
  /// With Basis::measured, real sizes stand in for drawn ones: what a part's mark fixes over its
  /// own measured size, that over its batch's, the batch's over the material's; the latter two only
  /// where a part leaves its thickness to the material. A span then keeps `centre` where it is
  /// given, else `from`, else `to`. Errors: spansUnfit (spans not on three axes, not two of from,
  /// to, size and centre), unknownName, badExpression.
  [[nodiscard]] static Result<SizeGraph> build(const Model& model, Basis basis);
  [[nodiscard]] static Result<SizeGraph> build(const Model& model, Basis basis,
                                               ExpressionCache& expressions);

  [[nodiscard]] const DependencyGraph& graph() const { return graph_; }
  [[nodiscard]] const SizeFormula& formula(DependencyGraph::Id id) const { return formulas_[id]; }
  [[nodiscard]] Unit unit() const { return unit_; }

  /// Numbers by id, in mm. Errors: cycle, badExpression, badDimension.
  [[nodiscard]] Result<std::vector<double>> values() const;
  /// The same. A number of `earlier` (may be null), whose numbers are `earlierValues`, is taken
  /// over where its formula is the same and nothing that it reads has changed; the rest are worked
  /// out and counted in `workedOut`.
  [[nodiscard]] Result<std::vector<double>> values(ExpressionCache& expressions,
                                                   const SizeGraph* earlier,
                                                   const std::vector<double>& earlierValues,
                                                   int& workedOut) const;
  /// One number from those it reads. Errors: badExpression, badDimension.
  [[nodiscard]] Result<double> value(DependencyGraph::Id id,
                                     const std::vector<double>& known) const;

 private:
  friend class SizeGraphBuilder;
  [[nodiscard]] bool hasNamesOf(const SizeGraph& other) const;
  [[nodiscard]] Result<double> value(DependencyGraph::Id id, const std::vector<double>& known,
                                     ExpressionCache& expressions) const;

  DependencyGraph graph_;
  std::vector<SizeFormula> formulas_;
  std::vector<bool> isSize_;  ///< must be greater than nothing
  Unit unit_ = Unit::mm;
};

}  // namespace dryfit::joinery
