#include "viewer/tables/measured_table.h"

#include "joinery/formula/length_text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "viewer/look/look.h"
#include "viewer/look/words.h"

namespace dryfit::viewer {
namespace {

using Scope = joinery::Measurement::Scope;
using joinery::SizeName;

QString sizeWords(SizeName size) {
  switch (size) {
    case SizeName::length:
      return MeasuredTable::tr("length");
    case SizeName::width:
      return MeasuredTable::tr("width");
    case SizeName::thickness:
      break;
  }
  return MeasuredTable::tr("thickness");
}

}  // namespace

MeasuredTable::MeasuredTable(BenchDocument& document, QObject* parent)
    : QAbstractTableModel(parent), document_(document) {
  connect(&document, &BenchDocument::opened, this, &MeasuredTable::rebuild);
  connect(&document, &BenchDocument::listsChanged, this, &MeasuredTable::rebuild);
  connect(&document, &BenchDocument::numbersChanged, this, [this] {
    refusedRow_ = -1;
    if (!rows_.empty()) Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, columns - 1));
    Q_EMIT headerDataChanged(Qt::Horizontal, drawn, difference);
  });
}

void MeasuredTable::rebuild() {
  beginResetModel();
  rows_.clear();
  const joinery::Model& model = document_.model();
  for (const joinery::Material& m : model.materials) {
    rows_.push_back(
        {Scope::material, m.name, SizeName::thickness, tr("All %1").arg(spaced(m.name))});
  }
  std::set<std::string> seen;
  for (const joinery::Part& p : model.parts) {
    if (p.batch.empty() || !seen.insert(p.batch).second) continue;
    rows_.push_back(
        {Scope::batch, p.batch, SizeName::thickness, tr("Batch %1").arg(spaced(p.batch))});
  }
  for (const joinery::Part& p : model.parts) {
    for (const SizeName s : {SizeName::width, SizeName::thickness, SizeName::length}) {
      rows_.push_back({Scope::part, p.name, s, labelWords(p)});
    }
  }
  refusedRow_ = -1;
  endResetModel();
}

int MeasuredTable::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int MeasuredTable::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : columns;
}

std::optional<double> MeasuredTable::drawnSize(const Row& row) const {
  const joinery::Piece* piece = document_.drawnPiece();
  if (piece == nullptr) return std::nullopt;
  if (row.scope == Scope::material) {
    const auto found = piece->values.find(row.name + ".thickness");
    return found == piece->values.end() ? std::nullopt : std::optional(found->second);
  }
  for (std::size_t i = 0; i < piece->parts.size(); ++i) {
    const joinery::Part& p = piece->model.parts[i];
    if (row.scope == Scope::batch && p.batch == row.name) return piece->parts[i].size.z;
    if (row.scope == Scope::part && p.name == row.name) {
      return piece->parts[i].size[static_cast<int>(row.size)];
    }
  }
  return std::nullopt;
}

const joinery::Measurement* MeasuredTable::record(const Row& row) const {
  for (const joinery::Measurement& m : document_.model().measurements) {
    if (m.scope == row.scope && m.name == row.name && m.size == row.size) return &m;
  }
  return nullptr;
}

QVariant MeasuredTable::data(const QModelIndex& index, int role) const {
  const auto at = static_cast<std::size_t>(index.row());
  const Row& row = rows_[at];
  const bool refusedCell = index.row() == refusedRow_ && index.column() == measured;
  if (role == Qt::BackgroundRole && refusedCell) return QColor(colour::refused);
  if (role == Qt::ToolTipRole && refusedCell) return refusal_;
  if (role == Qt::TextAlignmentRole && index.column() >= drawn) {
    return QVariant(Qt::AlignRight | Qt::AlignVCenter);
  }
  if (role != Qt::DisplayRole && role != Qt::EditRole) return {};
  const joinery::Measurement* m = record(row);
  switch (index.column()) {
    case what: {
      const bool again =
          at > 0 && rows_[at - 1].scope == row.scope && rows_[at - 1].name == row.name;
      return again && role == Qt::DisplayRole ? QString() : row.words;
    }
    case size:
      return sizeWords(row.size);
    case drawn: {
      const auto d = drawnSize(row);
      return d ? lengthWords(*d, document_.unit()) : QString::fromUtf8("—");
    }
    case measured: {
      if (m == nullptr) return QString();
      if (role == Qt::EditRole) return QString::fromStdString(m->value.text);
      // Records are plain lengths; one that is not shows as it was written.
      const auto length = joinery::parseLength(m->value.text, document_.model().unit);
      return length ? lengthWords(length->mm(), document_.unit())
                    : QString::fromStdString(m->value.text);
    }
    default: {
      const auto d = drawnSize(row);
      if (m == nullptr || !d) return QString();
      const auto length = joinery::parseLength(m->value.text, document_.model().unit);
      if (!length) return QString();
      const double off = length->mm() - *d;
      const QString words = fineLengthWords(std::abs(off), document_.unit()).section(' ', 0, 0);
      if (words == "0") return words;
      return (off > 0 ? QString("+") : QString::fromUtf8("−")) + words;
    }
  }
}

QVariant MeasuredTable::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal) return {};
  if (role == Qt::TextAlignmentRole) {
    return QVariant((section >= drawn ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
  }
  if (role != Qt::DisplayRole) return {};
  const auto inUnit = [this](const QString& words) {
    return document_.isOpen() ? tr("%1, %2").arg(words, unitWords(document_.unit())) : words;
  };
  switch (section) {
    case what:
      return tr("Wood");
    case size:
      return tr("Size");
    case drawn:
      return inUnit(tr("Drawn"));
    case measured:
      return inUnit(tr("Measured"));
    default:
      return tr("Off by");
  }
}

Qt::ItemFlags MeasuredTable::flags(const QModelIndex& index) const {
  const Qt::ItemFlags plain = Qt::ItemIsEnabled | Qt::ItemIsSelectable;
  return index.column() == measured ? plain | Qt::ItemIsEditable : plain;
}

BenchDocument::Edit MeasuredTable::editOf(const Row& row, const QString& text) const {
  const std::string value = text.trimmed().toStdString();
  bool plain = false;
  text.trimmed().toDouble(&plain);
  return measurementEdit({row.scope, row.name, row.size, {value, plain}});
}

Result<void> MeasuredTable::trial(const QModelIndex& index, const QString& text) const {
  return document_.tryEdit(editOf(rows_[static_cast<std::size_t>(index.row())], text));
}

bool MeasuredTable::setData(const QModelIndex& index, const QVariant& value, int role) {
  if (role != Qt::EditRole || index.column() != measured) return false;
  const Row& row = rows_[static_cast<std::size_t>(index.row())];
  const joinery::Measurement* had = record(row);
  const QString text = value.toString().trimmed();
  if (text.toStdString() == (had != nullptr ? had->value.text : std::string())) return true;
  const auto done = document_.apply(tr("measured %1 of %2").arg(sizeWords(row.size), row.words),
                                    editOf(row, text));
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
