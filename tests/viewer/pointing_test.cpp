// What the pointer is on is lit and named, and unlit again where it goes away.

#include <QScreen>

#include "tests/viewer/bench_fixture.h"
#include "viewer/view/view3d.h"

namespace dryfit::viewer {
namespace {

TEST_F(Bench, TellsThePartUnderThePointer) {
  if (!window_.view().trouble().isEmpty()) GTEST_SKIP() << "no OpenGL here";
  View3d& view = window_.view();
  std::vector<std::optional<joinery::PartId>> told;
  QObject::connect(&view, &View3d::partPointedAt, &view, [&](auto part) { told.push_back(part); });
  pointerTo(view, QPoint(2, 2));
  pointerTo(view, view.rect().center());
  ASSERT_FALSE(told.empty());
  EXPECT_TRUE(told.back().has_value());
  pointerTo(view, QPoint(2, 2));
  EXPECT_FALSE(told.back().has_value());
}

TEST_F(Bench, LeavesThePieceSmoothUnderALightThatIsDrawnInHaste) {
  if (!window_.view().trouble().isEmpty()) GTEST_SKIP() << "no OpenGL here";
  constexpr int kAtRest = 700;  // ms
  View3d& view = window_.view();
  const auto seen = [&] {
    QTest::qWait(20);  // for the X server
    return window_.screen()->grabWindow(view.winId()).toImage();
  };
  pointerTo(view, QPoint(2, 2));
  QTest::qWait(kAtRest);
  const QImage smooth = seen();
  pointerTo(view, view.rect().center());
  const QImage lit = seen();
  EXPECT_NE(lit, smooth);
  pointerTo(view, QPoint(2, 2));
  EXPECT_EQ(seen(), smooth) << "in haste";
  QTest::qWait(kAtRest);
  EXPECT_EQ(seen(), smooth) << "at rest";
}

TEST_F(Bench, ShowsAPlaceAndTheGhostOverThePictureAndNoMoreOfThemAfterwards) {
  if (!window_.view().trouble().isEmpty()) GTEST_SKIP() << "no OpenGL here";
  View3d& view = window_.view();
  const auto seen = [&] {
    QTest::qWait(20);  // for the X server
    return window_.screen()->grabWindow(view.winId()).toImage();
  };
  view.setPointing(Pointing::faces);
  pointerTo(view, QPoint(2, 2));
  QTest::qWait(700);
  const QImage bare = seen();
  pointerTo(view, view.rect().center());
  ASSERT_TRUE(view.pointedPlace());
  const QImage lit = seen();
  EXPECT_NE(lit, bare) << "the face under the pointer";
  view.showGhost(kernel::Box3{{0, 0, 0}, {100, 100, 100}});
  EXPECT_NE(seen(), lit) << "a part to come";
  view.showGhost(std::nullopt);
  EXPECT_EQ(seen(), lit);
  pointerTo(view, QPoint(2, 2));
  EXPECT_EQ(seen(), bare);
}

TEST_F(Bench, LetsAPartGoDarkThatChangesUnderThePointer) {
  if (!window_.view().trouble().isEmpty()) GTEST_SKIP() << "no OpenGL here";
  View3d& view = window_.view();
  pointerTo(view, view.rect().center());
  setDimension("door_width", "431");
  settle();
  const auto seen = [&] {
    QTest::qWait(700);
    return window_.screen()->grabWindow(view.winId()).toImage();
  };
  const QImage after = seen();
  pointerTo(view, QPoint(2, 2));
  EXPECT_EQ(seen(), after) << "nothing is lit where a part was";
}

}  // namespace
}  // namespace dryfit::viewer
