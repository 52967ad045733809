#pragma once

#include <QByteArray>
#include <QObject>
#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>

#include "export/drawing/view_memory.h"
#include "joinery/fit/dry_fit.h"
#include "joinery/model/model.h"

namespace dryfit::viewer {

/// The sheet of the part, with those made alike, or of the whole piece where none is given, as SVG.
/// May throw what the geometry library throws.
[[nodiscard]] Result<QByteArray> svgSheet(const joinery::DryFit& fit, joinery::Unit unit,
                                          std::optional<joinery::PartId> part,
                                          exporting::ViewMemory& memory);

/// Draws sheets on a thread of its own; pictures that did not change since earlier sheets are taken
/// over. Only the answer to the newest wish is delivered, on the thread this object lives on.
class Draughtsman : public QObject {
  Q_OBJECT
 public:
  /// What draws a sheet. Whatever it throws becomes a `failed`.
  using Pen =
      std::function<Result<QByteArray>(const joinery::DryFit&, joinery::Unit,
                                       std::optional<joinery::PartId>, exporting::ViewMemory&)>;
  explicit Draughtsman(QObject* parent = nullptr, Pen pen = svgSheet);
  ~Draughtsman() override;

  /// The drawing of the part, with those made alike, or of the whole piece where none is given.
  void draw(std::shared_ptr<const joinery::DryFit> fit, joinery::Unit unit,
            std::optional<joinery::PartId> part);

 Q_SIGNALS:
  void drawn(const QByteArray& svg);
  void failed(const QString& line);

 private:
  struct Wish {
    quint64 serial = 0;
    std::shared_ptr<const joinery::DryFit> fit;
    joinery::Unit unit = joinery::Unit::mm;
    std::optional<joinery::PartId> part;
  };
  void work(const std::stop_token& stop);
  [[nodiscard]] Result<QByteArray> sheetFor(const Wish& wish);

  Pen pen_;             // touched by the worker only
  quint64 latest_ = 0;  // touched by the owner's thread only
  std::mutex mutex_;
  std::condition_variable_any wake_;
  std::optional<Wish> waiting_;                      // guarded by mutex_
  exporting::ViewMemory memory_;                     // touched by the worker only
  std::shared_ptr<const joinery::DryFit> drawnFit_;  // touched by the worker only
  std::jthread worker_;                              // last: joined before the rest goes
};

}  // namespace dryfit::viewer
