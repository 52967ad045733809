#include "viewer/document/recovery.h"

#include <signal.h>
#include <unistd.h>

#include <QDir>
#include <QFileInfo>
#include <QStandardPaths>
#include <algorithm>
#include <nlohmann/json.hpp>

#include "joinery/base/atomic_write.h"
#include "joinery/base/read_whole.h"

namespace dryfit::viewer {
namespace {

constexpr int kRestMs = 2000;  // changes that follow each other faster are kept together

QString folder() {
  return QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation) + "/dryfit/recovery";
}

/// "PROCESS-NUMBER.json": the process that keeps it, and which of its windows.
QString newFile() {
  static int windows = 0;
  return QString("%1/%2-%3.json").arg(folder()).arg(::getpid()).arg(++windows);
}

bool isKept(const QString& file) {
  bool number = false;
  const qint64 process = QFileInfo(file).fileName().section('-', 0, 0).toLongLong(&number);
  return number && process > 0 && ::kill(static_cast<pid_t>(process), 0) == 0;
}

std::optional<Recovery> read(const QString& file) {
  const auto bytes = joinery::readWhole(file.toStdString(), "recovery");
  if (!bytes) return std::nullopt;
  const auto json = nlohmann::json::parse(*bytes, nullptr, false);
  if (!json.is_object()) return std::nullopt;
  const auto text = [&](const char* key) {
    const auto at = json.find(key);
    return at != json.end() && at->is_string() ? at->get<std::string>() : std::string();
  };
  Recovery recovery{file, QString::fromStdString(text("path")),
                    QString::fromStdString(text("title")), QFileInfo(file).lastModified(),
                    text("text")};
  if (recovery.text.empty()) return std::nullopt;
  return recovery;
}

}  // namespace

RecoveryKeeper::RecoveryKeeper(BenchDocument& document, QObject* parent)
    : QObject(parent), document_(document), file_(newFile()) {
  rest_.setSingleShot(true);
  rest_.setInterval(kRestMs);
  connect(&rest_, &QTimer::timeout, this, &RecoveryKeeper::keep);
  connect(&document_, &BenchDocument::numbersChanged, this, [this] {
    // Not put off by each change, or steady work would never be kept.
    if (!rest_.isActive()) rest_.start();
  });
  connect(&document_, &BenchDocument::changedMarkChanged, this, [this] {
    if (!document_.isChanged()) forget();
  });
}

void RecoveryKeeper::forget() {
  rest_.stop();
  QFile::remove(file_);
}

void RecoveryKeeper::keep() {
  if (!document_.isOpen() || !document_.isChanged()) return forget();
  QDir().mkpath(QFileInfo(file_).absolutePath());
  const nlohmann::json json{{"path", document_.path().string()},
                            {"title", document_.model().name},
                            {"text", document_.file().text()}};
  // Work goes on where it cannot be kept: the disk may be full.
  (void)joinery::writeAtomically(file_.toStdString(), json.dump());
}

std::vector<Recovery> recoveries() {
  std::vector<Recovery> all;
  for (const QFileInfo& entry : QDir(folder()).entryInfoList({"*.json"}, QDir::Files)) {
    if (isKept(entry.absoluteFilePath())) continue;
    if (auto one = read(entry.absoluteFilePath())) all.push_back(std::move(*one));
  }
  std::ranges::sort(all, [](const Recovery& a, const Recovery& b) { return a.when > b.when; });
  return all;
}

void dropRecovery(const Recovery& recovery) {
  QFile::remove(recovery.file);
}

Result<void> takeUp(const Recovery& recovery, BenchDocument& document) {
  const std::filesystem::path path = recovery.path.toStdString();
  auto file = joinery::ModelFile::parse(recovery.text, "recovered work", path);
  if (!file) return tl::unexpected<Error>(file.error());
  if (path.empty() || !document.open(path)) {
    document.start(std::move(*file));
    return {};
  }
  return document.apply(QObject::tr("recovered work"),
                        [&file](joinery::ModelFile& own) -> Result<void> {
                          own = std::move(*file);
                          return {};
                        });
}

}  // namespace dryfit::viewer
