#include "viewer/tables/joint_tree.h"

#include "joinery/joints/joint_kinds.h"

#include <QHeaderView>
#include <QSignalBlocker>
#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "joinery/joints/joint_kind.h"
#include "viewer/look/look.h"
#include "viewer/look/panels.h"
#include "viewer/look/words.h"
#include "viewer/tables/expression_delegate.h"

namespace dryfit::viewer {
namespace {

constexpr int kParameterRole = Qt::UserRole;  // of a number's row: its name in the model file

const std::string* given(const joinery::Joint& joint, const std::string& parameter) {
  for (const auto& [name, value] : joint.parameters) {
    if (name == parameter) return &value.text;
  }
  return nullptr;
}

/// A number's words and a parameter's key may differ in their blanks.
std::string plainKey(std::string_view name) {
  std::string key(name);
  std::replace_if(
      key.begin(), key.end(), [](char c) { return c == ' ' || c == '-'; }, '_');
  return key;
}

/// A line under a joint: a number worked out, a parameter that may be set, or both in one.
struct NumberRow {
  std::string key;  ///< of the parameter in the model file; empty where none can be set
  QString words;
  std::optional<joinery::JointValue> value;
};

/// All numbers of the joint, then the parameters that have none (words, and what is left to the
/// rules).
std::vector<NumberRow> rowsOf(const joinery::Piece* piece, std::size_t index,
                              const joinery::JointKind* kind) {
  std::vector<NumberRow> rows;
  if (piece != nullptr && index < piece->joints.size()) {
    for (const joinery::JointValue& v : piece->joints[index].values) {
      rows.push_back({{}, spaced(v.name), v});
    }
  }
  if (kind == nullptr) return rows;
  for (const joinery::Parameter& p : kind->parameters()) {
    const auto row = std::find_if(rows.begin(), rows.end(), [&](const NumberRow& r) {
      return r.value && plainKey(r.value->name) == plainKey(p.name);
    });
    if (row != rows.end()) {
      row->key = p.name;
    } else {
      rows.push_back({std::string(p.name), spaced(p.name), std::nullopt});
    }
  }
  return rows;
}

QString numberWords(const NumberRow& row, const std::string* written, joinery::Unit unit) {
  if (row.value) {
    return row.value->isLength ? fineLengthWords(row.value->value, unit)
                               : measureWords(row.value->value, "", unit);
  }
  return written != nullptr ? QString::fromStdString(*written) : QString::fromUtf8("—");
}

QString originWords(const NumberRow& row, const std::string* written) {
  if (written != nullptr) return JointTree::tr("set to %1").arg(QString::fromStdString(*written));
  if (row.value) return QString::fromStdString(row.value->source);
  return JointTree::tr("default");
}

/// Only the number's own column can be typed into, and only where its row says so.
class NumberDelegate : public ExpressionDelegate {
 public:
  using ExpressionDelegate::ExpressionDelegate;
  QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option,
                        const QModelIndex& index) const override {
    if (index.column() != JointTree::number) return nullptr;
    return ExpressionDelegate::createEditor(parent, option, index);
  }
};

}  // namespace

JointTree::JointTree(BenchDocument& document, QWidget* parent)
    : QTreeWidget(parent), document_(document) {
  setColumnCount(columns);
  setHeaderLabels({tr("Joint"), tr("Number"), tr("From")});
  headerItem()->setTextAlignment(number, Qt::AlignRight | Qt::AlignVCenter);
  header()->setStretchLastSection(false);
  header()->setSectionResizeMode(joint, QHeaderView::Stretch);
  setAlternatingRowColors(true);
  setUniformRowHeights(true);
  setIndentation(12);
  showWholeTextsOf(this);
  setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed |
                  QAbstractItemView::AnyKeyPressed);
  auto* delegate = new NumberDelegate(
      [this](const QModelIndex& cell, const QString& text) {
        return document_.tryEdit(editOf(cell, text));
      },
      this);
  setItemDelegate(delegate);
  connect(delegate, &ExpressionDelegate::refused, this, &JointTree::refused);
  connect(delegate, &ExpressionDelegate::welcome, this, &JointTree::taken);
  connect(&document, &BenchDocument::opened, this, &JointTree::rebuild);
  connect(&document, &BenchDocument::listsChanged, this, &JointTree::rebuild);
  connect(&document, &BenchDocument::numbersChanged, this, &JointTree::refresh);
  connect(this, &QTreeWidget::itemChanged, this, [this](QTreeWidgetItem* item, int column) {
    if (column == number) take(item, item->data(number, Qt::EditRole).toString());
  });
  connect(this, &QTreeWidget::currentItemChanged, this, [this](QTreeWidgetItem* item) {
    if (item == nullptr || document_.piece() == nullptr) return;
    if (item->parent() != nullptr) item = item->parent();
    const auto index = static_cast<std::size_t>(indexOfTopLevelItem(item));
    if (index < document_.piece()->joints.size()) {
      Q_EMIT partsChosen(document_.piece()->joints[index].mates);
      Q_EMIT jointChosen(document_.piece()->model.joints[index].name);
    }
  });
}

std::string JointTree::currentJoint() const {
  QTreeWidgetItem* item = currentItem();
  while (item != nullptr && item->parent() != nullptr) item = item->parent();
  const int index = item == nullptr ? -1 : indexOfTopLevelItem(item);
  const auto& joints = document_.model().joints;
  if (index < 0 || static_cast<std::size_t>(index) >= joints.size()) return {};
  return joints[static_cast<std::size_t>(index)].name;
}

void JointTree::choose(const std::string& name) {
  const auto& joints = document_.model().joints;
  const auto own = std::ranges::find(joints, name, &joinery::Joint::name);
  if (own == joints.end()) return;
  QTreeWidgetItem* item = topLevelItem(static_cast<int>(own - joints.begin()));
  if (item == nullptr) return;
  setCurrentItem(item);
  scrollToItem(item);
}

void JointTree::rebuild() {
  const QSignalBlocker quiet(this);
  clear();
  const joinery::Model& model = document_.model();
  for (const joinery::Joint& j : model.joints) {
    auto* item = new QTreeWidgetItem(this);
    item->setText(joint, mateWords(model, j));
    item->setText(from, spaced(j.kind));
    item->setToolTip(joint, item->text(joint) + '\n' + titled(spaced(j.name)));
  }
  refresh();
  setColumnWidth(number, 84);
  setColumnWidth(from, 176);
}

void JointTree::refresh() {
  const QSignalBlocker quiet(this);
  for (int i = 0; i < topLevelItemCount(); ++i) {
    fillNumbers(topLevelItem(i), static_cast<std::size_t>(i));
  }
  viewport()->update();
}

void JointTree::fillNumbers(QTreeWidgetItem* item, std::size_t index) {
  const joinery::Joint& j = document_.model().joints[index];
  const joinery::JointKind* kind = joinery::jointKindNamed(j.kind);
  const std::vector<NumberRow> rows = rowsOf(document_.piece(), index, kind);
  while (item->childCount() > static_cast<int>(rows.size())) {
    delete item->takeChild(item->childCount() - 1);
  }
  for (int i = 0; i < static_cast<int>(rows.size()); ++i) {
    const NumberRow& row = rows[static_cast<std::size_t>(i)];
    const std::string* written = given(j, row.key);
    const bool open = !row.key.empty();
    QTreeWidgetItem* child = i < item->childCount() ? item->child(i) : new QTreeWidgetItem(item);
    child->setText(joint, row.words);
    child->setData(joint, kParameterRole, QString::fromStdString(row.key));
    child->setText(number, numberWords(row, written, document_.unit()));
    child->setTextAlignment(number, Qt::AlignRight | Qt::AlignVCenter);
    child->setText(from, originWords(row, written));
    child->setToolTip(from, child->text(from));
    child->setForeground(from, QColor(colour::fadedInk));
    child->setFlags(open ? child->flags() | Qt::ItemIsEditable
                         : child->flags() & ~Qt::ItemIsEditable);
    child->setForeground(number, QColor(open ? colour::accent : colour::ink));
  }
}

BenchDocument::Edit JointTree::editOf(const QModelIndex& cell, const QString& text) const {
  const auto& j = document_.model().joints[static_cast<std::size_t>(cell.parent().row())];
  const QString name = cell.siblingAtColumn(joint).data(kParameterRole).toString();
  return jointEdit(j.name, name.toStdString(), text.trimmed().toStdString());
}

void JointTree::take(QTreeWidgetItem* item, const QString& text) {
  if (item->parent() == nullptr) return;
  const QModelIndex cell = indexFromItem(item, number);
  const auto done = document_.apply(tr("change of %1").arg(item->text(joint)), editOf(cell, text));
  if (done) {
    Q_EMIT taken();
  } else {
    Q_EMIT refused(QString::fromStdString(done.error().line()));
  }
  refresh();
}

}  // namespace dryfit::viewer
