// What places in the view are for: a part between faces, a face moved, a measure taken.

#include <QApplication>
#include <QClipboard>
#include <QLabel>
#include <QStringList>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "joinery/base/unit.h"
#include "kernel/apart.h"
#include "viewer/building/move_face_dialog.h"
#include "viewer/look/words.h"
#include "viewer/view/view3d.h"
#include "viewer/window/main_window.h"

namespace dryfit::viewer {

using joinery::PartFace;
using joinery::PlaceOnPart;

namespace {

std::optional<PartFace> faceOf(const std::optional<PlaceOnPart>& place) {
  const auto faces = place ? joinery::facesOf({*place}) : std::vector<PartFace>{};
  return faces.empty() ? std::nullopt : std::optional(faces.front());
}

/// How far two places are apart, along x, y and z as well, and the angle between them.
QString apartWords(const joinery::Piece& piece, const PlaceOnPart& a, const PlaceOnPart& b,
                   joinery::Unit unit) {
  const auto apart = kernel::apartOf(joinery::outlineOf(piece, a), joinery::outlineOf(piece, b));
  if (!apart) return QString::fromStdString(apart.error().line());
  const auto length = [unit](double mm) { return lengthWords(std::abs(mm), unit); };
  QStringList words{QObject::tr("%1 %2 apart").arg(length(apart->distance), unitWords(unit))};
  constexpr double kSeen = 1e-6;
  if (apart->distance > kSeen) {
    const kernel::Vec3 gap = apart->to - apart->from;
    words << QObject::tr("x %1, y %2, z %3").arg(length(gap.x), length(gap.y), length(gap.z));
  }
  if (apart->angle) {
    const double degrees = *apart->angle * 180 / std::numbers::pi;
    words << (degrees < kSeen ? QObject::tr("parallel")
                              : QObject::tr("%1° between").arg(degrees, 0, 'g', 5));
  }
  return words.join("; ");
}

/// Faces of other parts within a rule's reach of where a face is dragged to, the nearest first.
std::vector<PartFace> facesNear(const joinery::Piece& piece, PartFace dragged, double at) {
  constexpr double kReach = 4;  // mm
  std::vector<PartFace> near;
  const auto away = [&](PartFace face) { return std::abs(joinery::standsAt(piece, face) - at); };
  for (const joinery::PlacedPart& part : piece.parts) {
    if (part.id == dragged.part || part.turned) continue;
    for (const bool far : {false, true}) {
      const PartFace face{part.id, joinery::faceOf(joinery::axisOf(dragged.face), far)};
      if (away(face) < kReach) near.push_back(face);
    }
  }
  std::ranges::stable_sort(near, {}, away);
  return near;
}

/// To the whole millimetre, or to the sixteenth of an inch.
double onStep(double mm, joinery::Unit unit) {
  const double step = unit == joinery::Unit::inch ? joinery::millimetresIn(unit) / 16 : 1.0;
  return std::round(mm / step) * step;
}

}  // namespace

void MainWindow::copyMeasure() {
  if (measure_->text().isEmpty()) {
    return warn(tr("Take two faces, edges or corners: what lies between them is measured."));
  }
  QApplication::clipboard()->setText(measure_->text());
  tell(tr("Copied: %1").arg(measure_->text()));
}

void MainWindow::tieFaces() {
  connect(view_, &View3d::placePointedAt, this, [this](const std::optional<PlaceOnPart>& place) {
    if (faceDialog_) faceDialog_->pointAt(faceOf(place));
  });
  connect(view_, &View3d::placesTaken, this, [this](const std::vector<PlaceOnPart>& places) {
    showTaken(places);
    const auto faces = joinery::facesOf(places);
    if (faceDialog_ && !faces.empty()) faceDialog_->take(faces.back());
  });
  connect(view_, &View3d::faceDragged, this, &MainWindow::dragFace);
  connect(&document_, &BenchDocument::assembledChanged, this,
          [this] { showTaken(view_->takenPlaces()); });
}

void MainWindow::showTaken(const std::vector<PlaceOnPart>& places) {
  const auto shown = document_.assembled();
  measure_->setText(places.size() == 2 && shown
                        ? apartWords(shown->fit->piece, places[0], places[1], document_.unit())
                        : QString());
}

void MainWindow::openBeside(FaceDialog* dialog) {
  dialog->setAttribute(Qt::WA_DeleteOnClose);
  helpIn(dialog, dialog->objectName() == "newPartDialog" ? "parts.md" : "faces.md");
  faceDialog_ = dialog;
  const Pointing before = view_->pointing();
  pointAt(Pointing::faces);
  connect(dialog, &FaceDialog::ghostChanged, view_, &View3d::showGhost);
  connect(dialog, &QDialog::accepted, this, [this] { tell({}); });
  connect(dialog, &QDialog::finished, this, [this, before] {
    faceDialog_.clear();
    view_->showGhost(std::nullopt);
    pointAt(before);
  });
  dialog->pointAt(std::nullopt);
  // Over the lists, not over the view.
  dialog->move(mapToGlobal(QPoint(std::max(0, width() - dialog->width() - 24), height() / 5)));
  dialog->show();
}

void MainWindow::askForPlaceOfFace() {
  if (faceDialog_) return faceDialog_->activateWindow();
  const auto faces = joinery::facesOf(view_->takenPlaces());
  if (faces.empty() || document_.piece() == nullptr || document_.drawnPiece() == nullptr) {
    return warn(tr("Take the face that is to be moved: Ctrl+6, then a click on it."));
  }
  openBeside(new MoveFaceDialog(document_, trials_, faces.front(), this));
}

void MainWindow::dragFace(const PlaceOnPart& place, double by, bool begins) {
  const auto face = faceOf(place);
  // What is written are drawn sizes, whatever is shown.
  const joinery::Piece* piece = document_.drawnPiece();
  if (!face || piece == nullptr) return;
  if (begins || !dragged_) {
    dragged_ = joinery::holdOf(document_.file(), *piece, *face);
    dragStroke_ = document_.newStroke();
  }
  const double at = dragged_->at + (joinery::isFarFace(face->face) ? by : -by);
  const auto moved = [&](const std::string& text) -> BenchDocument::Edit {
    return [piece, face, text](joinery::ModelFile& file) {
      return joinery::moveFace(file, *piece, *face, text);
    };
  };
  const double step = onStep(at, document_.unit()) - dragged_->at;
  std::string text = joinery::movedBy(*dragged_, step, document_.model().unit);
  // A face that itself hangs on the dragged one cannot hold it: then the next does, or none.
  for (const PartFace met : facesNear(*piece, *face, at)) {
    const std::string name = joinery::writtenName(*piece, met);
    if (!document_.tryEdit(moved(name))) continue;
    text = name;
    break;
  }
  const QString what = QString::fromStdString(joinery::writtenName(*piece, *face));
  const auto done = document_.apply(tr("face moved"), moved(text), dragStroke_);
  if (!done) return warn(QString::fromStdString(done.error().line()));
  tell(tr("%1 stands at %2").arg(what, QString::fromStdString(text)));
}

}  // namespace dryfit::viewer
