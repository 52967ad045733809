#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "joinery/file/questions.h"
#include "joinery/file/starters.h"
#include "joinery/fit/dry_fit.h"

namespace dryfit::exporting {

/// The questions as a table: name, what is asked, the answer now, the bounds.
[[nodiscard]] std::string questionTable(const std::vector<joinery::AskedQuestion>& questions,
                                        joinery::Unit unit);
/// One question at a prompt: "How wide? [1600 mm, from 900 to 2600] ".
[[nodiscard]] std::string questionLine(const joinery::AskedQuestion& question, joinery::Unit unit);
/// An answer's bounds: "900 to 2600 mm", "with, without"; may be empty.
[[nodiscard]] std::string boundWords(const joinery::AskedQuestion& question, joinery::Unit unit);
/// The answer that it has: "1600 mm", "white oak".
[[nodiscard]] std::string answerWords(const joinery::AskedQuestion& question, joinery::Unit unit);

/// A starter with its questions: lengths in mm.
[[nodiscard]] nlohmann::ordered_json starterJson(
    const joinery::Starter& starter, const joinery::Model& model,
    const std::vector<joinery::AskedQuestion>& questions);

/// What was begun: sizes, how much there is to it, what the check found, where it lies.
[[nodiscard]] std::string begunText(const joinery::DryFit& fit, joinery::Unit unit,
                                    const std::string& file);
[[nodiscard]] std::string begunJson(const joinery::Model& model, const joinery::DryFit& fit,
                                    const std::string& starter, const std::string& file);

}  // namespace dryfit::exporting
