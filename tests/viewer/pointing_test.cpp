// What the pointer is on is lit and named, and unlit again where it goes away.

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

}  // namespace
}  // namespace dryfit::viewer
