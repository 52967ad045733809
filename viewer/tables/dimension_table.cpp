#include "viewer/tables/dimension_table.h"

#include "joinery/base/plain_text.h"
#include "joinery/base/unit.h"

#include "viewer/look/look.h"
#include "viewer/look/words.h"

namespace dryfit::viewer {

DimensionTable::DimensionTable(BenchDocument& document, QObject* parent)
    : QAbstractTableModel(parent), document_(document) {
  connect(&document, &BenchDocument::opened, this, [this] {
    beginResetModel();
    rows_ = static_cast<int>(joinery::ownDimensions(document_.model()));
    refusedRow_ = -1;
    endResetModel();
  });
  connect(&document, &BenchDocument::numbersChanged, this, &DimensionTable::refresh);
}

void DimensionTable::refresh() {
  refusedRow_ = -1;
  if (rows_ > 0) Q_EMIT dataChanged(index(0, 0), index(rows_ - 1, columns - 1));
  Q_EMIT headerDataChanged(Qt::Horizontal, value, value);
}

int DimensionTable::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : rows_;
}

int DimensionTable::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : columns;
}

QString DimensionTable::valueWords(const joinery::Dimension& dimension) const {
  const joinery::Piece* piece = document_.piece();
  if (piece == nullptr) return QString::fromUtf8("—");
  const auto found = piece->values.find(dimension.name);
  if (found == piece->values.end()) return QString::fromUtf8("—");
  // Values are kept as if every number counted in the file's unit.
  const double plain = found->second / joinery::millimetresIn(document_.model().unit);
  switch (dimension.quantity) {
    case joinery::Quantity::angle:
      return measureWords(plain, "°", document_.unit());
    case joinery::Quantity::number:
      return measureWords(plain, "", document_.unit());
    case joinery::Quantity::length:
      break;
  }
  return lengthWords(found->second, document_.unit());
}

/// As written, or the word that stands for the number.
QString DimensionTable::writtenWords(const joinery::Dimension& dimension) {
  if (dimension.question && dimension.value.isNumber) {
    const double number = joinery::plainNumber(dimension.value.text);
    for (const auto& [word, value] : dimension.question->options) {
      if (value == number) return QString::fromStdString(word);
    }
  }
  return QString::fromStdString(dimension.value.text);
}

QVariant DimensionTable::data(const QModelIndex& index, int role) const {
  const joinery::Dimension& d = document_.model().dimensions[static_cast<std::size_t>(index.row())];
  const bool refusedCell = index.row() == refusedRow_ && index.column() == written;
  if (role == Qt::BackgroundRole && refusedCell) return QColor(colour::refused);
  if (role == Qt::TextAlignmentRole && index.column() == value) {
    return QVariant(Qt::AlignRight | Qt::AlignVCenter);
  }
  if (role == Qt::ForegroundRole && index.column() == note) return QColor(colour::fadedInk);
  if (role == Qt::ToolTipRole) {
    if (refusedCell) return refusal_;
    if (index.column() == note) return QString::fromStdString(d.note);
    return {};
  }
  if (role != Qt::DisplayRole && role != Qt::EditRole) return {};
  switch (index.column()) {
    case name:
      return QString::fromStdString(d.name);
    case written:
      return writtenWords(d);
    case value:
      return valueWords(d);
    default:
      return QString::fromStdString(d.note);
  }
}

QVariant DimensionTable::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal) return {};
  if (role == Qt::TextAlignmentRole) {
    return QVariant((section == value ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
  }
  if (role != Qt::DisplayRole) return {};
  switch (section) {
    case name:
      return tr("Dimension");
    case written:
      return tr("As written");
    case value:
      return document_.isOpen() ? tr("Value, %1").arg(unitWords(document_.unit())) : tr("Value");
    default:
      return tr("Note");
  }
}

Qt::ItemFlags DimensionTable::flags(const QModelIndex& index) const {
  const Qt::ItemFlags plain = Qt::ItemIsEnabled | Qt::ItemIsSelectable;
  return index.column() == written ? plain | Qt::ItemIsEditable : plain;
}

Result<void> DimensionTable::trial(const QModelIndex& index, const QString& text) const {
  const auto& d = document_.model().dimensions[static_cast<std::size_t>(index.row())];
  return document_.tryEdit(dimensionEdit(d.name, text.trimmed().toStdString()));
}

bool DimensionTable::setData(const QModelIndex& index, const QVariant& entry, int role) {
  if (role != Qt::EditRole || index.column() != written) return false;
  const auto& d = document_.model().dimensions[static_cast<std::size_t>(index.row())];
  const QString text = entry.toString().trimmed();
  if (text == writtenWords(d)) return true;
  const Result<void> done = document_.apply(tr("change of %1").arg(QString::fromStdString(d.name)),
                                            dimensionEdit(d.name, text.toStdString()));
  if (!done) {
    refusedRow_ = index.row();
    refusal_ = QString::fromStdString(done.error().line());
    Q_EMIT dataChanged(index, index);
    Q_EMIT refused(refusal_);
    return false;
  }
  Q_EMIT taken();
  return true;
}

}  // namespace dryfit::viewer
