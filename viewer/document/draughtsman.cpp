#include "viewer/document/draughtsman.h"

#include <algorithm>
#include <utility>

#include "export/drawing/assembly_drawing.h"
#include "export/drawing/part_drawing.h"
#include "export/drawing/stop_banner.h"
#include "export/drawing/svg_writer.h"
#include "export/words/failure_words.h"
#include "joinery/piece/part_list.h"

namespace dryfit::viewer {

Draughtsman::Draughtsman(QObject* parent, Pen pen)
    : QObject(parent),
      pen_(std::move(pen)),
      worker_([this](const std::stop_token& stop) { work(stop); }) {}

Draughtsman::~Draughtsman() {
  worker_.request_stop();
  worker_.join();
}

void Draughtsman::draw(std::shared_ptr<const joinery::DryFit> fit, joinery::Unit unit,
                       std::optional<joinery::PartId> part) {
  ++latest_;
  {
    const std::scoped_lock lock(mutex_);
    waiting_ = Wish{latest_, std::move(fit), unit, part};
  }
  wake_.notify_one();
}

void Draughtsman::work(const std::stop_token& stop) {
  while (!stop.stop_requested()) {
    Wish wish;
    {
      std::unique_lock lock(mutex_);
      if (!wake_.wait(lock, stop, [this] { return waiting_.has_value(); })) return;
      wish = *std::exchange(waiting_, std::nullopt);
    }
    auto sheet = sheetFor(wish);
    QMetaObject::invokeMethod(
        this,
        [this, serial = wish.serial, sheet = std::move(sheet)] {
          if (serial != latest_) return;
          if (sheet) {
            Q_EMIT drawn(*sheet);
          } else {
            Q_EMIT failed(QString::fromStdString(sheet.error().line()));
          }
        },
        Qt::QueuedConnection);
  }
}

Result<QByteArray> Draughtsman::sheetFor(const Wish& wish) {
  // What was not looked at since the piece last changed will hardly be looked at again.
  if (wish.fit != drawnFit_) memory_.forgetUnused();
  drawnFit_ = wish.fit;
  // Nothing may leave the thread, of whatever kind.
  try {
    return pen_(*wish.fit, wish.unit, wish.part, memory_);
  } catch (...) {
    return fail(ErrorCode::libraryFailure, exporting::failureWords(), "drawing");
  }
}

Result<QByteArray> svgSheet(const joinery::DryFit& fit, joinery::Unit unit,
                            std::optional<joinery::PartId> part, exporting::ViewMemory& memory) {
  const joinery::Piece& piece = fit.piece;
  const auto groups = joinery::groupParts(piece);
  exporting::DrawingOptions options;
  options.unit = unit;
  options.sheets = static_cast<int>(groups.size()) + 1;
  options.memory = &memory;
  const auto group = std::find_if(groups.begin(), groups.end(), [&](const auto& g) {
    return part && std::find(g.parts.begin(), g.parts.end(), *part) != g.parts.end();
  });
  if (group != groups.end()) options.sheet = group->number + 1;
  options.errors = group == groups.end() ? exporting::errorsOf(fit.findings)
                                         : exporting::errorsOf(fit.findings, group->parts);
  const auto sheet =
      group == groups.end()
          ? exporting::drawAssembly(piece, fit.solids, groups, options).map(exporting::sideBySide)
          : exporting::drawPart(piece, fit.solids, *group, options);
  if (!sheet) return tl::unexpected<Error>(sheet.error());
  return QByteArray::fromStdString(exporting::svgText(*sheet));
}

}  // namespace dryfit::viewer
