#include "viewer/panels.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QTableView>
#include <QVBoxLayout>

namespace dryfit::viewer {

QTableView* makeTable(QAbstractItemModel* model, QWidget* parent) {
  auto* table = new QTableView(parent);
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
