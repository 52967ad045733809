#pragma once

#include <QAbstractTableModel>
#include <vector>

#include "viewer/document/bench_document.h"

namespace dryfit::viewer {

/// What the latest dry fit found, worst first.
class FindingTable : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { severity, kind, what, measured, limit, columns };
  explicit FindingTable(BenchDocument& document, QObject* parent = nullptr);

  [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
  [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
  [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                    int role) const override;
  /// Null for a row that is not there.
  [[nodiscard]] const joinery::Finding* finding(int row) const;
  /// "2 errors, 1 warning", or that nothing was found.
  [[nodiscard]] QString verdict() const;
  /// The worst severity there is, if any.
  [[nodiscard]] std::optional<joinery::Severity> worst() const;

 private:
  BenchDocument& document_;
  std::shared_ptr<const Assembled> shown_;
};

}  // namespace dryfit::viewer
