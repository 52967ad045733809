#pragma once

#include <nlohmann/json.hpp>
#include <random>

namespace dryfit::test {

/// One piece written twice: with sub-assemblies described once, nested up to three deep, mirrored,
/// repeated, with conditions; and part by part in plain numbers. The second is worked out here by
/// arithmetic of its own, so that it may judge the first.
struct TwoWays {
  nlohmann::ordered_json assembled, flat;
};

[[nodiscard]] TwoWays randomAssembly(std::mt19937_64& random);

}  // namespace dryfit::test
