#pragma once

#include <cstdlib>

namespace dryfit::test {

/// How often a random test is repeated: `full` times, or the share of it that the environment
/// variable DRYFIT_REPETITIONS names in percent, but once at least. The sanitizers, under which
/// everything takes several times as long, ask for a tenth (CMakePresets.json). What is no number
/// above 0 counts as 100.
[[nodiscard]] inline int repetitions(int full) {
  const char* given = std::getenv("DRYFIT_REPETITIONS");
  const long percent = given == nullptr ? 0 : std::strtol(given, nullptr, 10);
  if (percent <= 0) return full;
  const long share = full * percent / 100;
  return share < 1 ? 1 : static_cast<int>(share);
}

}  // namespace dryfit::test
