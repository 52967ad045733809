#include "viewer/document/packet_desk.h"

#include <utility>
#include <vector>

#include "export/files/output_folder.h"
#include "export/packet/packet.h"
#include "export/words/failure_words.h"

namespace dryfit::viewer {
namespace {

Result<std::vector<std::filesystem::path>> packetIn(const std::filesystem::path& target,
                                                    const joinery::DryFit& fit, joinery::Unit unit,
                                                    const joinery::Progress& progress) {
  const auto folder = exporting::OutputFolder::prepare(target);
  if (!folder) return tl::unexpected<Error>(folder.error());
  const auto made = exporting::makePacket(fit, unit, *folder, progress);
  if (!made) return tl::unexpected<Error>(made.error());
  return folder->commit();
}

}  // namespace

PacketDesk::~PacketDesk() {
  stop();
}

Result<void> PacketDesk::write(std::shared_ptr<const joinery::DryFit> fit, joinery::Unit unit,
                               const std::filesystem::path& folder) {
  if (working_) return fail(ErrorCode::badUsage, "a packet is being written already");
  stopped_ = std::make_shared<std::atomic<bool>>(false);
  working_ = true;
  worker_ = std::jthread([this, stopped = stopped_, fit = std::move(fit), unit, folder] {
    const auto progress = [this, &stopped](int done, int all) {
      QMetaObject::invokeMethod(
          this, [this, done, all] { Q_EMIT progressed(done, all); }, Qt::QueuedConnection);
      return !stopped->load();
    };
    Answer answer;
    try {
      answer = packetIn(folder, *fit, unit, progress);
    } catch (...) {
      answer = fail(ErrorCode::libraryFailure, exporting::failureWords());
    }
    QMetaObject::invokeMethod(
        this, [this, folder, answer = std::move(answer)] { take(folder, answer); },
        Qt::QueuedConnection);
  });
  return {};
}

void PacketDesk::stop() {
  if (stopped_) stopped_->store(true);
}

void PacketDesk::take(const std::filesystem::path& folder, const Answer& answer) {
  working_ = false;
  if (answer) {
    Q_EMIT written(QString::fromStdString(folder.string()), static_cast<int>(answer->size()));
  } else if (answer.error().code == ErrorCode::cancelled) {
    Q_EMIT failed(tr("Stopped: no packet was written."));
  } else {
    Q_EMIT failed(QString::fromStdString(answer.error().line()));
  }
}

}  // namespace dryfit::viewer
