#include "viewer/tables/stock_table.h"

#include "joinery/formula/length_text.h"

#include <QStringList>
#include <utility>

#include "viewer/look/look.h"
#include "viewer/look/words.h"

namespace dryfit::viewer {
namespace {

using joinery::StockForm;
using joinery::StockItem;

bool isLength(int column) {
  return column >= StockTable::length && column <= StockTable::thickness;
}

/// Where a length of an entry is kept; null for one that it has not.
double* lengthOf(StockItem& item, int column) {
  switch (column) {
    case StockTable::length:
      return &item.length;
    case StockTable::nearWidth:
      return &item.nearWidth;
    case StockTable::farWidth:
      return &item.farWidth;
    case StockTable::thickness:
      return &item.thickness;
    default:
      return nullptr;
  }
}

QString noteWords(const StockItem& item) {
  QStringList words;
  if (item.offcut) words << StockTable::tr("offcut");
  if (!item.outline.empty()) words << StockTable::tr("drawn outline");
  const auto faults = static_cast<int>(item.defects.size());
  if (faults > 0)
    words << StockTable::tr("%n fault(s)", nullptr, faults).replace("(s)", faults == 1 ? "" : "s");
  if (!item.firstGrade.empty()) {
    const bool two = !item.secondGrade.empty() && item.secondGrade != item.firstGrade;
    words << StockTable::tr("grade %1")
                 .arg(QString::fromStdString(two ? item.firstGrade + "/" + item.secondGrade
                                                 : item.firstGrade));
  }
  if (item.moisture) words << StockTable::tr("%1 % moisture").arg(*item.moisture);
  if (!item.batch.empty())
    words << StockTable::tr("batch %1").arg(QString::fromStdString(item.batch));
  if (!item.note.empty()) words << QString::fromStdString(item.note);
  return words.join(", ");
}

/// A number as typed: digits with a point. Error: badStock.
Result<double> numberFrom(const QString& text) {
  bool plain = false;
  const double value = text.toDouble(&plain);
  if (plain && value >= 0) return value;
  return fail(ErrorCode::badStock, "'" + text.toStdString() + "' is not a number", {},
              "write digits, with a point before any decimals");
}

}  // namespace

StockTable::StockTable(StockDesk& desk, BenchDocument& document, QObject* parent)
    : QAbstractTableModel(parent), desk_(desk), document_(document) {
  const auto again = [this] {
    beginResetModel();
    endResetModel();
  };
  connect(&desk_, &StockDesk::listChanged, this, again);
  connect(&document_, &BenchDocument::numbersChanged, this, [this] {
    if (rowCount() > 0) Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, columns - 1));
    Q_EMIT headerDataChanged(Qt::Horizontal, 0, columns - 1);
  });
}

int StockTable::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(desk_.list().items.size());
}

int StockTable::columnCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : columns;
}

QVariant StockTable::shown(const StockItem& item, int column) const {
  StockItem own = item;
  if (const double* mm = lengthOf(own, column)) {
    const bool outlined = !item.outline.empty() && (column == nearWidth || column == farWidth);
    return outlined ? QString::fromUtf8("—") : lengthWords(*mm, document_.unit());
  }
  switch (column) {
    case name:
      return QString::fromStdString(item.name);
    case wood:
      return QString::fromStdString(item.species);
    case count:
      return QString::number(item.count);
    case price:
      return item.price ? QString::number(*item.price, 'f', 2) : QString();
    default:
      return noteWords(item);
  }
}

QVariant StockTable::data(const QModelIndex& index, int role) const {
  const StockItem& item = desk_.list().items[static_cast<std::size_t>(index.row())];
  if (role == Qt::TextAlignmentRole && index.column() >= length && index.column() <= price) {
    return QVariant(Qt::AlignRight | Qt::AlignVCenter);
  }
  if (role == Qt::ToolTipRole && index.column() == note) return noteWords(item);
  if (role != Qt::DisplayRole && role != Qt::EditRole) return {};
  return shown(item, index.column());
}

QVariant StockTable::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal) return {};
  if (role == Qt::TextAlignmentRole) {
    const bool right = section >= length && section <= price;
    return QVariant((right ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
  }
  if (role != Qt::DisplayRole) return {};
  switch (section) {
    case name:
      return tr("Board or sheet");
    case wood:
      return tr("Wood");
    case length:
      return tr("Length");
    case nearWidth:
      return tr("Width");
    case farWidth:
      return tr("Far width");
    case thickness:
      return tr("Thick");
    case count:
      return tr("Count");
    case price:
      return desk_.list().currency.empty()
                 ? tr("Price")
                 : tr("Price, %1").arg(QString::fromStdString(desk_.list().currency));
    default:
      return tr("Note");
  }
}

Qt::ItemFlags StockTable::flags(const QModelIndex& index) const {
  const Qt::ItemFlags plain = Qt::ItemIsEnabled | Qt::ItemIsSelectable;
  const StockItem& item = desk_.list().items[static_cast<std::size_t>(index.row())];
  const bool sheet = item.form == StockForm::sheet;
  bool edit = isLength(index.column()) || index.column() == price;
  if (index.column() == farWidth) edit = !sheet && item.outline.empty();
  if (index.column() == nearWidth) edit = item.outline.empty();
  if (index.column() == length && !item.outline.empty()) edit = false;
  if (index.column() == count) edit = sheet;
  return edit ? plain | Qt::ItemIsEditable : plain;
}

Result<StockItem> StockTable::edited(const StockItem& item, int column, const QString& text) const {
  StockItem changed = item;
  if (double* mm = lengthOf(changed, column)) {
    const auto typed = joinery::parseLength(text.toStdString(), document_.unit());
    if (!typed) return tl::unexpected<Error>(typed.error());
    *mm = typed->mm();
    if (item.form == StockForm::sheet && column == nearWidth) changed.farWidth = changed.nearWidth;
    return changed;
  }
  if (column == price && text.isEmpty()) {
    changed.price.reset();
    return changed;
  }
  const auto number = numberFrom(text);
  if (!number) return tl::unexpected<Error>(number.error());
  if (column == price) {
    changed.price = *number;
  } else {
    changed.count = static_cast<int>(*number);
  }
  return changed;
}

bool StockTable::setData(const QModelIndex& index, const QVariant& value, int role) {
  if (role != Qt::EditRole) return false;
  const auto row = static_cast<std::size_t>(index.row());
  const QString text = value.toString().trimmed();
  if (text == shown(desk_.list().items[row], index.column()).toString()) return true;
  const auto item = edited(desk_.list().items[row], index.column(), text);
  const auto done = item ? desk_.setItem(row, *item) : Result<void>(tl::unexpected(item.error()));
  if (!done) {
    Q_EMIT refused(QString::fromStdString(done.error().line()));
    return false;
  }
  Q_EMIT taken();
  return true;
}

}  // namespace dryfit::viewer
