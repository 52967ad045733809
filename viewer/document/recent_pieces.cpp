#include "viewer/document/recent_pieces.h"
#include "viewer/look/kept_settings.h"

#include <QCryptographicHash>
#include <QDir>
#include <QFileInfo>
#include <QStandardPaths>
#include <QStringList>
#include <utility>

#include "viewer/view/picture.h"

namespace dryfit::viewer {
namespace {

constexpr int kKept = 8;
constexpr int kWidth = 192, kHeight = 144;

QString pictureOf(const QString& path) {
  const QString folder = QStandardPaths::writableLocation(QStandardPaths::CacheLocation);
  const auto name = QCryptographicHash::hash(path.toUtf8(), QCryptographicHash::Sha256).toHex();
  return QDir(folder).filePath(QString::fromLatin1(name.left(24)) + ".png");
}

}  // namespace

std::vector<RecentPiece> recentPieces() {
  std::vector<RecentPiece> pieces;
  for (const QString& path : keptSettings().value("recent").toStringList()) {
    if (QFileInfo::exists(path)) pieces.push_back({path, QImage(pictureOf(path))});
  }
  return pieces;
}

void rememberPiece(const QString& path) {
  QSettings kept = keptSettings();
  QStringList paths = kept.value("recent").toStringList();
  const QString whole = QFileInfo(path).absoluteFilePath();
  paths.removeAll(whole);
  paths.prepend(whole);
  while (paths.size() > kKept) paths.removeLast();
  kept.setValue("recent", paths);
}

void rememberPicture(const QString& path, std::shared_ptr<const Assembled> assembled) {
  const QString file = pictureOf(QFileInfo(path).absoluteFilePath());
  QDir().mkpath(QFileInfo(file).absolutePath());
  (void)writePicture(std::move(assembled), file.toStdString(), kWidth, kHeight);
}

}  // namespace dryfit::viewer
