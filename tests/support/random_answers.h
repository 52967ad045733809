#pragma once

#include <random>
#include <string>
#include <vector>

#include "joinery/file/model_file.h"
#include "joinery/file/starters.h"

namespace dryfit::test {

/// The starters that come with the program.
[[nodiscard]] std::vector<joinery::Starter> builtInStarters();

/// The model of a starter; fails the test where it is none.
[[nodiscard]] joinery::ModelFile starterFile(const joinery::Starter& starter);

/// Answers each question in turn within the bounds that hold by then: at a bound as often as not.
/// `answers` is added what was answered.
[[nodiscard]] joinery::ModelFile answeredAtRandom(joinery::ModelFile file, std::mt19937_64& random,
                                                  std::string& answers);

}  // namespace dryfit::test
