#include "export/verbs/interrupt.h"

#include <atomic>
#include <utility>

namespace dryfit::exporting {

namespace {

// A signal handler reaches nothing but what is global.
std::atomic<bool> noted = false;  // NOLINT(*-avoid-non-const-global-variables)
static_assert(std::atomic<bool>::is_always_lock_free, "safe in a signal handler");

void note(int /*signal*/) {
  noted = true;
}

}  // namespace

InterruptWatch::InterruptWatch() {
  noted = false;
  struct sigaction watch {};
  watch.sa_handler = note;
  watch.sa_flags = SA_RESTART | static_cast<int>(SA_RESETHAND);
  sigemptyset(&watch.sa_mask);
  sigaction(SIGINT, &watch, &before_);
  if (before_.sa_handler == SIG_IGN) sigaction(SIGINT, &before_, nullptr);
}

InterruptWatch::~InterruptWatch() {
  sigaction(SIGINT, &before_, nullptr);
}

bool InterruptWatch::interrupted() {
  return noted;
}

joinery::Progress untilInterrupted(joinery::Progress progress) {
  return [progress = std::move(progress)](int done, int all) {
    return (!progress || progress(done, all)) && !InterruptWatch::interrupted();
  };
}

}  // namespace dryfit::exporting
