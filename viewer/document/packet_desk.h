#pragma once

#include <QObject>
#include <atomic>
#include <filesystem>
#include <memory>
#include <thread>

#include "joinery/fit/dry_fit.h"
#include "kernel/result.h"

namespace dryfit::viewer {

/// Writes the bench packet of a dry fit in a thread of its own, one packet at a time.
class PacketDesk : public QObject {
  Q_OBJECT
 public:
  explicit PacketDesk(QObject* parent = nullptr) : QObject(parent) {}
  /// Stops what is being written; nothing of it is left in the folder.
  ~PacketDesk() override;

  /// Begins to write; `written` or `failed` tells when it is done. Error: badUsage while another
  /// packet is being written.
  [[nodiscard]] Result<void> write(std::shared_ptr<const joinery::DryFit> fit, joinery::Unit unit,
                                   const std::filesystem::path& folder);
  /// Asks it to stop: `failed` follows with nothing written.
  void stop();
  [[nodiscard]] bool isWorking() const { return working_; }

 Q_SIGNALS:
  void progressed(int done, int all);
  void written(const QString& folder, int files);
  void failed(const QString& line);

 private:
  using Answer = Result<std::vector<std::filesystem::path>>;
  void take(const std::filesystem::path& folder, const Answer& answer);

  std::shared_ptr<std::atomic<bool>> stopped_;
  bool working_ = false;
  std::jthread worker_;
};

}  // namespace dryfit::viewer
