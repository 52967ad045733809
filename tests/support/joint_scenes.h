#pragma once

#include <random>
#include <string>
#include <vector>

#include "tests/support/joint_bench.h"

namespace dryfit::test {

/// Two or more parts of random size that one joint holds together.
struct JointScene {
  ModelText text;
  std::string kind;
  std::string second;  ///< the part that may be turned out of square
  std::string square;  ///< axis about which it may turn with its face staying parallel
  std::vector<std::string> slanting;  ///< axes about which it may turn so that its face slants
  std::array<double, 3> at{};         ///< a point of the contact
};

/// The names of all joint kinds for which scenes are made: all of the table.
[[nodiscard]] std::vector<std::string> sceneKinds();
[[nodiscard]] JointScene randomScene(const std::string& kind, std::mt19937_64& random);

}  // namespace dryfit::test
