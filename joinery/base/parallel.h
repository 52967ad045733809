#pragma once

#include <cstddef>
#include <functional>

#include "joinery/base/progress.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// Calls `work(i)` once for each i below `count`, on `threads` threads (0: as many as the machine
/// has cores). The calling thread works too and alone asks `progress`.
///
/// Results do not depend on the number of threads as long as `work(i)` writes to the i-th place
/// only. Error: that of the lowest i that failed, whatever thread met it first; cancelled when
/// `progress` said stop and nothing failed. Whatever `work` throws, on any thread, is the error
/// libraryFailure of its i; what `progress` throws comes out once all threads have ended.
[[nodiscard]] Result<void> inParallel(std::size_t count,
                                      const std::function<Result<void>(std::size_t)>& work,
                                      const Progress& progress = {}, unsigned threads = 0);

}  // namespace dryfit::joinery
