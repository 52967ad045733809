#pragma once

#include <QStyledItemDelegate>
#include <functional>

#include "kernel/result.h"

namespace dryfit::viewer {

/// A line to type an expression in. What is typed is tried on every stroke: an entry that cannot be
/// turns the line red and says why, and Enter then leaves the line open.
class ExpressionDelegate : public QStyledItemDelegate {
  Q_OBJECT
 public:
  /// Says whether the text could be put into the cell.
  using Trial = std::function<Result<void>(const QModelIndex& index, const QString& text)>;
  explicit ExpressionDelegate(Trial trial, QObject* parent = nullptr);

  [[nodiscard]] QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                                      const QModelIndex& index) const override;
  [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option,
                               const QModelIndex& index) const override;

 Q_SIGNALS:
  void refused(const QString& line) const;
  void welcome() const;  ///< what is typed now could be taken

 protected:
  bool eventFilter(QObject* editor, QEvent* event) override;

 private:
  Trial trial_;
};

}  // namespace dryfit::viewer
