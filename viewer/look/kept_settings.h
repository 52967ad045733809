#pragma once

#include <QSettings>

namespace dryfit::viewer {

/// What the window keeps of its user from one start to the next.
[[nodiscard]] inline QSettings keptSettings() {
  return QSettings(QSettings::IniFormat, QSettings::UserScope, "dryfit", "bench");
}

}  // namespace dryfit::viewer
