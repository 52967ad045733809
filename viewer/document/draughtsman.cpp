#include "viewer/document/draughtsman.h"

#include <algorithm>
#include <exception>
#include <utility>

#include "export/drawing/assembly_drawing.h"
#include "export/drawing/part_drawing.h"
#include "export/drawing/svg_writer.h"
#include "joinery/piece/part_list.h"

namespace dryfit::viewer {

Draughtsman::Draughtsman(QObject* parent)
    : QObject(parent), worker_([this](const std::stop_token& stop) { work(stop); }) {}

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
  const joinery::Piece& piece = wish.fit->piece;
  try {
    const auto groups = joinery::groupParts(piece);
    exporting::DrawingOptions options;
    options.unit = wish.unit;
    options.sheets = static_cast<int>(groups.size()) + 1;
    options.memory = &memory_;
    const auto group = std::find_if(groups.begin(), groups.end(), [&](const auto& g) {
      return wish.part && std::find(g.parts.begin(), g.parts.end(), *wish.part) != g.parts.end();
    });
    if (group != groups.end()) options.sheet = group->number + 1;
    const auto sheet = group == groups.end()
                           ? exporting::drawAssembly(piece, wish.fit->solids, groups, options)
                                 .map(exporting::sideBySide)
                           : exporting::drawPart(piece, wish.fit->solids, *group, options);
    if (!sheet) return tl::unexpected<Error>(sheet.error());
    return QByteArray::fromStdString(exporting::svgText(*sheet));
  } catch (const std::exception& e) {
    return fail(ErrorCode::libraryFailure, e.what());
  }
}

}  // namespace dryfit::viewer
