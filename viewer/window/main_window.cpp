#include "viewer/window/main_window.h"

#include <QActionGroup>
#include <QCloseEvent>
#include <QFileInfo>
#include <QLabel>
#include <QMessageBox>
#include <QPushButton>
#include <QSplitter>
#include <QStackedWidget>
#include <QStatusBar>
#include <QStringList>
#include <QTableView>
#include <QToolBar>
#include <QToolButton>

#include <algorithm>

#include "viewer/building/face_dialog.h"
#include "viewer/building/part_page.h"
#include "viewer/document/recent_pieces.h"
#include "viewer/look/look.h"
#include "viewer/look/panels.h"
#include "viewer/look/words.h"
#include "viewer/pages/drawing_page.h"
#include "viewer/pages/layout_page.h"
#include "viewer/pages/start_page.h"
#include "viewer/pages/stock_page.h"
#include "viewer/tables/dimension_table.h"
#include "viewer/tables/finding_table.h"
#include "viewer/tables/joint_tree.h"
#include "viewer/tables/measured_table.h"
#include "viewer/tables/part_tree.h"
#include "viewer/view/view3d.h"

namespace dryfit::viewer {
MainWindow::MainWindow(QWidget* parent) : QMainWindow(parent) {
  makePanels();
  makeActions();
  makeBuildMenu();
  makePointMenu();
  makeToolBar();
  makeWindowMenu();
  makeHelpMenu();
  tieTogether();
  tieFaces();
  tiePacket();
  // No higher and no wider than the screen, with room for a title.
  constexpr QSize kUsual(1260, 880), kFrame(8, 40);
  resize(kUsual.boundedTo(screen()->availableSize() - kFrame));
  showNumbers();
  tell(tr("Begin a piece, or open one."));
  // Once the piece rests, its picture is kept for the list of pieces opened lately.
  constexpr int kRestMs = 2500;
  rest_.setSingleShot(true);
  rest_.setInterval(kRestMs);
  connect(&rest_, &QTimer::timeout, this, [this] {
    if (document_.path().empty() || document_.isBuilding() || !document_.assembled()) return;
    rememberPicture(nameOfFile(), document_.assembled());
  });
}

void MainWindow::showStart() {
  if (start_ == nullptr) {
    start_ = new StartPage;
    rooms_->addWidget(start_);
    connect(start_, &StartPage::begun, this, &MainWindow::begin);
    connect(start_, &StartPage::openAsked, this, &MainWindow::askAndOpen);
    connect(start_, &StartPage::returnAsked, this, &MainWindow::showBench);
    connect(start_, &StartPage::fileAsked, this, [this](const QString& path) {
      if (mayLeave()) openFile(path.toStdString());
    });
  }
  start_->refresh(document_.isOpen());
  rooms_->setCurrentWidget(start_);
  bar_->hide();  // it is about the piece on the bench
}

void MainWindow::showBench() {
  rooms_->setCurrentIndex(0);
  bar_->show();
}

void MainWindow::begin(const joinery::ModelFile& file) {
  if (!mayLeave()) return;
  document_.start(file);
  showBench();
  tell(file.model().parts.empty() ? tr("Begun with nothing: Ctrl+Shift+P puts the first part, the "
                                       "Materials page has its wood.")
                                  : tr("Begun. It is in no file yet: save it where it belongs."));
}

MainWindow::~MainWindow() {
  // The views and their tables read the document to the last, so they go before it does.
  document_.disconnect(this);
  desk_.disconnect(this);
  packets_.disconnect(this);
  for (QTableView* view : {findingView_, dimensionView_, measuredView_}) view->setModel(nullptr);
  qDeleteAll(findChildren<QWidget*>(Qt::FindDirectChildrenOnly));
  for (QObject* table : {static_cast<QObject*>(dimensions_), static_cast<QObject*>(measured_),
                         static_cast<QObject*>(findings_)}) {
    delete table;
  }
}

void MainWindow::tieTogether() {
  using joinery::PartId;
  connect(&document_, &BenchDocument::opened, this, [this] {
    view_->clear();
    showVerdict();
  });
  // What was chosen goes by its number, which may be another's now.
  connect(&document_, &BenchDocument::listsChanged, this, [this] {
    findingView_->setCurrentIndex({});
    showFinding(-1);
    choose({});
  });
  connect(&document_, &BenchDocument::numbersChanged, this, &MainWindow::showNumbers);
  connect(&document_, &BenchDocument::buildingChanged, this, &MainWindow::showNumbers);
  connect(&document_, &BenchDocument::changedMarkChanged, this, &MainWindow::showNumbers);
  connect(&document_, &BenchDocument::assembledChanged, this, [this] {
    view_->showPiece(document_.assembled());
    showVerdict();
    rest_.start();
  });
  connect(&document_, &BenchDocument::buildFailed, this, [this](const QString& line) {
    warn(line);
    findingPanel_->setAside(tr("the piece cannot be put together as it stands"),
                            colourOf(joinery::Severity::error));
  });

  connect(view_, &View3d::partsChosen, this, &MainWindow::choose);
  connect(parts_, &PartTree::partsChosen, this,
          [this](const std::vector<PartId>& ids) { showChosen(ids); });
  connect(layoutPage_, &LayoutPage::partsChosen, this, &MainWindow::choose);
  connect(stockPage_, &StockPage::refused, this, &MainWindow::warn);
  connect(stockPage_, &StockPage::told, this, &MainWindow::tell);
  connect(&desk_, &StockDesk::laidOut, this, [this] {
    if (!desk_.job()) return;
    tell({});
    below_->setCurrentWidget(layoutPage_);
  });
  connect(joints_, &JointTree::partsChosen, this, &MainWindow::choose);
  // Behind the choice of its parts, which puts other lights out.
  connect(joints_, &JointTree::jointChosen, this, [this](const std::string& name) {
    const auto shown = document_.assembled();
    if (!shown) return;
    const auto& joints = shown->fit->piece.model.joints;
    const auto own = std::ranges::find(joints, name, &joinery::Joint::name);
    if (own == joints.end()) return;
    view_->lightJoint(joinery::JointId(static_cast<std::size_t>(own - joints.begin())));
  });
  connect(view_, &View3d::partPointedAt, this, [this](std::optional<PartId> id) {
    const auto shown = document_.assembled();
    tell(id && shown ? labelWords(shown->fit->piece.part(*id)) : QString());
  });
  connect(findingView_->selectionModel(), &QItemSelectionModel::currentRowChanged, this,
          [this](const QModelIndex& now) { showFinding(now.row()); });
  connect(findingView_, &QTableView::clicked, this,
          [this](const QModelIndex& index) { showFinding(index.row()); });

  connect(dimensions_, &DimensionTable::refused, this, &MainWindow::warn);
  connect(dimensions_, &DimensionTable::taken, this, [this] { tell({}); });
  connect(measured_, &MeasuredTable::refused, this, &MainWindow::warn);
  connect(measured_, &MeasuredTable::taken, this, [this] {
    tell(document_.basis() == joinery::Basis::drawn
             ? tr("Recorded. The view shows drawn sizes; switch to measured to see it.")
             : QString());
  });
  connect(joints_, &JointTree::refused, this, &MainWindow::warn);
  connect(joints_, &JointTree::taken, this, [this] { tell({}); });
}

void MainWindow::changeEvent(QEvent* event) {
  QMainWindow::changeEvent(event);
  if (event->type() == QEvent::ActivationChange && isActiveWindow()) lookAtDisk();
  const bool lettersChange =
      event->type() == QEvent::FontChange || event->type() == QEvent::StyleChange;
  if (lettersChange && state_ != nullptr) {
    // The bar would keep the height of the letters that it was made with.
    for (QLabel* label : {message_, measure_, state_}) {
      label->setMinimumHeight(label->fontMetrics().height());
    }
  }
  // What is coloured entry by entry is filled in anew.
  if (event->type() == QEvent::PaletteChange && state_ != nullptr && document_.isOpen()) {
    Q_EMIT document_.numbersChanged();
  }
}

void MainWindow::closeEvent(QCloseEvent* event) {
  if (mayLeave() && stockPage_->mayLeave()) {
    recovery_.forget();
    event->accept();
  } else {
    event->ignore();
  }
}

void MainWindow::choose(const std::vector<joinery::PartId>& parts) {
  parts_->choose(parts);
  showChosen(parts);
}

/// Everywhere but in the list of parts.
void MainWindow::showChosen(const std::vector<joinery::PartId>& parts) {
  view_->lightJoint(std::nullopt);
  view_->choose(parts);
  partPage_->show(parts);
  layoutPage_->choose(parts);
  drawing_->choose(parts.empty() ? std::nullopt : std::optional(parts.front()));
}

bool MainWindow::openStock(const std::filesystem::path& path) {
  return stockPage_->openList(path);
}

void MainWindow::showFinding(int row) {
  const joinery::Finding* finding = findings_->finding(row);
  view_->bringOut(finding);
  showMend(finding);
  if (finding == nullptr) {
    findingPanel_->setFootnote({});
    return;
  }
  parts_->choose(finding->parts);
  view_->choose({});  // the finding's own colours say which parts are meant
  QStringList foot{QString::fromStdString(finding->text)};
  if (!finding->mend.empty()) foot << QString::fromStdString(finding->mend);
  if (!finding->source.empty()) {
    foot << tr("Source of the limit: %1").arg(QString::fromStdString(finding->source));
  }
  findingPanel_->setFootnote(foot.join("\n"));
}

void MainWindow::showOnlyChosen() {
  const auto chosen = parts_->chosen();
  if (chosen.empty()) return warn(tr("Choose the parts that are to be seen alone."));
  std::vector<joinery::PartId> others;
  for (std::size_t i = 0; i < document_.model().parts.size(); ++i) {
    const joinery::PartId id(i);
    if (std::ranges::find(chosen, id) == chosen.end()) others.push_back(id);
  }
  view_->hide(others);
}

void MainWindow::hideChosen() {
  std::vector<joinery::PartId> hidden = view_->hidden();
  for (const joinery::PartId id : parts_->chosen()) hidden.push_back(id);
  view_->hide(hidden);
}

void MainWindow::showHidden() {
  view_->hide({});
}

void MainWindow::showWhole() {
  findingView_->clearSelection();
  findingView_->setCurrentIndex({});
  showFinding(-1);
  choose({});
  view_->takePlaces({});
  view_->pointAtPlace(std::nullopt);
  view_->lightJoint(std::nullopt);
  view_->fitAll();
}

void MainWindow::goToFinding() {
  below_->setCurrentWidget(findingPanel_);
  if (findings_->rowCount() == 0) return tell(findings_->verdict());
  // They are listed worst first.
  findingView_->setCurrentIndex(findings_->index(0, 0));
  findingView_->setFocus();
}

void MainWindow::showVerdict() {
  findingPanel_->setFootnote({});
  verdict_->setText(document_.assembled() ? findings_->verdict() : QString());
  if (const auto worst = findings_->worst(); worst && document_.assembled()) {
    verdict_->setStyleSheet(QString("color: %1;").arg(colourOf(*worst).name()));
  } else {
    verdict_->setStyleSheet({});
  }
  if (!document_.assembled()) {
    findingPanel_->setAside(document_.isOpen() ? tr("putting it together…") : QString(),
                            colour::fadedInk);
    return;
  }
  const auto worst = findings_->worst();
  findingPanel_->setAside(findings_->verdict(), worst ? colourOf(*worst) : colour::fadedInk);
}

void MainWindow::showNumbers() {
  const bool open = document_.isOpen();
  setWindowTitle(open ? tr("%1[*] · Dryfit").arg(QFileInfo(nameOfFile()).fileName())
                      : tr("Dryfit"));
  setWindowModified(document_.isChanged());
  save_->setEnabled(document_.isChanged() || (open && document_.path().empty()));
  saveAs_->setEnabled(open);
  packet_->setEnabled(open);
  for (QAction* action : building_) action->setEnabled(open);
  readAgain_->setEnabled(open && !document_.path().empty());
  basisGroup_->setEnabled(open);
  unitGroup_->setEnabled(open);
  for (QAction* action : basisGroup_->actions()) {
    action->setChecked(action->data().toInt() == static_cast<int>(document_.basis()));
  }
  for (QAction* action : unitGroup_->actions()) {
    action->setChecked(action->data().toInt() == static_cast<int>(document_.unit()));
  }
  if (!open) {
    state_->clear();
    return;
  }
  const QString counts = tr("%1 parts, %2 joints")
                             .arg(document_.model().parts.size())
                             .arg(document_.model().joints.size());
  state_->setText(document_.isBuilding() ? tr("working…   %1").arg(counts) : counts);
}

void MainWindow::tell(const QString& line) {
  message_->setStyleSheet({});
  message_->setText(line);
  message_->setToolTip({});
}

void MainWindow::warn(const QString& line) {
  message_->setStyleSheet(QString("color: %1;").arg(colourOf(joinery::Severity::error).name()));
  message_->setText(line);
  message_->setToolTip(line);
}

QString MainWindow::nameOfFile() const {
  if (document_.path().empty()) {
    return document_.isOpen() ? QString::fromStdString(document_.model().name) : QString();
  }
  return QString::fromStdString(document_.path().string());
}

}  // namespace dryfit::viewer
