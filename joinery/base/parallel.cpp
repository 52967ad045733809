#include "joinery/base/parallel.h"

#include <algorithm>
#include <atomic>
#include <exception>
#include <optional>
#include <thread>
#include <vector>

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
    } catch (const std::exception& e) {
      return fail(ErrorCode::libraryFailure, e.what());
    }
  }

  std::size_t count_;
  const std::function<Result<void>(std::size_t)>& work_;
  std::vector<std::optional<Error>> errors_;
  std::atomic<std::size_t> next_ = 0, lowestFailed_, done_ = 0;
  std::atomic<bool> stop_ = false;
};

}  // namespace

Result<void> inParallel(std::size_t count, const std::function<Result<void>(std::size_t)>& work,
                        const Progress& progress, unsigned threads) {
  const int all = static_cast<int>(count);
  if (progress && !progress(0, all)) return fail(ErrorCode::cancelled, "stopped");
  Queue queue(count, work);
  {
    if (threads == 0) threads = std::max(1U, std::thread::hardware_concurrency());
    std::vector<std::jthread> helpers;
    for (std::size_t i = 1; i < std::min<std::size_t>(threads, count); ++i) {
      helpers.emplace_back([&queue] {
        while (queue.step()) {
        }
      });
    }
    while (queue.step()) {
      if (progress && !progress(queue.done(), all)) queue.stop();
    }
  }
  if (const auto error = queue.firstError()) return tl::unexpected(*error);
  if (queue.stopped()) return fail(ErrorCode::cancelled, "stopped");
  return {};
}

}  // namespace dryfit::joinery
