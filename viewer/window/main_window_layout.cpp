// How the main window is laid out; what it does is in main_window.cpp.

#include <QActionGroup>
#include <QApplication>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QItemSelectionModel>
#include <QLabel>
#include <QMenuBar>
#include <QPushButton>
#include <QSplitter>
#include <QStackedWidget>
#include <QStatusBar>
#include <QTabWidget>
#include <QTableView>
#include <QToolBar>
#include <QToolButton>
#include <QVBoxLayout>

#include "viewer/building/joint_page.h"
#include "viewer/building/material_page.h"
#include "viewer/building/part_page.h"
#include "viewer/building/piece_page.h"
#include "viewer/look/look.h"
#include "viewer/look/panels.h"
#include "viewer/look/words.h"
#include "viewer/pages/drawing_page.h"
#include "viewer/pages/layout_page.h"
#include "viewer/pages/stock_page.h"
#include "viewer/tables/absorb_button.h"
#include "viewer/tables/dimension_slide.h"
#include "viewer/tables/dimension_table.h"
#include "viewer/tables/expression_delegate.h"
#include "viewer/tables/finding_table.h"
#include "viewer/tables/joint_tree.h"
#include "viewer/tables/measured_table.h"
#include "viewer/tables/part_tree.h"
#include "viewer/view/scene.h"
#include "viewer/view/view3d.h"
#include "viewer/window/main_window.h"
#include "viewer/window/sight_bar.h"

namespace dryfit::viewer {
namespace {

void setWidths(QTableView* table, std::initializer_list<int> widths) {
  // They are given for letters at 100 %.
  const int percent = keptDress().percent;
  int column = 0;
  for (const int width : widths) table->setColumnWidth(column++, width * percent / 100);
}

QSplitter* split(Qt::Orientation way, QWidget* first, QWidget* second) {
  auto* splitter = new QSplitter(way);
  splitter->addWidget(first);
  splitter->addWidget(second);
  splitter->setHandleWidth(5);
  splitter->setChildrenCollapsible(false);
  return splitter;
}

/// Before a piece is open, the view says how to open one.
void sayWithoutPiece(QAbstractItemView* view, const BenchDocument& document) {
  sayWhenEmpty(view, [&document] { return document.isOpen() ? QString() : noPieceWords(); });
}

}  // namespace

QWidget* MainWindow::makeDimensionPage() {
  auto* slide = new DimensionSlide(document_);
  connect(dimensionView_->selectionModel(), &QItemSelectionModel::currentRowChanged, slide,
          [slide](const QModelIndex& now) { slide->take(now.isValid() ? now.row() : -1); });
  connect(slide, &DimensionSlide::refused, this, &MainWindow::warn);
  connect(slide, &DimensionSlide::taken, this, [this] { tell({}); });
  auto* page = new QWidget;
  auto* column = new QVBoxLayout(page);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addWidget(dimensionView_, 1);
  column->addWidget(slide);
  return page;
}

QTabWidget* MainWindow::makePiecePages() {
  drawing_ = new DrawingPage(document_);
  auto* pages = new QTabWidget;
  pages->setObjectName("piecePages");
  pages->setDocumentMode(true);
  auto* seen = new QWidget;
  auto* column = new QVBoxLayout(seen);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  sight_ = new SightBar(document_, *view_);
  connect(sight_, &SightBar::refused, this, &MainWindow::warn);
  column->addWidget(view_, 1);
  column->addWidget(sight_);
  pages->addTab(seen, tr("Piece"));
  pages->addTab(drawing_, tr("Drawing"));
  return pages;
}

QTabWidget* MainWindow::makeLowerPages() {
  stockPage_ = new StockPage(desk_, document_);
  layoutPage_ = new LayoutPage(desk_, document_);
  below_ = new QTabWidget;
  below_->setObjectName("lowerPages");
  below_->setDocumentMode(true);
  below_->addTab(findingPanel_, tr("Findings"));
  below_->addTab(stockPage_, tr("Stock"));
  below_->addTab(layoutPage_, tr("Layout"));
  return below_;
}

void MainWindow::makeFindingPanel() {
  findings_ = new FindingTable(document_, this);
  findingView_ = makeTable(findings_, this);
  findingView_->setObjectName("findings");
  sayWithoutPiece(findingView_, document_);
  setWidths(findingView_, {84, 100, 360, 96, 96});
  findingView_->horizontalHeader()->setStretchLastSection(false);
  findingView_->horizontalHeader()->setSectionResizeMode(FindingTable::what, QHeaderView::Stretch);
  findingPanel_ = new HeadedPanel(tr("Dry fit"), findingView_);
  auto* absorb = new AbsorbButton(document_);
  mend_ = new QPushButton(tr("Put this right"));
  mend_->setObjectName("mend");
  mend_->setEnabled(false);
  connect(mend_, &QPushButton::clicked, this, &MainWindow::mendChosen);
  auto* corner = new QWidget;
  auto* beside = new QHBoxLayout(corner);
  beside->setContentsMargins(0, 0, 0, 0);
  beside->addWidget(mend_);
  beside->addWidget(absorb);
  findingPanel_->setCorner(corner);
  connect(absorb, &AbsorbButton::refused, this, &MainWindow::warn);
  connect(absorb, &AbsorbButton::taken, this, [this] { tell({}); });
}

void MainWindow::makeTables() {
  dimensions_ = new DimensionTable(document_, this);
  dimensionView_ = makeTable(dimensions_, this);
  dimensionView_->setObjectName("dimensions");
  sayWithoutPiece(dimensionView_, document_);
  setWidths(dimensionView_, {140, 164, 86, 90});
  // Large letters leave the numbers in sight; what is written is told whole while it is edited.
  if (keptDress().percent > 100) dimensionView_->setColumnWidth(DimensionTable::written, 150);
  auto* dimensionEntry = new ExpressionDelegate(
      [this](const QModelIndex& at, const QString& text) { return dimensions_->trial(at, text); },
      dimensionView_);
  dimensionView_->setItemDelegateForColumn(DimensionTable::written, dimensionEntry);

  measured_ = new MeasuredTable(document_, this);
  measuredView_ = makeTable(measured_, this);
  measuredView_->setObjectName("measured");
  sayWithoutPiece(measuredView_, document_);
  setWidths(measuredView_, {150, 84, 96, 118, 60});
  auto* measuredEntry = new ExpressionDelegate(
      [this](const QModelIndex& at, const QString& text) { return measured_->trial(at, text); },
      measuredView_);
  measuredView_->setItemDelegateForColumn(MeasuredTable::measured, measuredEntry);
  for (auto* entry : {dimensionEntry, measuredEntry}) {
    connect(entry, &ExpressionDelegate::refused, this, &MainWindow::warn);
    connect(entry, &ExpressionDelegate::welcome, this, [this] { tell({}); });
  }
}

QTabWidget* MainWindow::makePartLists() {
  parts_ = new PartTree(document_);
  parts_->setObjectName("parts");
  connect(parts_, &PartTree::refused, this, &MainWindow::warn);
  connect(parts_, &PartTree::told, this, &MainWindow::tell);
  joints_ = new JointTree(document_);
  joints_->setObjectName("joints");
  sayWithoutPiece(parts_, document_);
  sayWithoutPiece(joints_, document_);
  auto* lists = lists_ = new QTabWidget;
  lists->setObjectName("partLists");
  lists->addTab(parts_, tr("Parts"));
  lists->addTab(joints_, tr("Joints"));
  partPage_ = new PartPage(document_);
  lists->addTab(partPage_, tr("One part"));
  connect(partPage_, &PartPage::taken, this, [this] { tell({}); });
  jointPage_ = new JointPage(document_);
  lists->addTab(jointPage_, tr("One joint"));
  connect(jointPage_, &JointPage::told, this, &MainWindow::tell);
  connect(joints_, &JointTree::jointChosen, jointPage_, &JointPage::show);
  return lists;
}

QTabWidget* MainWindow::makeNumberPages() {
  makeTables();
  auto* numbers = new QTabWidget;
  numbers->addTab(makeDimensionPage(), tr("Dimensions"));
  numbers->addTab(measuredView_, tr("Measured sizes"));
  auto* materials = new MaterialPage(document_);
  numbers->addTab(materials, tr("Materials"));
  auto* whole = new PiecePage(document_);
  numbers->addTab(whole, tr("Whole piece"));
  connect(whole, &PiecePage::taken, this, [this] { tell({}); });
  connect(materials, &MaterialPage::refused, this, &MainWindow::warn);
  connect(materials, &MaterialPage::taken, this, [this] { tell({}); });
  return numbers;
}

void MainWindow::makeStatusLine() {
  message_ = new QLabel;
  message_->setObjectName("message");
  message_->setContentsMargins(8, 0, 8, 0);
  message_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
  state_ = new QLabel;
  state_->setProperty("role", "aside");
  state_->setContentsMargins(8, 0, 8, 0);
  measure_ = new QLabel;
  measure_->setObjectName("measure");
  measure_->setContentsMargins(8, 0, 8, 0);
  statusBar()->addWidget(message_, 1);
  statusBar()->addPermanentWidget(measure_);
  // What was found is in sight whatever page is in front.
  verdict_ = new QToolButton;
  verdict_->setObjectName("verdict");
  verdict_->setAutoRaise(true);
  verdict_->setToolTip(tr("What the dry fit found; goes to the worst of it (Ctrl+Shift+F)"));
  connect(verdict_, &QToolButton::clicked, this, &MainWindow::goToFinding);
  statusBar()->addPermanentWidget(verdict_);
  statusBar()->addPermanentWidget(state_);
}

void MainWindow::makePanels() {
  view_ = new View3d;
  makeFindingPanel();
  QTabWidget* lists = makePartLists();
  QTabWidget* numbers = makeNumberPages();
  for (QTabWidget* tabs : {lists, numbers}) {
    tabs->setDocumentMode(true);
    tabs->setContentsMargins(6, 4, 6, 6);
  }
  QSplitter* left = split(Qt::Vertical, makePiecePages(), makeLowerPages());
  left->setStretchFactor(0, 3);
  left->setStretchFactor(1, 2);
  left->setSizes({530, 270});
  // What a page would like, a row of choices or a bar while work goes on, does not push the lists.
  left->setMinimumWidth(500);
  QSplitter* right = split(Qt::Vertical, lists, numbers);
  right->setSizes({430, 340});
  // Of a wider window the lists take their share: names and notes are long.
  QSplitter* all = split(Qt::Horizontal, left, right);
  all->setStretchFactor(0, 6);
  all->setStretchFactor(1, 1);
  all->setSizes({705, 555});
  rooms_ = new QStackedWidget;
  rooms_->addWidget(all);
  setCentralWidget(rooms_);
  makeStatusLine();
}

void MainWindow::makeActions() {
  QMenu* file = menuBar()->addMenu(tr("&Piece"));
  file->addAction(tr("&New…"), QKeySequence::New, this, &MainWindow::showStart);
  file->addAction(tr("&Open…"), QKeySequence::Open, this, &MainWindow::askAndOpen);
  readAgain_ = file->addAction(tr("&Reload from disk"), QKeySequence("F5"), this, [this] {
    if (mayLeave()) readAgain();
  });
  save_ = file->addAction(tr("&Save"), QKeySequence::Save, this, [this] { save(); });
  saveAs_ =
      file->addAction(tr("Save &as…"), QKeySequence("Ctrl+Shift+S"), this, [this] { saveAs(); });
  file->addSeparator();
  packet_ = file->addAction(tr("Write bench &packet…"), QKeySequence("Ctrl+P"), this,
                            &MainWindow::askAndWritePacket);
  showPacket_ =
      file->addAction(tr("Show the packet's &folder"), this, &MainWindow::showPacketFolder);
  showPacket_->setEnabled(false);
  packet_->setToolTip(tr("Check, cut list, purchase list, drawings and STEP in one folder"));
  file->addSeparator();
  file->addAction(tr("&Close this window"), QKeySequence("Ctrl+W"), this, [this] { close(); });
  file->addAction(tr("&Quit"), QKeySequence("Ctrl+Q"), this, &QApplication::closeAllWindows);

  QMenu* edit = menuBar()->addMenu(tr("&Edit"));
  QAction* undo = document_.undoStack().createUndoAction(this, tr("Undo"));
  undo->setShortcut(QKeySequence::Undo);
  QAction* redo = document_.undoStack().createRedoAction(this, tr("Redo"));
  redo->setShortcuts({QKeySequence("Ctrl+Shift+Z"), QKeySequence("Ctrl+Y")});
  edit->addActions({undo, redo});
  edit->addSeparator();
  parts_->addMarkActions(*edit->addMenu(tr("&Mark chosen parts as made")));

  basisGroup_ = new QActionGroup(this);
  unitGroup_ = new QActionGroup(this);
  const auto choice = [](QActionGroup* group, const QString& words, int value, const QString& tip) {
    QAction* action = group->addAction(words);
    action->setCheckable(true);
    action->setData(value);
    action->setToolTip(tip);
    return action;
  };
  using joinery::Basis;
  using joinery::Unit;
  choice(basisGroup_, tr("Drawn"), static_cast<int>(Basis::drawn), tr("Sizes as drawn"));
  choice(basisGroup_, tr("Measured"), static_cast<int>(Basis::measured),
         tr("Sizes measured on the real wood take the place of the drawn ones"));
  choice(unitGroup_, tr("cm"), static_cast<int>(Unit::cm), tr("Show centimetres"));
  choice(unitGroup_, tr("mm"), static_cast<int>(Unit::mm), tr("Show millimetres"));
  choice(unitGroup_, tr("inch"), static_cast<int>(Unit::inch), tr("Show inches in 64ths"));
  connect(basisGroup_, &QActionGroup::triggered, this, [this](const QAction* action) {
    document_.setBasis(static_cast<Basis>(action->data().toInt()));
  });
  connect(unitGroup_, &QActionGroup::triggered, this, [this](const QAction* action) {
    document_.setUnit(static_cast<Unit>(action->data().toInt()));
  });
}

void MainWindow::makeToolBar() {
  auto* bar = bar_ = new QToolBar(tr("View"), this);
  bar->setMovable(false);
  bar->setContextMenuPolicy(Qt::PreventContextMenu);
  addToolBar(bar);
  QMenu* menu = menuBar()->addMenu(tr("&View"));
  const auto look = [&](const QString& words, const QString& keys, Side side) {
    QAction* action = bar->addAction(words, this, [this, side] { view_->lookFrom(side); });
    action->setShortcut(QKeySequence(keys));
    action->setToolTip(tr("View from the %1 (%2)").arg(words.toLower(), keys));
    menu->addAction(action);
  };
  bar->addWidget(new QLabel(tr("View from")));
  look(tr("Front"), "Ctrl+1", Side::front);
  look(tr("Side"), "Ctrl+2", Side::right);
  look(tr("Top"), "Ctrl+3", Side::top);
  look(tr("Corner"), "Ctrl+4", Side::corner);
  QAction* whole = bar->addAction(tr("Whole piece"), this, &MainWindow::showWhole);
  whole->setShortcut(QKeySequence("Esc"));
  whole->setToolTip(tr("Show the whole piece again (Esc)"));
  menu->addSeparator();
  menu->addAction(whole);

  menu->addSeparator();
  const auto sight = [&](const QString& words, const QString& keys, void (MainWindow::*act)()) {
    menu->addAction(words, QKeySequence(keys), this, act);
  };
  sight(tr("Only the chosen parts"), "Ctrl+Shift+O", &MainWindow::showOnlyChosen);
  sight(tr("Hide the chosen parts"), "Ctrl+H", &MainWindow::hideChosen);
  sight(tr("Show all parts"), "Ctrl+Shift+H", &MainWindow::showHidden);
  sight(tr("Go to the worst finding"), "Ctrl+Shift+F", &MainWindow::goToFinding);
  menu->addSeparator();
  makeSightActions(*menu);

  auto* gap = new QWidget;
  gap->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Preferred);
  bar->addWidget(gap);
  bar->addWidget(new QLabel(tr("Sizes")));
  bar->addActions(basisGroup_->actions());
  bar->addSeparator();
  bar->addWidget(new QLabel(tr("Unit")));
  bar->addActions(unitGroup_->actions());
  menu->addSeparator();
  menu->addActions(basisGroup_->actions());
  menu->addSeparator();
  menu->addActions(unitGroup_->actions());
}

}  // namespace dryfit::viewer
