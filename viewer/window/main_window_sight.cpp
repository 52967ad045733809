// How the piece is looked at, and its picture.

#include <QFileDialog>
#include <QFileInfo>
#include <QMenu>
#include <algorithm>

#include "joinery/base/atomic_write.h"
#include "viewer/look/kept_settings.h"
#include "viewer/pages/picture_dialog.h"
#include "viewer/tables/part_tree.h"
#include "viewer/view/line_picture.h"
#include "viewer/view/view3d.h"
#include "viewer/window/main_window.h"
#include "viewer/window/sight_bar.h"

namespace dryfit::viewer {

using joinery::PartId;

void MainWindow::makeSightActions(QMenu& menu) {
  const auto add = [&](QMenu* to, const QString& words, const QString& keys, auto act) {
    QAction* action = to->addAction(words, QKeySequence(keys), this, act);
    building_ << action;
    return action;
  };
  QAction* perspective = menu.addAction(tr("&Perspective"), QKeySequence("Ctrl+Alt+V"));
  perspective->setCheckable(true);
  perspective->setChecked(keptSettings().value("perspective", false).toBool());
  view_->setPerspective(perspective->isChecked());
  connect(perspective, &QAction::toggled, this, [this](bool on) {
    view_->setPerspective(on);
    keptSettings().setValue("perspective", on);
  });
  QAction* grain = menu.addAction(tr("&Grain of the wood"), QKeySequence("Ctrl+Alt+G"));
  grain->setCheckable(true);
  grain->setChecked(keptSettings().value("grain", true).toBool());
  view_->showGrain(grain->isChecked());
  connect(grain, &QAction::toggled, this, [this](bool on) {
    view_->showGrain(on);
    keptSettings().setValue("grain", on);
  });
  add(&menu, tr("See through the chosen parts"), "Ctrl+T",
      [this] { view_->seeThrough(parts_->chosen()); });
  add(&menu, tr("See through all others"), "Ctrl+Shift+T", [this] {
    std::vector<PartId> others;
    const auto chosen = parts_->chosen();
    for (std::size_t i = 0; i < document_.model().parts.size(); ++i) {
      if (std::ranges::find(chosen, PartId(i)) == chosen.end()) others.emplace_back(i);
    }
    view_->seeThrough(others);
  });
  add(&menu, tr("See through nothing"), "Ctrl+Alt+T", [this] { view_->seeThrough({}); });
  menu.addSeparator();
  QMenu* cut = menu.addMenu(tr("&Cut open"));
  using joinery::Axis;
  add(cut, tr("Across &x"), "Ctrl+Alt+X", [this] { sight_->cutAcross(Axis::x); });
  add(cut, tr("Across &y"), "Ctrl+Alt+Y", [this] { sight_->cutAcross(Axis::y); });
  add(cut, tr("Across &z"), "Ctrl+Alt+Z", [this] { sight_->cutAcross(Axis::z); });
  add(cut, tr("&Not"), "Ctrl+Alt+N", [this] { sight_->cutAcross(std::nullopt); });
  add(cut, tr("&Further"), "Ctrl+Alt+Right", [this] { sight_->moveCut(1); });
  add(cut, tr("&Back"), "Ctrl+Alt+Left", [this] { sight_->moveCut(-1); });
  add(cut, tr("The other &side"), "Ctrl+Alt+S", [this] { sight_->turnCut(); });
  QMenu* open = menu.addMenu(tr("&Open out"));
  add(open, tr("&More"), "Ctrl+Alt+Up", [this] { sight_->open(1); });
  add(open, tr("&Less"), "Ctrl+Alt+Down", [this] { sight_->open(-1); });
  add(open, tr("&Wide"), "Ctrl+Alt+O", [this] {
    sight_->open(1 << 10);
    view_->fitAll();
  });
  add(open, tr("&Together again"), "Ctrl+Alt+C", [this] { sight_->close(); });
  menu.addSeparator();
  add(&menu, tr("P&icture of the view…"), "Ctrl+Alt+P", [this] { askForPicture(); });
}

void MainWindow::askForPicture() {
  if (!document_.assembled() || !view_->trouble().isEmpty()) {
    return warn(tr("There is nothing to take a picture of."));
  }
  auto* dialog = new PictureDialog(view_->size() * view_->devicePixelRatioF(), this);
  connect(dialog, &QDialog::accepted, this, [this, dialog] {
    const QString file = QFileDialog::getSaveFileName(
        this, tr("Save the picture as"), QFileInfo(nameOfFile()).completeBaseName() + ".png",
        tr("Pictures (*.png *.svg)"));
    if (!file.isEmpty()) writePictureTo(file, dialog->size());
  });
  openDialog(dialog);
}

void MainWindow::writePictureTo(const QString& file, QSize size) {
  const auto shown = document_.assembled();
  if (!shown) return;
  if (QFileInfo(file).suffix().toLower() == "svg") {
    std::vector<kernel::Solid> solids;
    const auto hidden = view_->hidden();
    for (std::size_t i = 0; i < shown->fit->solids.size(); ++i) {
      if (std::ranges::find(hidden, PartId(i)) != hidden.end()) continue;
      kernel::Frame frame = shown->fit->piece.parts[i].frame;
      frame.origin = frame.origin + view_->offsetOf(PartId(i));
      solids.push_back(shown->fit->solids[i].placed(frame));
    }
    const auto lines = linePicture(solids, view_->viewpoint(), size);
    const auto done = lines ? joinery::writeAtomically(file.toStdString(), *lines)
                            : Result<void>(tl::unexpected<Error>(lines.error()));
    if (!done) return warn(QString::fromStdString(done.error().line()));
  } else {
    const QImage image = view_->picture(size);
    if (image.isNull() || !image.save(file, "PNG")) {
      return warn(tr("%1: the picture could not be written; name a folder that exists and may be "
                     "written to")
                      .arg(file));
    }
  }
  tell(tr("Picture written to %1").arg(file));
}

}  // namespace dryfit::viewer
