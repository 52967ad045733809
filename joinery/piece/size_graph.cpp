#include "joinery/piece/size_graph.h"

#include <algorithm>

#include "joinery/base/size_limits.h"
#include "joinery/piece/size_graph_builder.h"

namespace dryfit::joinery {

Result<SizeGraph> SizeGraph::build(const Model& model, Basis basis) {
  ExpressionCache expressions;
  return build(model, basis, expressions);
}

Result<SizeGraph> SizeGraph::build(const Model& model, Basis basis, ExpressionCache& expressions) {
  return SizeGraphBuilder(model, basis, expressions).build();
}

Result<double> SizeGraph::value(DependencyGraph::Id id, const std::vector<double>& known) const {
  ExpressionCache expressions;
  return value(id, known, expressions);
}

Result<double> SizeGraph::value(DependencyGraph::Id id, const std::vector<double>& known,
                                ExpressionCache& expressions) const {
  const SizeFormula& formula = formulas_[id];
  const std::string& place = formula.place.empty() ? graph_.node(id).place : formula.place;
  double sum = 0;
  if (formula.expression) {
    const auto lookup = [&](const std::string& name) -> std::optional<double> {
      const auto source = graph_.find(name);
      if (!source) return std::nullopt;
      return known[*source];
    };
    const Result<double> own = expressions.evaluateLength(*formula.expression, unit_, lookup);
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

bool SizeGraph::hasNamesOf(const SizeGraph& other) const {
  const auto& a = graph_.nodes();
  const auto& b = other.graph_.nodes();
  return unit_ == other.unit_ && isSize_ == other.isSize_ &&
         std::ranges::equal(a, b, {}, &DependencyGraph::Node::name, &DependencyGraph::Node::name);
}

Result<std::vector<double>> SizeGraph::values() const {
  ExpressionCache expressions;
  int workedOut = 0;
  return values(expressions, nullptr, {}, workedOut);
}

Result<std::vector<double>> SizeGraph::values(ExpressionCache& expressions,
                                              const SizeGraph* earlier,
                                              const std::vector<double>& earlierValues,
                                              int& workedOut) const {
  const Result<std::vector<DependencyGraph::Id>> order = graph_.order();
  if (!order) return tl::unexpected(order.error());
  if (earlier != nullptr && !hasNamesOf(*earlier)) earlier = nullptr;
  std::vector<double> values(graph_.nodes().size());
  std::vector<bool> changed(values.size(), true);
  for (const DependencyGraph::Id id : *order) {
    const std::vector<DependencyGraph::Id>& reads = graph_.node(id).reads;
    const bool same = earlier != nullptr && formulas_[id] == earlier->formulas_[id] &&
                      std::ranges::none_of(reads, [&](auto source) { return changed[source]; });
    if (same) {
      values[id] = earlierValues[id];
      changed[id] = false;
      continue;
    }
    const Result<double> found = value(id, values, expressions);
    if (!found) return tl::unexpected(found.error());
    ++workedOut;
    values[id] = *found;
    changed[id] = earlier == nullptr || *found != earlierValues[id];
  }
  return values;
}

}  // namespace dryfit::joinery
