#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "joinery/file/authored_part.h"
#include "joinery/file/expression_words.h"
#include "joinery/file/name_steps.h"

namespace dryfit::joinery {

/// Where the texts of a document name one part.
class NamedPart {
 public:
  NamedPart(const JsonNode& document, Authored part) : steps_(document), part_(std::move(part)) {}

  /// Where the part's own name begins in a name that is written in `scope`: 9 in
  /// "drawer_2.front.top"; nothing in a name of something else.
  [[nodiscard]] std::optional<std::size_t> at(std::string_view name,
                                              const std::string& scope) const {
    for (const NameStep& step : steps_.of(name, scope)) {
      if (step.kind == NameStep::Kind::part && step.scope == part_.scope &&
          step.name == part_.name) {
        return step.at;
      }
    }
    return std::nullopt;
  }
  /// True where an expression names it.
  [[nodiscard]] bool isIn(const std::string& expression, const std::string& scope) const {
    bool named = false;
    (void)withWords(expression, [&](std::string_view word) {
      named = named || at(word, scope).has_value();
      return std::string(word);
    });
    return named;
  }
  [[nodiscard]] const Authored& part() const { return part_; }
  [[nodiscard]] const NameSteps& steps() const { return steps_; }

 private:
  NameSteps steps_;
  Authored part_;
};

}  // namespace dryfit::joinery
