#include "joinery/base/parallel.h"

#include <algorithm>
#include <atomic>
#include <optional>
#include <system_error>
#include <thread>
#include <vector>

#include "kernel/caught.h"

namespace dryfit::joinery {
namespace {

/// Work handed out in rising order, and what came of it.
class Queue {
 public:
  Queue(std::size_t count, const std::function<Result<void>(std::size_t)>& work)
      : count_(count), work_(work), errors_(count), lowestFailed_(count) {}

  /// Takes and does one piece of work; false when there is none left to take.
  bool step() {
    if (stop_) return false;
    const std::size_t i = next_++;
    // All below a failed one have been handed out already and will be finished, so the lowest
    // failure is the same on any number of threads.
    if (i >= count_ || i > lowestFailed_) return false;
    if (Result<void> done = attempt(i); !done) {
      errors_[i] = std::move(done.error());
      std::size_t lowest = lowestFailed_;
      while (i < lowest && !lowestFailed_.compare_exchange_weak(lowest, i)) {
      }
    }
    ++done_;
    return true;
  }

  void stop() { stop_ = true; }
  [[nodiscard]] bool stopped() const { return stop_; }
  [[nodiscard]] int done() const { return static_cast<int>(done_.load()); }
  [[nodiscard]] std::optional<Error> firstError() const {
    return lowestFailed_ < count_ ? errors_[lowestFailed_] : std::nullopt;
  }

 private:
  Result<void> attempt(std::size_t i) const {
    try {
      return work_(i);
    } catch (...) {  // an exception that left a thread would end the program
      return fail(ErrorCode::libraryFailure, kernel::caughtText());
    }
  }

  std::size_t count_;
  const std::function<Result<void>(std::size_t)>& work_;
  std::vector<std::optional<Error>> errors_;
  std::atomic<std::size_t> next_ = 0, lowestFailed_, done_ = 0;
  std::atomic<bool> stop_ = false;
};

/// Threads that help with the queue. Fewer threads than asked for where the system has no more of
/// them.
std::vector<std::jthread> helpersFor(Queue& queue, std::size_t count) {
  std::vector<std::jthread> helpers;
  try {
    while (helpers.size() < count) {
      helpers.emplace_back([&queue] {
        while (queue.step()) {
        }
      });
    }
  } catch (const std::system_error&) {
    return helpers;  // slower, but the same
  }
  return helpers;
}

}  // namespace

Result<void> inParallel(std::size_t count, const std::function<Result<void>(std::size_t)>& work,
                        const Progress& progress, unsigned threads) {
  const int all = static_cast<int>(count);
  if (progress && !progress(0, all)) return fail(ErrorCode::cancelled, "stopped");
  Queue queue(count, work);
  {
    if (threads == 0) threads = std::max(1U, std::thread::hardware_concurrency());
    const std::size_t hands = std::min<std::size_t>(threads, std::max<std::size_t>(count, 1));
    const auto helpers = helpersFor(queue, hands - 1);
    try {
      while (queue.step()) {
        if (progress && !progress(queue.done(), all)) queue.stop();
      }
    } catch (...) {
      queue.stop();  // or the helpers would do all the rest before they are joined
      throw;
    }
  }
  if (const auto error = queue.firstError()) return tl::unexpected(*error);
  if (queue.stopped()) return fail(ErrorCode::cancelled, "stopped");
  return {};
}

}  // namespace dryfit::joinery
