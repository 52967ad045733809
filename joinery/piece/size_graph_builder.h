#pragma once

#include <array>
#include <map>
#include <string>

#include "joinery/piece/size_graph.h"

namespace dryfit::joinery {

/// Builds a SizeGraph: first all names, then what each of them reads.
class SizeGraphBuilder {
 public:
  SizeGraphBuilder(const Model& model, Basis basis, ExpressionCache& expressions);
  [[nodiscard]] Result<SizeGraph> build();

 private:
  using Id = DependencyGraph::Id;
  /// The three numbers of one span.
  struct SpanIds {
    Id near = 0, far = 0, size = 0;
  };
  /// A size that replaces the drawn one, and where the model says it.
  struct SizeGiven {
    Expression value;
    std::string place;
  };

  Id add(const std::string& name, const std::string& place, bool isSize);
  void addNames();
  [[nodiscard]] Result<void> checkSpans(const Part& part) const;
  [[nodiscard]] Result<void> checkNames(const Expression& expression,
                                        const std::string& place) const;
  [[nodiscard]] Result<void> checkSpanNames(const Span& span, const std::string& place) const;
  void define(Id id, SizeFormula formula);
  void defineDimensions();
  void defineMaterials();
  void definePart(const Part& part);
  void defineSpan(const Span& span, const SpanIds& ids, const std::string& place,
                  std::optional<SizeGiven> measured, std::optional<Id> material);
  void defineEnds(const Span& span, const SpanIds& ids, const std::string& place);
  [[nodiscard]] std::optional<SizeGiven> measuredSize(const Part& part, SizeName size) const;
  /// What the part's mark fixes.
  [[nodiscard]] std::optional<SizeGiven> madeSizeOf(const Part& part, SizeName size) const;
  [[nodiscard]] std::optional<SizeGiven> measured(Measurement::Scope scope, const std::string& name,
                                                  SizeName size) const;

  const Model& model_;
  Basis basis_;
  ExpressionCache& expressions_;
  SizeGraph sizes_;
  std::map<std::pair<std::string, std::string>, const Measurement*> measurements_;
  std::map<std::string, const Mark*> marks_;  ///< by part
};

}  // namespace dryfit::joinery
