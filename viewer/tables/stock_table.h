#pragma once

#include <QAbstractTableModel>

#include "viewer/document/bench_document.h"
#include "viewer/document/stock_desk.h"

namespace dryfit::viewer {

/// The boards and sheets at hand. Sizes as measured, counts and prices can be edited.
class StockTable : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { name, wood, length, nearWidth, farWidth, thickness, count, price, note, columns };
  StockTable(StockDesk& desk, BenchDocument& document, QObject* parent = nullptr);

  [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
  [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                    int role) const override;
  [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role) override;

 Q_SIGNALS:
  void refused(const QString& line);
  void taken();

 private:
  [[nodiscard]] QVariant shown(const joinery::StockItem& item, int column) const;
  [[nodiscard]] Result<joinery::StockItem> edited(const joinery::StockItem& item, int column,
                                                  const QString& text) const;

  StockDesk& desk_;
  BenchDocument& document_;
};

}  // namespace dryfit::viewer
