#pragma once

#include <functional>

namespace dryfit::joinery {

/// Asked between steps; return false to stop. `done` of `all` steps are finished.
using Progress = std::function<bool(int done, int all)>;

}  // namespace dryfit::joinery
