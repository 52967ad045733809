#pragma once

#include <functional>

namespace dryfit::testing {

/// Runs `work` in a process of its own that is killed (SIGKILL) right before its n-th system call
/// that changes what is on a disk, counted from 1. False where it came to its end first.
[[nodiscard]] bool killedBefore(int n, const std::function<void()>& work);

}  // namespace dryfit::testing
