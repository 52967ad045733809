#include "viewer/pages/stock_page.h"

#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QProgressBar>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

#include "joinery/formula/length_text.h"
#include "joinery/trade/allowances.h"
#include "viewer/document/stock_desk.h"
#include "viewer/look/panels.h"
#include "viewer/pages/saw_choice.h"
#include "viewer/tables/stock_table.h"

namespace dryfit::viewer {
namespace {

QString listFilter() {
  return StockPage::tr("Stock lists (*.json);;All files (*)");
}

}  // namespace

StockPage::StockPage(StockDesk& desk, BenchDocument& document, QWidget* parent)
    : QWidget(parent), desk_(desk), document_(document) {
  table_ = new StockTable(desk_, document_, this);
  view_ = makeTable(table_, this);
  view_->setObjectName("stock");
  sayWhenEmpty(view_, [] { return tr("No stock list yet. Open one with the button above."); });
  int column = 0;
  for (const int width : {112, 92, 60, 54, 76, 52, 58, 80}) view_->setColumnWidth(column++, width);
  connect(table_, &StockTable::refused, this, &StockPage::refused);
  connect(table_, &StockTable::taken, this, [this] { Q_EMIT told({}); });

  auto* all = new QVBoxLayout(this);
  all->setContentsMargins(6, 4, 6, 4);
  all->setSpacing(4);
  all->addWidget(makeHead());
  all->addWidget(view_, 1);
  all->addWidget(makeFoot());

  connect(&desk_, &StockDesk::listChanged, this, &StockPage::refresh);
  connect(&desk_, &StockDesk::workingChanged, this, &StockPage::refresh);
  connect(&desk_, &StockDesk::failed, this, &StockPage::refused);
  connect(&desk_, &StockDesk::progressed, this, [this](int percent) { bar_->setValue(percent); });
  connect(&document_, &BenchDocument::numbersChanged, this, &StockPage::refresh);
  refresh();
}

StockPage::~StockPage() {
  view_->setModel(nullptr);
}

QWidget* StockPage::makeHead() {
  auto* head = new QWidget;
  auto* row = new QHBoxLayout(head);
  row->setContentsMargins(0, 0, 0, 0);
  auto* open = new QPushButton(tr("Open stock list…"));
  save_ = new QPushButton(tr("Save stock list…"));
  file_ = new QLabel;
  file_->setProperty("role", "aside");
  row->addWidget(open);
  row->addWidget(save_);
  row->addWidget(file_, 1);
  trim_ = makeShortLine(desk_.settings().sheetTrim, tr("Trimmed off every edge of a sheet first"));
  auto* trimWords = new QLabel(tr("Sheet &trim"));
  trimWords->setBuddy(trim_);
  row->addWidget(trimWords);
  row->addWidget(trim_);
  connect(open, &QPushButton::clicked, this, &StockPage::askAndOpen);
  connect(save_, &QPushButton::clicked, this, &StockPage::askAndSave);
  return head;
}

QWidget* StockPage::makeFoot() {
  auto* foot = new QWidget;
  boardSaw_ = new SawChoice(tr("&Boards:"), false);
  sheetSaw_ = new SawChoice(tr("S&heets:"), true);
  boardSaw_->setObjectName("boardSaw");
  sheetSaw_->setObjectName("sheetSaw");
  bar_ = new QProgressBar;
  bar_->setRange(0, 100);
  bar_->setTextVisible(false);
  bar_->setFixedHeight(10);
  // Keeps its place when it is not shown, so that nothing moves.
  QSizePolicy place = bar_->sizePolicy();
  place.setRetainSizeWhenHidden(true);
  bar_->setSizePolicy(place);
  go_ = new QPushButton;
  go_->setObjectName("layOut");
  connect(go_, &QPushButton::clicked, this, &StockPage::layOutOrStop);

  auto* row = new QHBoxLayout(foot);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(12);
  row->addWidget(boardSaw_);
  row->addWidget(sheetSaw_);
  row->addWidget(bar_, 1);
  row->addWidget(go_);
  return foot;
}

bool StockPage::openList(const std::filesystem::path& path) {
  if (const auto done = desk_.open(path); !done) {
    Q_EMIT refused(QString::fromStdString(done.error().line()));
    return false;
  }
  Q_EMIT told({});
  return true;
}

bool StockPage::mayLeave() {
  if (!desk_.isChanged()) return true;
  const QString name = QFileInfo(QString::fromStdString(desk_.path().string())).fileName();
  switch (
      askAboutUnsaved(this, tr("The changes to the stock list %1 are not saved yet.").arg(name))) {
    case Unsaved::save:
      return save(desk_.path());
    case Unsaved::drop:
      return true;
    case Unsaved::stay:
      break;
  }
  return false;
}

bool StockPage::save(const std::filesystem::path& path) {
  if (const auto done = desk_.saveAs(path); !done) {
    Q_EMIT refused(QString::fromStdString(done.error().line()));
    return false;
  }
  Q_EMIT told(tr("Saved as %1").arg(QString::fromStdString(path.string())));
  return true;
}

void StockPage::askAndOpen() {
  if (!mayLeave()) return;
  const auto folder = QString::fromStdString(document_.path().parent_path().string());
  const QString name =
      QFileDialog::getOpenFileName(this, tr("Open a stock list"), folder, listFilter());
  if (!name.isEmpty()) openList(name.toStdString());
}

void StockPage::askAndSave() {
  const QString name =
      QFileDialog::getSaveFileName(this, tr("Save the stock list as"),
                                   QString::fromStdString(desk_.path().string()), listFilter());
  if (!name.isEmpty()) save(name.toStdString());
}

/// A kerf or trim in mm; nothing, and told, where it is no such length or more than `most`.
std::optional<double> StockPage::readLength(const QString& text, double most) {
  const auto typed = joinery::parseLength(text.toStdString(), document_.unit());
  if (typed && typed->mm() >= 0 && typed->mm() <= most) return typed->mm();
  Q_EMIT refused(tr("'%1' is not a kerf or trim: write a length up to %2 mm, such as 3.2 mm")
                     .arg(text)
                     .arg(most));
  return {};
}

/// Reads machines, kerfs and trim; false, and told, where one is no length.
bool StockPage::takeSettings() {
  joinery::LayoutSettings settings = desk_.settings();
  for (auto [saw, kerf] :
       {std::pair{boardSaw_, &settings.boardKerf}, {sheetSaw_, &settings.sheetKerf}}) {
    const auto typed = readLength(saw->kerfText(), joinery::kWidestKerf);
    if (!typed) {
      saw->typeKerfAgain();
      return false;
    }
    *kerf = *typed;
  }
  const auto trim = readLength(trim_->text(), joinery::kWidestTrim);
  if (!trim) {
    trim_->setFocus();
    return false;
  }
  settings.sheetTrim = *trim;
  settings.unit = document_.unit();
  settings.sheetMethod = sheetSaw_->machine() == joinery::Machine::router
                             ? joinery::CutMethod::free
                             : joinery::CutMethod::throughCuts;
  desk_.setSettings(settings);
  return true;
}

void StockPage::layOutOrStop() {
  if (desk_.isWorking()) {
    desk_.stop();
    return;
  }
  if (!takeSettings()) return;
  bar_->setValue(0);
  if (const auto done = desk_.layOut(); !done) {
    Q_EMIT refused(QString::fromStdString(done.error().line()));
  } else {
    Q_EMIT told(tr("Laying out the parts…"));
  }
}

void StockPage::refresh() {
  const bool any = !desk_.list().items.empty();
  save_->setEnabled(any);
  file_->setText(any ? QFileInfo(QString::fromStdString(desk_.path().string())).fileName() +
                           (desk_.isChanged() ? tr(" (changed)") : QString())
                     : tr("Boards and sheets at hand, as measured"));
  go_->setText(desk_.isWorking() ? tr("Stop and keep the best") : tr("Lay out"));
  go_->setEnabled(any && document_.piece() != nullptr);
  bar_->setVisible(desk_.isWorking());
}

}  // namespace dryfit::viewer
