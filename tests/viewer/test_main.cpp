#include <gtest/gtest.h>

#include <QApplication>

#include "viewer/look/look.h"

int main(int argc, char** argv) {
  testing::InitGoogleTest(&argc, argv);
  qputenv("QT_QPA_PLATFORM", "xcb");  // the view needs an X window
  QApplication app(argc, argv);
  dryfit::viewer::dress(app);
  return RUN_ALL_TESTS();
}
