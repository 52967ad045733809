// How the piece is looked at: seen through, cut open, opened out, in perspective; and its picture.

#include <QComboBox>
#include <QFile>
#include <QImage>
#include <QLineEdit>
#include <QSlider>
#include <QTabWidget>
#include <QToolButton>
#include <QXmlStreamReader>

#include "tests/viewer/bench_fixture.h"
#include "viewer/view/line_picture.h"
#include "viewer/view/scene.h"
#include "viewer/view/view3d.h"

namespace dryfit::viewer {
namespace {

using joinery::PartId;

class Looking : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    if (!view().trouble().isEmpty()) GTEST_SKIP() << "no OpenGL here";
    window_.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window_));
  }
  View3d& view() { return window_.view(); }
  void press(Qt::KeyboardModifiers with, Qt::Key key) {
    QTest::keyClick(&window_, key, with);
    QCoreApplication::processEvents();
  }
  QImage seen() { return view().picture({400, 300}); }
  /// Pixels that differ by more than a shade.
  static int changed(const QImage& a, const QImage& b) {
    int count = 0;
    for (int y = 0; y < a.height(); ++y) {
      for (int x = 0; x < a.width(); ++x) {
        count += std::abs(qGray(a.pixel(x, y)) - qGray(b.pixel(x, y))) > 8 ? 1 : 0;
      }
    }
    return count;
  }
  static constexpr auto kCtrlAlt = Qt::ControlModifier | Qt::AltModifier;
};

TEST_F(Looking, ThroughPartsAndBackAgain) {
  const QImage before = seen();
  parts()->choose({PartId(0)});
  press(Qt::ControlModifier, Qt::Key_T);
  parts()->choose({});
  view().choose({});
  EXPECT_GT(changed(before, seen()), 100);
  press(kCtrlAlt, Qt::Key_T);
  EXPECT_EQ(changed(before, seen()), 0);
}

TEST_F(Looking, IntoAPieceThatIsCutOpenByKeysAlone) {
  const QImage before = seen();
  press(kCtrlAlt, Qt::Key_X);
  EXPECT_EQ(window_.findChild<QComboBox*>("cutAcross")->currentIndex(), 1);
  const QImage half = seen();
  EXPECT_GT(changed(before, half), 100);
  press(kCtrlAlt, Qt::Key_Right);
  EXPECT_GT(changed(half, seen()), 10) << "the plane moves";
  press(kCtrlAlt, Qt::Key_S);
  EXPECT_GT(changed(half, seen()), 100) << "the other half";
  press(kCtrlAlt, Qt::Key_N);
  EXPECT_EQ(changed(before, seen()), 0);
}

TEST_F(Looking, AtACutWhereANumberOrANameSays) {
  press(kCtrlAlt, Qt::Key_Z);
  auto* at = window_.findChild<QLineEdit*>("cutAt");
  const auto type = [&](const QString& text) {
    at->setFocus();
    at->selectAll();
    QTest::keyClicks(at, text);
    QTest::keyClick(at, Qt::Key_Return);
  };
  type("50 mm");
  EXPECT_EQ(at->text(), "50");
  const auto& piece = *document().piece();
  const std::string name = piece.part(PartId(0)).name + ".top";
  type(QString::fromStdString(name));
  EXPECT_NEAR(at->text().toDouble(), piece.values.at(name), 0.06);
  type("no such thing");
  EXPECT_FALSE(message().isEmpty());
  EXPECT_NEAR(at->text().toDouble(), piece.values.at(name), 0.06) << "it stays where it was";
}

TEST_F(Looking, AtAPieceThatIsOpenedOut) {
  const QImage before = seen();
  const std::string text = document().file().text();
  press(kCtrlAlt, Qt::Key_Up);
  EXPECT_GT(view().openedShare(), 0);
  press(kCtrlAlt, Qt::Key_O);
  EXPECT_DOUBLE_EQ(view().openedShare(), 1);
  double farthest = 0;
  for (std::size_t i = 0; i < document().model().parts.size(); ++i) {
    farthest = std::max(farthest, view().offsetOf(PartId(i)).norm());
  }
  EXPECT_GT(farthest, 20) << "mm";
  press(kCtrlAlt, Qt::Key_C);
  EXPECT_DOUBLE_EQ(view().openedShare(), 0);
  view().lookFrom(Side::corner);
  EXPECT_EQ(changed(before, seen()), 0);
  EXPECT_EQ(document().file().text(), text) << "looking changes nothing";
}

TEST_F(Looking, KeepsWhatWasFoundInSightWhateverPageIsInFront) {
  auto* verdict = window_.findChild<QToolButton*>("verdict");
  auto* lower = window_.findChild<QTabWidget*>("lowerPages");
  lower->setCurrentIndex(1);
  EXPECT_TRUE(verdict->isVisible());
  EXPECT_FALSE(verdict->text().isEmpty());
  const QString sound = verdict->text();
  // Rails that are too short for their tenons, or the like: something is found.
  ASSERT_TRUE(document().apply("narrow", dimensionEdit("stile_width", "12")));
  settle();
  EXPECT_NE(verdict->text(), sound);
  press(Qt::ControlModifier | Qt::ShiftModifier, Qt::Key_F);
  EXPECT_EQ(lower->currentIndex(), 0);
  EXPECT_TRUE(table("findings")->currentIndex().isValid());
}

TEST_F(Looking, InPerspectiveDrawsWhatIsFartherSmaller) {
  const QImage before = seen();
  press(kCtrlAlt, Qt::Key_V);
  EXPECT_TRUE(view().isPerspective());
  EXPECT_GT(changed(before, seen()), 50);
  press(kCtrlAlt, Qt::Key_V);
  EXPECT_FALSE(view().isPerspective());
}

TEST_F(Looking, GivesAPictureOfAnySize) {
  EXPECT_EQ(view().picture({1920, 1200}).size(), QSize(1920, 1200)) << "larger than the window";
  const QImage large = view().picture({1200, 900});
  EXPECT_GT(changed(large, QImage(large.size(), large.format())), 1000);
}

TEST_F(Looking, GivesLinesThatStayWithinTheirPicture) {
  const auto& fit = *document().assembled()->fit;
  std::vector<kernel::Solid> solids;
  for (std::size_t i = 0; i < fit.solids.size(); ++i) solids.push_back(fit.placed(PartId(i)));
  const auto svg = linePicture(solids, view().viewpoint(), {640, 480}).value();
  QXmlStreamReader reader(QByteArray::fromStdString(svg));
  int strokes = 0;
  while (!reader.atEnd()) {
    if (reader.readNext() != QXmlStreamReader::StartElement) continue;
    if (reader.name() == QLatin1String("svg")) {
      EXPECT_EQ(reader.attributes().value("width").toInt(), 640);
    }
    if (reader.name() != QLatin1String("path")) continue;
    QString path = reader.attributes().value("d").toString();
    for (const QString& point : path.replace('M', 'L').split('L', Qt::SkipEmptyParts)) {
      const QStringList xy = point.split(' ');
      ASSERT_EQ(xy.size(), 2);
      EXPECT_GE(xy[0].toDouble(), 0);
      EXPECT_LE(xy[0].toDouble(), 640);
      EXPECT_GE(xy[1].toDouble(), 0);
      EXPECT_LE(xy[1].toDouble(), 480);
      ++strokes;
    }
  }
  EXPECT_FALSE(reader.hasError()) << reader.errorString().toStdString();
  EXPECT_GT(strokes, 40);
}

}  // namespace
}  // namespace dryfit::viewer
