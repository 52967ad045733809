#include <gtest/gtest.h>

#include <QCoreApplication>

int main(int argc, char** argv) {
  testing::InitGoogleTest(&argc, argv);
  QCoreApplication app(argc, argv);  // the window's threads are tried without a window
  return RUN_ALL_TESTS();
}
