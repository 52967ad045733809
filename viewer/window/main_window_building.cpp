#include <QApplication>
#include <QInputDialog>
#include <QMenu>
#include <QMenuBar>
#include <QPointer>
#include <QProgressDialog>
#include <QPushButton>
#include <QTabWidget>
#include <QTableView>

#include "joinery/building/joint_proposals.h"
#include "joinery/building/mend.h"
#include "joinery/file/material_edits.h"
#include "joinery/file/part_edits.h"
#include "viewer/building/join_all_dialog.h"
#include "viewer/building/join_dialog.h"
#include "viewer/building/joint_page.h"
#include "viewer/building/new_part_dialog.h"
#include "viewer/building/number_field.h"
#include "viewer/building/part_page.h"
#include "viewer/building/repeat_dialog.h"
#include "viewer/look/words.h"
#include "viewer/tables/finding_table.h"
#include "viewer/tables/joint_tree.h"
#include "viewer/tables/part_tree.h"
#include "viewer/view/view3d.h"
#include "viewer/window/main_window.h"

namespace dryfit::viewer {

using joinery::PartId;

namespace {

/// Joints of these two and no third part.
std::vector<std::string> jointsBetween(const joinery::Piece& piece, PartId a, PartId b) {
  std::vector<std::string> names;
  for (const joinery::PlacedJoint& joint : piece.joints) {
    const auto holds = [&](PartId id) { return std::ranges::count(joint.mates, id) > 0; };
    if (joint.mates.size() == 2 && holds(a) && holds(b)) {
      names.push_back(piece.joint(joint.id).name);
    }
  }
  return names;
}

}  // namespace

void MainWindow::openDialog(QDialog* dialog) {
  dialog->setAttribute(Qt::WA_DeleteOnClose);
  helpIn(dialog, dialog->objectName().startsWith("join") ? "joints.md" : "parts.md");
  connect(dialog, &QDialog::accepted, this, [this] { tell({}); });
  dialog->open();
}

void MainWindow::makeBuildMenu() {
  QMenu* menu = menuBar()->addMenu(tr("&Build"));
  const auto add = [&](const QString& words, const QString& keys, void (MainWindow::*act)()) {
    building_ << menu->addAction(words, QKeySequence(keys), this, act);
  };
  add(tr("New &part…"), "Ctrl+Shift+P", &MainWindow::askForPart);
  add(tr("&Join the two chosen parts…"), "Ctrl+J", &MainWindow::joinChosen);
  add(tr("Mo&ve the taken face…"), "Ctrl+M", &MainWindow::askForPlaceOfFace);
  add(tr("Join &all that meet…"), "Ctrl+Shift+J", &MainWindow::joinAll);
  add(tr("Take the chosen join&t out"), "Ctrl+Shift+Del", &MainWindow::eraseChosenJoint);
  add(tr("Change the chosen j&oint"), "Ctrl+L", &MainWindow::changeChosenJoint);
  add(tr("New &dimension…"), "Ctrl+Shift+D", &MainWindow::askForDimension);
  add(tr("&Name this number…"), "Ctrl+Shift+L", &MainWindow::nameThisNumber);
  menu->addSeparator();
  add(tr("Repeat the &chosen part…"), "Ctrl+D", &MainWindow::repeatChosen);
  add(tr("&Rename the chosen part…"), "Ctrl+R", &MainWindow::renameChosen);
  add(tr("&Material of the chosen parts…"), "Ctrl+Shift+M", &MainWindow::askForMaterial);
  add(tr("&Group of the chosen parts…"), "Ctrl+G", &MainWindow::askForGroup);
  add(tr("Take the c&hosen parts out…"), "Ctrl+Del", &MainWindow::eraseChosen);
  makeAssemblyActions(*menu);
}

void MainWindow::askForPart() {
  const joinery::Piece* piece = document_.piece();
  if (piece == nullptr) return warn(tr("The piece cannot be put together as it stands."));
  if (faceDialog_) return faceDialog_->activateWindow();
  const auto chosen = parts_->chosen();
  const auto picked = joinery::facesOf(view_->takenPlaces());
  joinery::NewPart begun;
  std::optional<joinery::NewPart> between;
  if (picked.size() == 2) {
    between = partBetweenFaces(document_.file(), *piece, picked[0], picked[1]);
  }
  if (between) {
    begun = *between;
  } else if (chosen.size() == 2) {
    begun = partBetween(document_.file(), *piece, chosen[0], chosen[1]);
  } else {
    begun.name = joinery::freeName(document_.file(), "part");
    begun.length.along = "x";
    begun.width.along = "z";
    begun.thickness = {"y", "0", {}, {}, {}};
    begun.length.from = begun.width.from = "0";
    if (!document_.model().materials.empty()) {
      begun.material = document_.model().materials.front().name;
    }
  }
  openBeside(new NewPartDialog(document_, trials_, begun, this));
}

void MainWindow::joinChosen() {
  const auto chosen = parts_->chosen();
  if (chosen.size() != 2) return warn(tr("Choose the two parts that are to be joined."));
  if (document_.piece() == nullptr) {
    return warn(tr("The piece cannot be put together as it stands."));
  }
  // A joint that the two have already gives way to the new one.
  joinery::ModelFile bare = document_.file();
  const std::vector<std::string> had = jointsBetween(*document_.piece(), chosen[0], chosen[1]);
  for (const std::string& joint : had) {
    if (const auto done = joinery::eraseJoint(bare, joint); !done) {
      return warn(QString::fromStdString(done.error().line()));
    }
  }
  const auto proposals = joinery::proposeJoints(bare, chosen[0], chosen[1], trials_);
  if (!proposals) return warn(QString::fromStdString(proposals.error().line()));
  const auto& parts = document_.model().parts;
  const QString who =
      tr("%1 and %2")
          .arg(labelWords(parts[chosen[0].index()]), labelWords(parts[chosen[1].index()]));
  if (proposals->empty()) {
    return warn(tr("%1 do not touch, or no joint can be cut where they do.").arg(who));
  }
  const auto meeting = joinery::meetingOf(*document_.piece(), chosen[0], chosen[1]);
  const QString heading =
      meeting ? tr("%1 meet with %2.")
                    .arg(who, QString::fromUtf8(nameOf(meeting->way).data(),
                                                qsizetype(nameOf(meeting->way).size())))
              : who;
  const QString words = had.empty() ? heading
                                    : heading + " " +
                                          tr("Joined already by %1, which the new joint takes the "
                                             "place of.")
                                              .arg(listWords(had));
  auto* dialog = new JoinDialog(document_, bare, trials_, *proposals, had, words, this);
  openDialog(dialog);
}

void MainWindow::eraseChosenJoint() {
  const std::string joint = joints_->currentJoint();
  if (joint.empty()) return warn(tr("Choose the joint on the page Joints."));
  const auto done = document_.apply(
      tr("joint out"), [&](joinery::ModelFile& file) { return joinery::eraseJoint(file, joint); });
  if (!done) return warn(QString::fromStdString(done.error().line()));
  tell(tr("Taken out: %1. Undo puts it back.").arg(QString::fromStdString(joint)));
}

void MainWindow::changeChosenJoint() {
  const std::string joint = joints_->currentJoint();
  if (joint.empty()) return warn(tr("Choose the joint on the page Joints."));
  jointPage_->show(joint);
  lists_->setCurrentWidget(jointPage_);
  jointPage_->findChild<QWidget*>("joint_kind")->setFocus(Qt::ShortcutFocusReason);
}

void MainWindow::nameThisNumber() {
  const QPointer<NumberField> field = qobject_cast<NumberField*>(QApplication::focusWidget());
  if (!field) return warn(tr("Put the cursor into the field whose number is to have a name."));
  const std::string number = field->text().trimmed().toStdString();
  auto* dialog = new QInputDialog(this);
  dialog->setObjectName("nameNumberDialog");
  dialog->setWindowTitle(tr("Name this number"));
  dialog->setLabelText(tr("%1 becomes a dimension of the piece. Small letters, digits and _:")
                           .arg(QString::fromStdString(number)));
  connect(dialog, &QInputDialog::textValueSelected, this, [this, field, number](const QString& t) {
    if (!field) return;
    const auto done = nameNumber(document_, t.trimmed().toStdString(), number,
                                 [&](const std::string& name) { return field->editOf(name); });
    if (!done) warn(QString::fromStdString(done.error().line()));
  });
  openDialog(dialog);
}

void MainWindow::joinAll() {
  QProgressDialog progress(tr("Trying joints where parts meet…"), tr("Stop"), 0, 0, this);
  progress.setWindowModality(Qt::WindowModal);
  const auto goOn = [&](int done, int all) {
    progress.setMaximum(all);
    progress.setValue(done);
    return !progress.wasCanceled();
  };
  const auto proposals = joinery::choicesWhereAllMeet(document_.file(), trials_, goOn);
  progress.reset();
  if (!proposals) return warn(QString::fromStdString(proposals.error().line()));
  auto* dialog = new JoinAllDialog(document_, trials_, *proposals, this);
  openDialog(dialog);
}

void MainWindow::askForDimension() {
  auto* dialog = new QInputDialog(this);
  dialog->setWindowTitle(tr("New dimension"));
  dialog->setLabelText(
      tr("Its name and its value, as in \"reveal = 12\" or \"gap = width / 100\":"));
  connect(dialog, &QInputDialog::textValueSelected, this, [this](const QString& text) {
    const std::string name = text.section('=', 0, 0).trimmed().toStdString();
    const std::string value = text.section('=', 1).trimmed().toStdString();
    const auto done = document_.apply(tr("new dimension"), [&](joinery::ModelFile& file) {
      return joinery::addDimension(file, name, value);
    });
    if (!done) warn(QString::fromStdString(done.error().line()));
  });
  openDialog(dialog);
}

void MainWindow::repeatChosen() {
  const auto chosen = parts_->chosen();
  if (chosen.size() != 1) return warn(tr("Choose the part that is to be repeated."));
  openDialog(new RepeatDialog(document_, document_.model().parts[chosen[0].index()].name, this));
}

void MainWindow::renameChosen() {
  const auto chosen = parts_->chosen();
  if (chosen.size() != 1) return warn(tr("Choose the part that is to have another name."));
  const std::string name = document_.model().parts[chosen[0].index()].name;
  auto* dialog = new QInputDialog(this);
  dialog->setWindowTitle(tr("Rename a part"));
  dialog->setLabelText(tr("Small letters, digits and _; everything that names the part follows:"));
  dialog->setTextValue(QString::fromStdString(name));
  connect(dialog, &QInputDialog::textValueSelected, this, [this, name](const QString& text) {
    const auto done = document_.apply(
        tr("other name"), [name, text = text.trimmed().toStdString()](joinery::ModelFile& file) {
          return joinery::renamePart(file, name, text);
        });
    if (!done) warn(QString::fromStdString(done.error().line()));
  });
  dialog->open();
}

void MainWindow::showMend(const joinery::Finding* finding) {
  const bool can = finding != nullptr && !finding->changes.empty();
  mend_->setEnabled(can);
  mend_->setToolTip(can ? titled(QString::fromStdString(finding->changes.front().words))
                        : tr("Choose a finding that one number puts right"));
}

void MainWindow::mendChosen() {
  const joinery::Finding* finding = findings_->finding(findingView_->currentIndex().row());
  const auto shown = document_.assembled();
  if (finding == nullptr || finding->changes.empty() || !shown) return;
  const joinery::MendingNumber change = finding->changes.front();
  const joinery::Mend mend{change, shown->fit->piece.joint(change.joint).name, {}};
  const auto done = document_.apply(
      tr("mend"), [mend](joinery::ModelFile& file) { return joinery::applyMend(file, mend); });
  if (done) {
    tell(titled(QString::fromStdString(change.words)) + ".");
  } else {
    warn(QString::fromStdString(done.error().line()));
  }
}

}  // namespace dryfit::viewer
