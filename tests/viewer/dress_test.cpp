// Readable by light and by dark, and with large letters; one file in one window; a save that fails
// loses nothing.

#include <QApplication>
#include <QLabel>
#include <QPushButton>
#include <QTabBar>
#include <cmath>
#include <filesystem>

#include "tests/viewer/bench_fixture.h"
#include "viewer/look/look.h"

namespace dryfit::viewer {
namespace {

/// Relative luminance and contrast as WCAG 2.1 defines them (section 1.4.3 and its glossary).
double luminance(const QColor& c) {
  const auto linear = [](double v) {
    return v <= 0.03928 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(c.redF()) + 0.7152 * linear(c.greenF()) + 0.0722 * linear(c.blueF());
}
double contrast(const QColor& a, const QColor& b) {
  const double high = std::max(luminance(a), luminance(b));
  const double low = std::min(luminance(a), luminance(b));
  return (high + 0.05) / (low + 0.05);
}

TEST(Contrast, IsMeasuredAsTheStandardDoes) {
  EXPECT_NEAR(contrast(Qt::black, Qt::white), 21, 1e-9);
  EXPECT_NEAR(contrast(QColor("#767676"), Qt::white), 4.54, 0.01);
}

class Dressed : public Bench {
 protected:
  void dressAs(Dress::Light light, int percent) {
    dress(*static_cast<QApplication*>(QCoreApplication::instance()), {light, percent});
    QTest::qWait(50);  // for the window to lay itself out anew
  }
  void TearDown() override { dressAs(Dress::Light::light, 100); }
};

TEST_F(Dressed, AllTextStandsOutByLightAndByDark) {
  constexpr double kLeast = 4.5;  // WCAG 2.1, 1.4.3, level AA
  for (const auto light : {Dress::Light::light, Dress::Light::dark}) {
    dressAs(light, 100);
    EXPECT_EQ(isDark(), light == Dress::Light::dark);
    for (const QColor& ground : {QColor(colour::paper), QColor(colour::sheet),
                                 QColor(colour::stripe), QColor(colour::bar)}) {
      EXPECT_GE(contrast(colour::ink, ground), kLeast);
      EXPECT_GE(contrast(colour::fadedInk, ground), kLeast) << ground.name().toStdString();
      EXPECT_GE(contrast(colour::accent, ground), kLeast) << ground.name().toStdString();
      for (const auto severity :
           {joinery::Severity::error, joinery::Severity::warning, joinery::Severity::note}) {
        EXPECT_GE(contrast(colourOf(severity), ground), kLeast)
            << ground.name().toStdString() << " " << int(severity);
      }
    }
    EXPECT_GE(contrast(colour::onAccent, colour::accent), kLeast);
    EXPECT_GE(contrast(colour::ink, colour::accentPale), kLeast);
    EXPECT_GE(contrast(colour::ink, colour::refused), kLeast);
  }
}

TEST_F(Dressed, NoWordIsCutOffWithLargeLetters) {
  window_.resize(1280, 800);
  for (const int percent : {100, 125, 150}) {
    dressAs(Dress::Light::light, percent);
    for (auto* button : window_.findChildren<QPushButton*>()) {
      if (!button->isVisible() || button->text().isEmpty()) continue;
      EXPECT_GE(button->width(), button->minimumSizeHint().width())
          << button->text().toStdString() << " at " << percent;
    }
    for (auto* label : window_.findChildren<QLabel*>()) {
      if (!label->isVisible() || label->text().isEmpty() || label->objectName() == "message") {
        continue;
      }
      EXPECT_GE(label->height(), label->fontMetrics().height())
          << label->text().toStdString() << " at " << percent;
    }
    EXPECT_LE(window_.minimumSizeHint().width(), 1280) << percent;
    EXPECT_LE(window_.minimumSizeHint().height(), 800) << percent;
  }
}

TEST_F(Dressed, TheSameFileOpensInOneWindowOnly) {
  MainWindow other;
  other.show();
  EXPECT_TRUE(other.openFile(path_));
  EXPECT_FALSE(other.document().isOpen()) << "the window that has it comes to the front";
  EXPECT_NE(message(), "");
}

TEST_F(Dressed, ASaveThatFailsLosesNeitherThePieceNorItsUndo) {
  setDimension("door_width", "455");
  const std::string text = document().file().text();
  const int steps = document().undoStack().count();
  ASSERT_GT(steps, 0);
  // A folder stands where the file would go; a place that is not there.
  const std::filesystem::path folder = folder_.filePath("a folder").toStdString();
  std::filesystem::create_directory(folder);
  for (const std::filesystem::path& where :
       {folder, std::filesystem::path(folder_.filePath("nowhere/x.dryfit").toStdString()),
        std::filesystem::path("/dev/full/x.dryfit")}) {
    const auto saved = document().saveAs(where);
    ASSERT_FALSE(saved) << where;
    EXPECT_FALSE(saved.error().what.empty());
    EXPECT_EQ(document().file().text(), text);
    EXPECT_EQ(document().undoStack().count(), steps);
    EXPECT_TRUE(document().isChanged());
    EXPECT_EQ(document().path(), path_);
  }
  document().undoStack().undo();
  EXPECT_NE(document().file().text(), text);
  document().undoStack().redo();
  ASSERT_TRUE(document().save());
  EXPECT_FALSE(document().isChanged());
}

}  // namespace
}  // namespace dryfit::viewer
