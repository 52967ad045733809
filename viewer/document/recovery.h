#pragma once

#include <QDateTime>
#include <QObject>
#include <QString>
#include <QTimer>
#include <string>
#include <vector>

#include "viewer/document/bench_document.h"

namespace dryfit::viewer {

/// Keeps a copy of what is changed and not saved, every few seconds of change, so that a crash or a
/// kill loses no more. The copy goes when the piece is saved, or left on purpose.
class RecoveryKeeper : public QObject {
  Q_OBJECT
 public:
  explicit RecoveryKeeper(BenchDocument& document, QObject* parent = nullptr);

  /// Takes the copy away: what is on the bench is left on purpose.
  void forget();
  /// Where the copy is, or would be.
  [[nodiscard]] QString file() const { return file_; }

 private:
  void keep();

  BenchDocument& document_;
  QString file_;
  QTimer rest_;
};

/// Unsaved work of a window that ended without asking.
struct Recovery {
  QString file;   ///< the copy
  QString path;   ///< of the piece; empty where it was in no file
  QString title;  ///< of the piece
  QDateTime when;
  std::string text;  ///< of the model
};

/// The latest first. What windows that are still open keep is not among it.
[[nodiscard]] std::vector<Recovery> recoveries();
/// Takes the copy away.
void dropRecovery(const Recovery& recovery);
/// Puts the work on the bench, unsaved, over the file that it belongs to. Errors: as
/// ModelFile::parse; nothing changes then.
[[nodiscard]] Result<void> takeUp(const Recovery& recovery, BenchDocument& document);

}  // namespace dryfit::viewer
