#include "viewer/document/rebuilder.h"

#include <utility>

#include "export/words/failure_words.h"
#include "viewer/view/part_shapes.h"

namespace dryfit::viewer {

Rebuilder::Rebuilder(QObject* parent)
    : QObject(parent), worker_([this](const std::stop_token& stop) { work(stop); }) {}

Rebuilder::~Rebuilder() {
  worker_.request_stop();
  worker_.join();
}

void Rebuilder::request(const joinery::Model& model, joinery::Basis basis, joinery::Unit unit) {
  ++latest_;
  {
    const std::scoped_lock lock(mutex_);
    waiting_ = Request{latest_, model, basis, unit};
  }
  wake_.notify_one();
}

void Rebuilder::work(const std::stop_token& stop) {
  while (!stop.stop_requested()) {
    Request request;
    {
      std::unique_lock lock(mutex_);
      if (!wake_.wait(lock, stop, [this] { return waiting_.has_value(); })) return;
      request = *std::exchange(waiting_, std::nullopt);
    }
    Answer answer = build(request, stop);
    overtaken_ = !answer && answer.error().code == ErrorCode::cancelled;
    if (answer) {
      earlier_ = *answer;
      finished_ = request.serial;
    }
    QMetaObject::invokeMethod(
        this,
        [this, serial = request.serial, answer = std::move(answer)] { deliver(serial, answer); },
        Qt::QueuedConnection);
  }
}

Rebuilder::Answer Rebuilder::build(const Request& request, const std::stop_token& stop) {
  const auto goOn = [this, &stop](int, int) {
    const std::scoped_lock lock(mutex_);
    return !stop.stop_requested() && (overtaken_ || !waiting_.has_value());
  };
  // The edge between the libraries, which throw, and the window, which does not.
  try {
    auto fit = live_.update(request.model, request.basis, goOn, request.unit);
    if (!fit) return tl::unexpected<Error>(fit.error());
    auto shapes = makePartShapes(**fit, earlier_ ? earlier_->fit.get() : nullptr,
                                 earlier_ ? earlier_->shapes.get() : nullptr);
    return std::make_shared<const Assembled>(Assembled{std::move(*fit), std::move(shapes)});
  } catch (...) {
    return fail(ErrorCode::libraryFailure, exporting::failureWords());
  }
}

void Rebuilder::deliver(quint64 serial, const Answer& answer) {
  if (serial <= forgotten_) return;
  if (answer) {
    if (serial < finished_) return;
    delivered_ = serial;
    Q_EMIT built(*answer);
  } else if (serial == latest_) {
    delivered_ = serial;
    Q_EMIT failed(answer.error());
  }
}

}  // namespace dryfit::viewer
