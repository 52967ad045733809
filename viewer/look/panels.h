#pragma once

#include <QString>
#include <QWidget>
#include <functional>

class QAbstractItemView;
class QHBoxLayout;
class QLabel;
class QTableView;
class QAbstractItemModel;

namespace dryfit::viewer {

/// A table set up like all of ours: whole rows, no grid numbers, calm colours. The view does not
/// own the model.
[[nodiscard]] QTableView* makeTable(QAbstractItemModel* model, QWidget* parent);

/// Where a cell is too narrow for its text and has no tip of its own, the tip shows the whole text.
void showWholeTextsOf(QAbstractItemView* view);

/// Says `words` in the middle of the view as long as it has no rows; nothing where they are empty.
void sayWhenEmpty(QAbstractItemView* view, std::function<QString()> words);

/// A page that is scrolled where it is higher than its place.
[[nodiscard]] QWidget* scrolled(QWidget* page);

/// What to do about changes that are not saved yet.
enum class Unsaved { save, drop, stay };
[[nodiscard]] Unsaved askAboutUnsaved(QWidget* parent, const QString& question);

/// A panel with a heading above its content.
class HeadedPanel : public QWidget {
  Q_OBJECT
 public:
  HeadedPanel(const QString& heading, QWidget* content, QWidget* parent = nullptr);
  /// Words beside the heading.
  void setAside(const QString& words, const QColor& colour);
  /// Something at the end of the heading's line.
  void setCorner(QWidget* corner);
  /// A line below the content; hidden where empty.
  void setFootnote(const QString& words);

 private:
  QLabel* aside_;
  QLabel* footnote_;
  QHBoxLayout* top_;
};

}  // namespace dryfit::viewer
