#include "viewer/tables/finding_table.h"

#include <QFont>
#include <QStringList>
#include <algorithm>
#include <array>

#include "viewer/look/look.h"
#include "viewer/look/words.h"

namespace dryfit::viewer {

FindingTable::FindingTable(BenchDocument& document, QObject* parent)
    : QAbstractTableModel(parent), document_(document) {
  const auto reload = [this] {
    beginResetModel();
    shown_ = document_.assembled();
    endResetModel();
  };
  connect(&document, &BenchDocument::opened, this, reload);
  connect(&document, &BenchDocument::assembledChanged, this, reload);
  connect(&document, &BenchDocument::numbersChanged, this, [this] {
    if (rowCount() > 0) Q_EMIT dataChanged(index(0, measured), index(rowCount() - 1, limit));
  });
}

int FindingTable::rowCount(const QModelIndex& parent) const {
  return parent.isValid() || !shown_ ? 0 : static_cast<int>(shown_->fit->findings.size());
}

int FindingTable::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : columns;
}

const joinery::Finding* FindingTable::finding(int row) const {
  return row >= 0 && row < rowCount() ? &shown_->fit->findings[static_cast<std::size_t>(row)]
                                      : nullptr;
}

QVariant FindingTable::data(const QModelIndex& index, int role) const {
  const joinery::Finding* f = finding(index.row());
  if (f == nullptr) return {};
  const bool number = index.column() == measured || index.column() == limit;
  if (role == Qt::TextAlignmentRole && number) {
    return QVariant(Qt::AlignRight | Qt::AlignVCenter);
  }
  if (role == Qt::ForegroundRole && index.column() == severity) return colourOf(f->severity);
  if (role == Qt::FontRole && index.column() == severity) {
    QFont font;
    font.setBold(f->severity == joinery::Severity::error);
    return font;
  }
  if (role == Qt::ToolTipRole) return QString::fromStdString(f->text);
  if (role != Qt::DisplayRole) return {};
  switch (index.column()) {
    case severity:
      return titled(spaced(joinery::nameOf(f->severity)));
    case kind: {
      const std::string_view name = joinery::nameOf(f->kind);
      return QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size()));
    }
    case what:
      return QString::fromStdString(f->text);
    case measured:
      return measureWords(f->measured, f->unit, document_.unit());
    default:
      return measureWords(f->limit, f->unit, document_.unit());
  }
}

QVariant FindingTable::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal) return {};
  const bool number = section == measured || section == limit;
  if (role == Qt::TextAlignmentRole) {
    return QVariant((number ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
  }
  if (role != Qt::DisplayRole) return {};
  static const std::array<const char*, columns> heads{"Severity", "Finding", "What", "Measured",
                                                      "Limit"};
  return tr(heads[static_cast<std::size_t>(section)]);
}

QString FindingTable::verdict() const {
  if (!shown_) return {};
  using joinery::Severity;
  const auto count = [this](Severity s) {
    return std::count_if(shown_->fit->findings.begin(), shown_->fit->findings.end(),
                         [s](const joinery::Finding& f) { return f.severity == s; });
  };
  const auto words = [](auto n, const QString& one, const QString& many) {
    return QString("%1 %2").arg(n).arg(n == 1 ? one : many);
  };
  QStringList said;
  if (const auto n = count(Severity::error); n > 0) said << words(n, tr("error"), tr("errors"));
  if (const auto n = count(Severity::warning); n > 0) {
    said << words(n, tr("warning"), tr("warnings"));
  }
  if (const auto n = count(Severity::note); n > 0) said << words(n, tr("note"), tr("notes"));
  if (!said.isEmpty()) return said.join(", ");
  const joinery::Model& model = shown_->fit->piece.model;
  if (model.parts.empty()) return tr("nothing to fit yet");
  if (model.joints.empty()) return tr("nothing found; no joints yet");
  return tr("nothing found: it goes together");
}

std::optional<joinery::Severity> FindingTable::worst() const {
  if (rowCount() == 0) return std::nullopt;
  return shown_->fit->findings.front().severity;
}

}  // namespace dryfit::viewer
