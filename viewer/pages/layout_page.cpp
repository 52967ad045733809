#include "viewer/pages/layout_page.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QListWidget>
#include <QScrollArea>
#include <QSignalBlocker>
#include <QStringList>
#include <QVBoxLayout>
#include <algorithm>

#include "export/layout/layout_words.h"
#include "viewer/document/bench_document.h"
#include "viewer/document/stock_desk.h"
#include "viewer/look/look.h"
#include "viewer/look/panels.h"
#include "viewer/look/words.h"
#include "viewer/pages/layout_picture.h"

namespace dryfit::viewer {
namespace {

QLabel* wrapped() {
  auto* label = new QLabel;
  label->setWordWrap(true);
  label->setMargin(2);
  return label;
}

}  // namespace

LayoutPage::LayoutPage(StockDesk& desk, BenchDocument& document, QWidget* parent)
    : QWidget(parent),
      desk_(desk),
      list_(new QListWidget),
      picture_(new LayoutPicture),
      words_(wrapped()),
      lacking_(wrapped()) {
  list_->setObjectName("layoutStock");
  picture_->setObjectName("layoutPicture");
  lacking_->setObjectName("layoutLacking");
  words_->setProperty("role", "aside");
  lacking_->setStyleSheet(QString("color: %1;").arg(colourOf(joinery::Severity::error).name()));
  list_->setFixedWidth(214);
  list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  list_->setTextElideMode(Qt::ElideMiddle);
  list_->setAlternatingRowColors(true);
  showWholeTextsOf(list_);
  auto* right = new QVBoxLayout;
  right->setSpacing(2);
  right->addWidget(picture_, 1);
  right->addWidget(sums());
  auto* all = new QHBoxLayout(this);
  all->setContentsMargins(6, 4, 6, 4);
  all->addWidget(list_);
  all->addLayout(right, 1);
  connect(&desk_, &StockDesk::laidOut, this, &LayoutPage::rebuild);
  connect(&desk_, &StockDesk::listChanged, this, &LayoutPage::refreshWords);
  connect(&document, &BenchDocument::numbersChanged, this, &LayoutPage::refreshWords);
  connect(list_, &QListWidget::currentRowChanged, this, &LayoutPage::showRow);
  connect(picture_, &LayoutPicture::partChosen, this,
          [this](joinery::PartId part) { Q_EMIT partsChosen({part}); });
  rebuild();
}

/// A line for each material; where there are many, they leave the picture its room and are
/// scrolled.
QWidget* LayoutPage::sums() {
  auto* lines = new QWidget;
  auto* column = new QVBoxLayout(lines);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(2);
  column->addWidget(words_);
  column->addWidget(lacking_);
  column->addStretch(1);
  auto* scrolled = new QScrollArea;
  scrolled->setWidget(lines);
  scrolled->setWidgetResizable(true);
  scrolled->setFrameShape(QFrame::NoFrame);
  scrolled->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  constexpr int kMost = 88;  // pixels
  scrolled->setMaximumHeight(kMost);
  return scrolled;
}

void LayoutPage::rebuild() {
  job_ = desk_.job();
  {
    const QSignalBlocker quiet(list_);
    list_->clear();
    if (job_) {
      for (const joinery::StockLayout& one : job_->layout.stock) {
        const QString name = QString::fromStdString(job_->nameOfStock(one));
        const QString use =
            QString::fromStdString(exporting::percentText(exporting::useOf(*job_, one)));
        list_->addItem(tr("%1   %2").arg(name, use));
        list_->item(list_->count() - 1)->setToolTip(tr("%1: %2 becomes parts").arg(name, use));
      }
    }
    list_->setCurrentRow(list_->count() > 0 ? 0 : -1);
  }
  showRow(list_->currentRow());
  refreshWords();
}

void LayoutPage::refreshWords() {
  if (!job_) {
    words_->setText(tr(
        "Nothing is laid out yet: open a stock list on the Stock page and press “Lay out” there."));
    lacking_->hide();
    return;
  }
  QStringList lines;
  if (desk_.isOutdated())
    lines << tr("The parts or the stock have changed since then: lay out again.");
  if (!job_->layout.finished) lines << tr("Stopped early: this is the best so far.");
  QStringList bounds;
  for (const joinery::MaterialSummary& m : job_->layout.materials) {
    const auto text = [](const std::string& words) { return QString::fromStdString(words); };
    const QString bound = text(exporting::boundSentence(*job_, m));
    const QString least =
        bound.isEmpty() ? QString()
                        : tr(", at least %1").arg(text(exporting::costText(*job_, m, m.bound)));
    lines << tr("%1: %2 of %3 pieces, %4%5, %6 used, %7 cuts")
                 .arg(titled(text(exporting::namesOf(m.materials))))
                 .arg(m.placed)
                 .arg(m.blanks)
                 .arg(text(exporting::costText(*job_, m, m.cost)), least,
                      text(exporting::percentText(exporting::useOf(m))))
                 .arg(m.cuts);
    if (!bound.isEmpty()) bounds << titled(text(exporting::namesOf(m.materials))) + ": " + bound;
  }
  words_->setToolTip(bounds.join("\n"));
  words_->setText(lines.join("\n"));
  QStringList lacking;
  for (const exporting::LackingRow& row : exporting::lackingRows(*job_)) {
    const joinery::Unplaced& one = *row.one;
    const QString why = QString::fromStdString(one.why), buy = QString::fromStdString(one.buy);
    const QString who = QString::fromStdString(exporting::namesOf(*job_, row));
    lacking << (row.count == 1 ? tr("%1 does not fit: %2. Buy %3.").arg(who, why, buy)
                               : tr("%1 do not fit: %2. Buy for each %3.").arg(who, why, buy));
  }
  lacking_->setText(lacking.join("\n"));
  lacking_->setVisible(!lacking.isEmpty());
}

void LayoutPage::showRow(int row) {
  picture_->show(row < 0 ? nullptr : job_, row < 0 ? 0 : static_cast<std::size_t>(row));
}

bool LayoutPage::holds(int row, const std::vector<joinery::PartId>& parts) const {
  if (row < 0) return false;
  const auto& blanks = job_->layout.stock[static_cast<std::size_t>(row)].blanks;
  return std::any_of(blanks.begin(), blanks.end(), [&](const joinery::PlacedBlank& placed) {
    const auto& part = job_->blankOf(placed.blank).part;
    return part && std::find(parts.begin(), parts.end(), *part) != parts.end();
  });
}

void LayoutPage::choose(const std::vector<joinery::PartId>& parts) {
  picture_->choose(parts);
  if (parts.empty() || !job_ || holds(list_->currentRow(), parts)) return;
  for (int row = 0; row < list_->count(); ++row) {
    if (!holds(row, parts)) continue;
    list_->setCurrentRow(row);
    return;
  }
}

}  // namespace dryfit::viewer
