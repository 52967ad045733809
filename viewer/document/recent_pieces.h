#pragma once

#include <QImage>
#include <QString>
#include <memory>
#include <vector>

#include "viewer/view/assembled.h"

namespace dryfit::viewer {

/// A piece that was opened or saved lately, with its picture where there is one.
struct RecentPiece {
  QString path;
  QImage picture;
};

/// The latest first; files that are gone are left out.
[[nodiscard]] std::vector<RecentPiece> recentPieces();

/// Puts a piece at the head of the list.
void rememberPiece(const QString& path);

/// Keeps a small picture of it, where one can be drawn: without, the list shows its name alone.
void rememberPicture(const QString& path, std::shared_ptr<const Assembled> assembled);

}  // namespace dryfit::viewer
