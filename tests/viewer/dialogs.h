#pragma once

#include <gtest/gtest.h>

#include <QDialog>
#include <QPushButton>
#include <QTest>
#include <stdexcept>

#include "tests/viewer/bench_fixture.h"

namespace dryfit::viewer {

/// A widget of the window that has come up; ends the test where none does.
template <class Widget>
Widget* waitFor(const QWidget& window, const char* name) {
  Widget* found = nullptr;
  EXPECT_TRUE(QTest::qWaitFor(
      [&] {
        found = window.findChild<Widget*>(name);
        return found != nullptr && found->isVisible();
      },
      kPatience))
      << name;
  if (found == nullptr) throw std::runtime_error(std::string("no ") + name);
  return found;
}

inline void pressButton(const QDialog* dialog, const QString& words) {
  for (auto* button : dialog->findChildren<QPushButton*>()) {
    if (button->text() == words) return QTest::mouseClick(button, Qt::LeftButton);
  }
  ADD_FAILURE() << "no button " << words.toStdString();
}

}  // namespace dryfit::viewer
