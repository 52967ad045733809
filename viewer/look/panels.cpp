#include "viewer/look/panels.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QHelpEvent>
#include <QLabel>
#include <QMessageBox>
#include <QPushButton>
#include <QScrollArea>
#include <QStyleOptionViewItem>
#include <QTableView>
#include <QToolTip>
#include <QVBoxLayout>
#include <utility>

namespace dryfit::viewer {
namespace {

/// F2 and a double click anywhere in a row open the row's first cell that can be typed into.
class EntryTable : public QTableView {
 public:
  using QTableView::QTableView;

 protected:
  bool edit(const QModelIndex& index, EditTrigger trigger, QEvent* event) override {
    const bool asked = trigger == EditKeyPressed || trigger == DoubleClicked;
    if (!asked || !index.isValid() || canType(index)) {
      return QTableView::edit(index, trigger, event);
    }
    for (int column = 0; column < model()->columnCount(); ++column) {
      const QModelIndex other = index.siblingAtColumn(column);
      if (!canType(other)) continue;
      setCurrentIndex(other);
      return QTableView::edit(other, trigger, event);
    }
    return false;
  }

 private:
  static bool canType(const QModelIndex& index) {
    return index.flags().testFlag(Qt::ItemIsEditable);
  }
};

class WholeTexts : public QObject {
 public:
  explicit WholeTexts(QAbstractItemView* view) : QObject(view), view_(view) {}

  bool eventFilter(QObject*, QEvent* event) override {
    if (event->type() != QEvent::ToolTip) return false;
    const auto* help = static_cast<QHelpEvent*>(event);
    const QModelIndex index = view_->indexAt(help->pos());
    if (!index.isValid() || !index.data(Qt::ToolTipRole).toString().isEmpty()) return false;
    const QString text = index.data(Qt::DisplayRole).toString();
    constexpr int kPadding = 16;  // left and right of the text in a cell
    const QRect cell = view_->visualRect(index);
    if (view_->fontMetrics().horizontalAdvance(text) + kPadding <= cell.width()) return false;
    QToolTip::showText(help->globalPos(), text, view_->viewport(), cell);
    return true;
  }

 private:
  QAbstractItemView* view_;
};

/// The line of `sayWhenEmpty`, laid over the view's rows.
class QuietLine : public QLabel {
 public:
  QuietLine(QAbstractItemView* view, std::function<QString()> words)
      : QLabel(view->viewport()), view_(view), words_(std::move(words)) {
    setObjectName("quietLine");
    setProperty("role", "aside");
    setAlignment(Qt::AlignCenter);
    setWordWrap(true);
    setMargin(8);
    setAttribute(Qt::WA_TransparentForMouseEvents);
    view->viewport()->installEventFilter(this);
    const QAbstractItemModel* model = view->model();
    connect(model, &QAbstractItemModel::modelReset, this, &QuietLine::refresh);
    connect(model, &QAbstractItemModel::rowsInserted, this, &QuietLine::refresh);
    connect(model, &QAbstractItemModel::rowsRemoved, this, &QuietLine::refresh);
    refresh();
  }

  bool eventFilter(QObject*, QEvent* event) override {
    if (event->type() == QEvent::Resize) resize(view_->viewport()->size());
    return false;
  }

 private:
  void refresh() {
    const bool empty = view_->model() == nullptr || view_->model()->rowCount() == 0;
    setText(empty ? words_() : QString());
    setVisible(!text().isEmpty());
    resize(view_->viewport()->size());
  }

  QAbstractItemView* view_;
  std::function<QString()> words_;
};

}  // namespace

void sayWhenEmpty(QAbstractItemView* view, std::function<QString()> words) {
  new QuietLine(view, std::move(words));  // the view's viewport owns it
}

void showWholeTextsOf(QAbstractItemView* view) {
  view->viewport()->installEventFilter(new WholeTexts(view));
}

QWidget* scrolled(QWidget* page) {
  auto* scroll = new QScrollArea;
  scroll->setWidget(page);
  scroll->setWidgetResizable(true);
  scroll->setFrameShape(QFrame::NoFrame);
  return scroll;
}

Unsaved askAboutUnsaved(QWidget* parent, const QString& question) {
  QMessageBox box(QMessageBox::Question, HeadedPanel::tr("Unsaved changes"), question,
                  QMessageBox::NoButton, parent);
  const QPushButton* keep = box.addButton(HeadedPanel::tr("Save"), QMessageBox::AcceptRole);
  const QPushButton* drop =
      box.addButton(HeadedPanel::tr("Don't save"), QMessageBox::DestructiveRole);
  box.addButton(HeadedPanel::tr("Cancel"), QMessageBox::RejectRole);
  box.exec();
  const QAbstractButton* pressed = box.clickedButton();
  if (pressed == keep) return Unsaved::save;
  return pressed == drop ? Unsaved::drop : Unsaved::stay;
}

QTableView* makeTable(QAbstractItemModel* model, QWidget* parent) {
  auto* table = new EntryTable(parent);
  table->setTabKeyNavigation(false);
  showWholeTextsOf(table);
  table->setModel(model);
  table->setSelectionBehavior(QAbstractItemView::SelectRows);
  table->setSelectionMode(QAbstractItemView::SingleSelection);
  table->setAlternatingRowColors(true);
  table->setShowGrid(false);
  table->setWordWrap(false);
  table->setCornerButtonEnabled(false);
  table->verticalHeader()->hide();
  table->verticalHeader()->setDefaultSectionSize(24);
  table->horizontalHeader()->setHighlightSections(false);
  table->horizontalHeader()->setStretchLastSection(true);
  table->setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed |
                         QAbstractItemView::AnyKeyPressed);
  return table;
}

HeadedPanel::HeadedPanel(const QString& heading, QWidget* content, QWidget* parent)
    : QWidget(parent),
      aside_(new QLabel(this)),
      footnote_(new QLabel(this)),
      top_(new QHBoxLayout) {
  auto* head = new QLabel(heading, this);
  head->setProperty("role", "heading");
  aside_->setProperty("role", "aside");
  footnote_->setProperty("role", "aside");
  footnote_->setWordWrap(true);
  footnote_->setMargin(4);
  footnote_->hide();
  top_->setContentsMargins(4, 0, 4, 0);
  top_->addWidget(head);
  top_->addWidget(aside_);
  top_->addStretch(1);
  auto* all = new QVBoxLayout(this);
  all->setContentsMargins(6, 6, 6, 6);
  all->setSpacing(5);
  all->addLayout(top_);
  all->addWidget(content, 1);
  all->addWidget(footnote_);
}

void HeadedPanel::setAside(const QString& words, const QColor& colour) {
  aside_->setText(words);
  aside_->setStyleSheet(QString("color: %1;").arg(colour.name()));
}

void HeadedPanel::setCorner(QWidget* corner) {
  top_->addWidget(corner);
}

void HeadedPanel::setFootnote(const QString& words) {
  footnote_->setText(words);
  footnote_->setVisible(!words.isEmpty());
}

}  // namespace dryfit::viewer
