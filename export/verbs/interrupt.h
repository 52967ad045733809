#pragma once

#include <csignal>

#include "joinery/base/progress.h"

namespace dryfit::exporting {

/// As long as it lives, the first interrupt from the keyboard (SIGINT) ends nothing: it is noted,
/// and long work asks for it and stops by itself. A second ends the program at once. Afterwards an
/// interrupt does what it did before. One at a time; where interrupts were ignored, they still are.
class InterruptWatch {
 public:
  InterruptWatch();
  InterruptWatch(const InterruptWatch&) = delete;
  InterruptWatch& operator=(const InterruptWatch&) = delete;
  ~InterruptWatch();

  /// May be called from any thread.
  [[nodiscard]] static bool interrupted();

 private:
  struct sigaction before_ {};
};

/// The same progress, which also stops the work when it was interrupted.
[[nodiscard]] joinery::Progress untilInterrupted(joinery::Progress progress);

}  // namespace dryfit::exporting
