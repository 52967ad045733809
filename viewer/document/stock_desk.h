#pragma once

#include <QObject>
#include <atomic>
#include <filesystem>
#include <memory>
#include <optional>
#include <thread>

#include "export/layout/layout_job.h"
#include "joinery/layout/layout.h"
#include "joinery/stock/stock.h"
#include "viewer/document/bench_document.h"

namespace dryfit::viewer {

/// The stock that is at hand for the piece, and how its parts are laid out on it. Layouts are made
/// on a thread of their own; everything else lives on the GUI thread.
class StockDesk : public QObject {
  Q_OBJECT
 public:
  explicit StockDesk(BenchDocument& document, QObject* parent = nullptr);
  ~StockDesk() override;

  /// Errors: as joinery::loadStock; the list stays as it was then.
  [[nodiscard]] Result<void> open(const std::filesystem::path& path);
  /// Errors: fileNotWritten; badUsage when no list is open.
  [[nodiscard]] Result<void> saveAs(const std::filesystem::path& path);
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  [[nodiscard]] const joinery::StockList& list() const { return *list_; }
  [[nodiscard]] bool isChanged() const { return list_ != saved_; }
  /// Puts an entry as measured anew in the place of the old one, as a step of undo. Error:
  /// badStock.
  [[nodiscard]] Result<void> setItem(std::size_t index, const joinery::StockItem& item);

  [[nodiscard]] const joinery::LayoutSettings& settings() const { return settings_; }
  void setSettings(const joinery::LayoutSettings& settings) { settings_ = settings; }

  /// Lays the piece as it is now out on the stock as it is now. Error: badUsage without a piece or
  /// stock; what else goes wrong comes by `failed`.
  [[nodiscard]] Result<void> layOut();
  /// Ends the search; the best layout so far is kept.
  void stop();
  [[nodiscard]] bool isWorking() const { return working_; }
  /// The latest layout, or null.
  [[nodiscard]] std::shared_ptr<const exporting::LayoutJob> job() const { return job_; }
  /// Whether the parts or the stock have changed since that layout was made.
  [[nodiscard]] bool isOutdated() const;

 Q_SIGNALS:
  void listChanged();
  void workingChanged();
  void progressed(int percent);
  void laidOut();
  void failed(const QString& line);

 private:
  using Answer = Result<std::shared_ptr<const exporting::LayoutJob>>;
  void take(const Answer& answer);
  void forgetLayout();
  friend class StockStep;
  using List = std::shared_ptr<const joinery::StockList>;
  void replaceList(List list);
  [[nodiscard]] std::vector<joinery::Finding> findingsNow() const;

  BenchDocument& document_;
  std::filesystem::path path_;
  std::string onDisk_;  ///< the file's bytes, as last read or written
  List list_ = std::make_shared<const joinery::StockList>();
  List saved_ = list_;  ///< as it is on the disk
  List jobList_;        ///< that the latest layout was made from
  int opened_ = 0;      ///< how many lists have been opened
  joinery::LayoutSettings settings_;
  std::shared_ptr<const exporting::LayoutJob> job_;
  bool working_ = false;
  std::shared_ptr<std::atomic<bool>> stopped_;
  std::jthread worker_;  // last: joined before the rest goes
};

}  // namespace dryfit::viewer
