#include "joinery/size_graph.h"

#include <cmath>

#include "joinery/expression.h"
#include "joinery/size_graph_builder.h"
#include "joinery/size_limits.h"

namespace dryfit::joinery {

Result<SizeGraph> SizeGraph::build(const Model& model, Basis basis) {
  return SizeGraphBuilder(model, basis).build();
}

Result<double> SizeGraph::value(DependencyGraph::Id id, const std::vector<double>& known) const {
  const SizeFormula& formula = formulas_[id];
  const std::string& place = formula.place.empty() ? graph_.node(id).place : formula.place;
  double sum = 0;
  if (formula.expression) {
    const auto lookup = [&](const std::string& name) -> std::optional<double> {
      const auto source = graph_.find(name);
      if (!source) return std::nullopt;
      return known[*source];
    };
    const Result<double> own = evaluateLength(*formula.expression, unit_, lookup);
    if (!own) return tl::unexpected(own.error().within(place));
    sum = formula.factor * *own;
  }
  for (const auto& [factor, source] : formula.terms) sum += factor * known[source];
  const bool shape = isSize_[id] || graph_.node(id).name.find('.') != std::string::npos;
  const Result<void> fine = isSize_[id] ? checkSize(sum)
                            : shape     ? checkCoordinate(sum)
                                        : Result<void>();
  if (!fine) return tl::unexpected(fine.error().within(place));
  return sum;
}

Result<std::vector<double>> SizeGraph::values() const {
  const Result<std::vector<DependencyGraph::Id>> order = graph_.order();
  if (!order) return tl::unexpected(order.error());
  std::vector<double> values(graph_.nodes().size());
  for (const DependencyGraph::Id id : *order) {
    const Result<double> found = value(id, values);
    if (!found) return tl::unexpected(found.error());
    values[id] = *found;
  }
  return values;
}

}  // namespace dryfit::joinery
