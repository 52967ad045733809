#pragma once

#include <QAbstractTableModel>
#include <QPersistentModelIndex>

#include "viewer/document/bench_document.h"

namespace dryfit::viewer {

/// Named dimensions of the model: name, as written, value, note. The written column can be edited.
class DimensionTable : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { name, written, value, note, columns };
  explicit DimensionTable(BenchDocument& document, QObject* parent = nullptr);

  [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
  [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                    int role) const override;
  [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;
  bool setData(const QModelIndex& index, const QVariant& entry, int role) override;
  /// Whether the text could stand in the cell.
  [[nodiscard]] Result<void> trial(const QModelIndex& index, const QString& text) const;

 Q_SIGNALS:
  void refused(const QString& line);
  void taken();

 private:
  void refresh();
  [[nodiscard]] QString valueWords(const joinery::Dimension& dimension) const;
  [[nodiscard]] static QString writtenWords(const joinery::Dimension& dimension);

  BenchDocument& document_;
  int rows_ = 0;
  int refusedRow_ = -1;
  QString refusal_;
};

}  // namespace dryfit::viewer
