#pragma once

#include <csignal>

namespace dryfit::exporting {

/// As long as it lives, an interrupt from the keyboard (SIGINT) ends nothing: it is noted, and long
/// work asks for it and stops by itself. Afterwards an interrupt does what it did before. One at a
/// time; where interrupts were ignored, they still are.
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

}  // namespace dryfit::exporting
