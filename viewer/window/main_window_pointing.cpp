// What the pointer takes in the view, and the same by keys.

#include <QActionGroup>
#include <QMenu>
#include <QMenuBar>
#include <QTabWidget>
#include <algorithm>

#include "joinery/piece/joint_at.h"
#include "viewer/look/words.h"
#include "viewer/tables/joint_tree.h"
#include "viewer/view/view3d.h"
#include "viewer/window/main_window.h"

namespace dryfit::viewer {

using joinery::PlaceOnPart;

void MainWindow::makePointMenu() {
  QMenu* menu = menuBar()->addMenu(tr("P&oint"));
  auto* ways = pointGroup_ = new QActionGroup(this);
  const auto way = [&](const QString& words, const QString& keys, Pointing pointing) {
    QAction* action = menu->addAction(words, QKeySequence(keys), this,
                                      [this, pointing] { view_->setPointing(pointing); });
    action->setShortcutContext(Qt::ApplicationShortcut);
    action->setCheckable(true);
    action->setChecked(pointing == Pointing::parts);
    action->setData(static_cast<int>(pointing));
    ways->addAction(action);
  };
  way(tr("At &parts"), "Ctrl+5", Pointing::parts);
  way(tr("At &faces"), "Ctrl+6", Pointing::faces);
  way(tr("At &edges"), "Ctrl+7", Pointing::edges);
  way(tr("At &corners"), "Ctrl+8", Pointing::corners);
  menu->addSeparator();
  const auto add = [&](const QString& words, const QString& keys, auto act) {
    QAction* action = menu->addAction(words, QKeySequence(keys), this, act);
    action->setShortcutContext(Qt::ApplicationShortcut);  // of windows beside the view too
    building_ << action;
  };
  // Whoever walks by keys while parts are pointed at means faces.
  const auto begin = [this] {
    if (view_->pointing() == Pointing::parts) pointAt(Pointing::faces);
  };
  add(tr("&Next on this part"), "F7", [this, begin] { begin(), view_->walk(1); });
  add(tr("Pre&vious on this part"), "Shift+F7", [this, begin] { begin(), view_->walk(-1); });
  add(tr("&Across to what it touches"), "F8", [this, begin] {
    begin();
    if (!view_->pointedPlace()) return view_->walk(1);
    if (!view_->cross()) tell(placeWords(*view_->pointedPlace()) + tr(" Nothing lies against it."));
  });
  add(tr("Next pa&rt"), "Shift+F8", [this, begin] { begin(), view_->walkToNextPart(); });
  menu->addSeparator();
  add(tr("&Take it"), "F9", [this] { view_->takePointed(false); });
  add(tr("Take it &besides"), "Ctrl+F9", [this] { view_->takePointed(true); });
  add(tr("C&hoose the joint here"), "Ctrl+F8", [this] { chooseJointHere(); });
  menu->addSeparator();
  add(tr("Copy &what is measured"), "Ctrl+Shift+C", [this] { copyMeasure(); });

  connect(view_, &View3d::placePointedAt, this, [this](const std::optional<PlaceOnPart>& place) {
    tell(place ? placeWords(*place) : QString());
  });
  connect(view_, &View3d::placesTaken, this, [this](const std::vector<PlaceOnPart>& places) {
    const auto shown = document_.assembled();
    if (!shown || places.empty()) return tell({});
    QStringList names;
    for (const PlaceOnPart& place : places) {
      names << QString::fromStdString(joinery::writtenName(shown->fit->piece, place));
    }
    tell(tr("Taken: %1").arg(names.join(tr(", "))));
  });
}

void MainWindow::chooseJointHere() {
  const auto shown = document_.assembled();
  if (!shown) return;
  const joinery::Piece& piece = shown->fit->piece;
  const auto name = [&](joinery::JointId id) { return piece.joint(id).name; };
  std::vector<std::string> here;
  // By the pointer where it is on the view, else by the face that keys have come to.
  if (view_->underMouse()) {
    if (const auto joint = view_->jointUnder(view_->lastPointer())) here.push_back(name(*joint));
  }
  if (here.empty() && view_->pointedPlace()) {
    for (const joinery::JointId id : joinery::jointsAt(piece, *view_->pointedPlace())) {
      here.push_back(name(id));
    }
  }
  if (here.empty()) return warn(tr("No joint is cut here: point at a cheek, a wall or a face."));
  // Pressed again, the next one of the same face.
  const auto now = std::ranges::find(here, joints_->currentJoint());
  joints_->choose(now == here.end() || now + 1 == here.end() ? here.front() : *(now + 1));
  lists_->setCurrentWidget(joints_);
}

void MainWindow::pointAt(Pointing pointing) {
  for (QAction* action : pointGroup_->actions()) {
    if (action->data().toInt() == static_cast<int>(pointing)) action->setChecked(true);
  }
  view_->setPointing(pointing);
}

QString MainWindow::placeWords(const PlaceOnPart& place) const {
  const auto shown = document_.assembled();
  if (!shown) return {};
  const joinery::Piece& piece = shown->fit->piece;
  return titled(QString::fromStdString(joinery::wordsFor(piece, place))) + ": " +
         QString::fromStdString(joinery::writtenName(piece, place)) + ".";
}

}  // namespace dryfit::viewer
