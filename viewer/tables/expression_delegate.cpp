#include "viewer/tables/expression_delegate.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <utility>

#include "viewer/look/look.h"

namespace dryfit::viewer {
namespace {
constexpr auto kRefusal = "refusal";  // property of the line: why its text cannot be taken
}

ExpressionDelegate::ExpressionDelegate(Trial trial, QObject* parent)
    : QStyledItemDelegate(parent), trial_(std::move(trial)) {}

QWidget* ExpressionDelegate::createEditor(QWidget* parent, const QStyleOptionViewItem&,
                                          const QModelIndex& index) const {
  auto* line = new QLineEdit(parent);
  line->setFrame(false);
  line->setProperty(kRefusal, QString());
  const QPersistentModelIndex cell(index);
  connect(line, &QLineEdit::textEdited, this, [this, line, cell](const QString& text) {
    const Result<void> verdict = trial_(cell, text);
    const QString why = verdict ? QString() : QString::fromStdString(verdict.error().line());
    line->setProperty(kRefusal, why);
    line->setToolTip(why);
    line->setStyleSheet(why.isEmpty() ? QString()
                                      : QString("background: %1;").arg(colour::refused.name()));
    if (why.isEmpty()) {
      Q_EMIT welcome();
    } else {
      Q_EMIT refused(why);
    }
  });
  return line;
}

QSize ExpressionDelegate::sizeHint(const QStyleOptionViewItem& option,
                                   const QModelIndex& index) const {
  QSize size = QStyledItemDelegate::sizeHint(option, index);
  size.setHeight(size.height() + 4);
  return size;
}

bool ExpressionDelegate::eventFilter(QObject* editor, QEvent* event) {
  if (event->type() == QEvent::KeyPress) {
    const int key = static_cast<QKeyEvent*>(event)->key();
    const QString why = editor->property(kRefusal).toString();
    if ((key == Qt::Key_Return || key == Qt::Key_Enter || key == Qt::Key_Tab) && !why.isEmpty()) {
      Q_EMIT refused(why);
      return true;
    }
    if (key == Qt::Key_Escape) Q_EMIT welcome();
  }
  return QStyledItemDelegate::eventFilter(editor, event);
}

}  // namespace dryfit::viewer
