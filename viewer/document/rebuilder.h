#pragma once

#include <QObject>
#include <atomic>
#include <condition_variable>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>

#include "joinery/fit/live_fit.h"
#include "viewer/view/assembled.h"

namespace dryfit::viewer {

/// Dry fits a model on a thread of its own, redoing only what depends on what changed.
///
/// A newer request stops the one being worked on, but never two in a row: while a number is dragged
/// faster than a piece can be fitted, every other state is carried through and shown. An answer
/// that waits to be taken while a newer one is there is left out. Answers come in the order of
/// their requests, always on the thread this object lives on; an error is told of the newest
/// request only.
class Rebuilder : public QObject {
  Q_OBJECT
 public:
  explicit Rebuilder(QObject* parent = nullptr);
  ~Rebuilder() override;

  void request(const joinery::Model& model, joinery::Basis basis, joinery::Unit unit);
  /// From here on nothing is told of the requests made so far: they were for another piece.
  void forgetRequests() { forgotten_ = latest_; }
  /// True from a request until the answer to the newest one is delivered.
  [[nodiscard]] bool isBusy() const { return delivered_ != latest_; }

 Q_SIGNALS:
  void built(std::shared_ptr<const dryfit::viewer::Assembled> assembled);
  void failed(const dryfit::Error& error);

 private:
  struct Request {
    quint64 serial = 0;
    joinery::Model model;
    joinery::Basis basis = joinery::Basis::drawn;
    joinery::Unit unit = joinery::Unit::mm;
  };
  using Answer = Result<std::shared_ptr<const Assembled>>;

  void work(const std::stop_token& stop);
  Answer build(const Request& request, const std::stop_token& stop);
  void deliver(quint64 serial, const Answer& answer);

  // Touched by the owner's thread only.
  quint64 latest_ = 0, delivered_ = 0, forgotten_ = 0;
  std::mutex mutex_;
  std::condition_variable_any wake_;
  std::optional<Request> waiting_;            // guarded by mutex_
  std::atomic<quint64> finished_ = 0;         // newest request that was built
  joinery::LiveFit live_;                     // touched by the worker only
  bool overtaken_ = false;                    // the last build was; touched by the worker only
  std::shared_ptr<const Assembled> earlier_;  // touched by the worker only
  std::jthread worker_;                       // last: joined before the rest goes
};

}  // namespace dryfit::viewer
