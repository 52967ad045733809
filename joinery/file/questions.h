#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "joinery/file/model_file.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// What a model asks for, with its bounds worked out for the answers that it has now.
struct AskedQuestion {
  enum class Kind { length, angle, number, count, choice };
  std::string name;  ///< of the dimension or choice
  std::string ask;
  Kind kind = Kind::length;
  std::string value;                      ///< the answer that it has, as written
  std::optional<double> number;           ///< the same: mm, degrees or a plain number
  std::optional<double> least, greatest;  ///< mm, degrees or plain numbers
  std::string whyLeast, whyGreatest;      ///< with lengths in braces, as the author wrote them
  /// The answers that the bounds hang on, as "height": other answers give other bounds.
  std::vector<std::string> leastHangsOn, greatestHangsOn;
  std::vector<std::string> options;  ///< of a choice
};

/// "length", "angle", "number", "count" or "choice".
[[nodiscard]] std::string_view nameOf(AskedQuestion::Kind kind);

/// Why there are bounds, with its lengths in `unit`; both reasons where they differ; may be empty.
[[nodiscard]] std::string reasonWords(const AskedQuestion& question, Unit unit);

/// The questions in the order in which the model names them: dimensions, then choices. Errors:
/// those of the bounds' expressions.
[[nodiscard]] Result<std::vector<AskedQuestion>> questionsOf(const ModelFile& file);

/// Answers by the questions' names.
using Answers = std::vector<std::pair<std::string, std::string>>;

/// The same model with these answers, all taken at once. Lengths without a unit are in `unit`.
/// Errors: unknownName, badExpression, badDimension (all answers out of their bounds, and what
/// those hang on), and those of the model with these answers.
[[nodiscard]] Result<ModelFile> answered(const ModelFile& file, const Answers& answers, Unit unit);

}  // namespace dryfit::joinery
