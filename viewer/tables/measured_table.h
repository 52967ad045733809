#pragma once

#include <QAbstractTableModel>
#include <vector>

#include "viewer/document/bench_document.h"

namespace dryfit::viewer {

/// Sizes read off real wood, beside the drawn ones: materials and batches first, then every size of
/// every part. The measured column can be edited; an empty entry takes the record away.
class MeasuredTable : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { what, size, drawn, measured, difference, columns };
  explicit MeasuredTable(BenchDocument& document, QObject* parent = nullptr);

  [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
  [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                    int role) const override;
  [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;
  bool setData(const QModelIndex& index, const QVariant& value, int role) override;
  [[nodiscard]] Result<void> trial(const QModelIndex& index, const QString& text) const;

 Q_SIGNALS:
  void refused(const QString& line);
  void taken();

 private:
  struct Row {
    joinery::Measurement::Scope scope;
    std::string name;
    joinery::SizeName size;
    QString words;
  };
  void rebuild();
  [[nodiscard]] std::optional<double> drawnSize(const Row& row) const;
  [[nodiscard]] const joinery::Measurement* record(const Row& row) const;
  [[nodiscard]] BenchDocument::Edit editOf(const Row& row, const QString& text) const;

  BenchDocument& document_;
  std::vector<Row> rows_;
  int refusedRow_ = -1;
  QString refusal_;
};

}  // namespace dryfit::viewer
