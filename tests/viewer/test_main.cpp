#include <gtest/gtest.h>

#include <QApplication>
#include <QTemporaryDir>

#include "viewer/look/look.h"

int main(int argc, char** argv) {
  testing::InitGoogleTest(&argc, argv);
  qputenv("QT_QPA_PLATFORM", "xcb");  // the view needs an X window
  // What the window keeps of its user is kept in a folder of the tests' own.
  const QTemporaryDir kept;
  for (const char* name : {"XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_DATA_HOME"}) {
    qputenv(name, kept.path().toUtf8());
  }
  QApplication app(argc, argv);
  dryfit::viewer::dress(app);
  return RUN_ALL_TESTS();
}
