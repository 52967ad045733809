#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "joinery/fit/absorb.h"
#include "joinery/fit/live_fit.h"
#include "joinery/piece/part_list.h"
#include "tests/joinery/cupboard_sample.h"

namespace dryfit::joinery {
namespace {

void measured(ModelFile& file, Measurement::Scope scope, const std::string& name, SizeName size,
              const std::string& value) {
  const auto set = file.setMeasurement({scope, name, size, {value, true}});
  ASSERT_TRUE(set) << set.error().line();
}

kernel::Vec3 overallOf(const Piece& piece, const std::string& part) {
  return partNamed(piece, part).overall().size();
}

/// From the drawing to a change of mind of the client, as it goes in a workshop.
class WorkshopStory : public ::testing::Test {
 protected:
  ModelFile file_ = fileFrom(cupboardText());

  /// The boards come home and are planed: 22.3 mm instead of 23, stiles 60.8 mm instead of 62.
  void machine() {
    using Scope = Measurement::Scope;
    measured(file_, Scope::material, "oak", SizeName::thickness, "22.3");
    measured(file_, Scope::part, "left_stile", SizeName::width, "60.8");
    measured(file_, Scope::part, "right_stile", SizeName::width, "60.8");
    ASSERT_TRUE(file_.setMoisture(Scope::material, "oak", "9.5"));
  }
  void cutStiles() {
    mark(file_, "left_stile", MarkState::cut);
    mark(file_, "right_stile", MarkState::cut);
  }
  void cutRails() {
    mark(file_, "top_rail", MarkState::cut);
    mark(file_, "bottom_rail", MarkState::cut);
  }
  [[nodiscard]] DryFit fit() const { return fitOf(file_.model()); }
};

TEST_F(WorkshopStory, AsDrawnItGoesTogether) {
  EXPECT_EQ(errorsIn(fit()), 0);
}

TEST_F(WorkshopStory, EverythingThatIsLeftFollowsTheWood) {
  machine();
  cutStiles();
  const DryFit now = fit();
  EXPECT_EQ(errorsIn(now), 0);
  EXPECT_TRUE(findingsOfKind(now, FindingKind::locked).empty());
  // Between the stiles: 900 - 2 * 20 - 2 * 60.8 = 738.4 mm, and 32 mm of tenon at either end.
  for (const char* rail : {"top_rail", "bottom_rail"}) {
    EXPECT_NEAR(partNamed(now.piece, rail).size.x, 738.4, 1e-9);
    EXPECT_NEAR(overallOf(now.piece, rail).x, 802.4, 1e-9);
    EXPECT_NEAR(overallOf(now.piece, rail).z, 22.3, 1e-9);
  }
  EXPECT_NEAR(partNamed(now.piece, "panel").size.y, 738.4, 1e-9);
  // The panel of 6 mm ply stays what it is.
  EXPECT_NEAR(partNamed(now.piece, "panel").size.z, 6, 1e-9);
}

TEST_F(WorkshopStory, WhatIsCutStaysAsItWasCut) {
  machine();
  cutStiles();
  const std::vector<Mark> made = file_.model().marks;
  ASSERT_TRUE(file_.setDimension("rail_width", "66"));  // the client wants slimmer rails
  measured(file_, Measurement::Scope::part, "top_rail", SizeName::width, "65.8");
  const DryFit now = fit();
  EXPECT_EQ(errorsIn(now), 0);
  EXPECT_EQ(file_.model().marks, made);
  for (const Mark& mark : made) {
    const kernel::Vec3 size = overallOf(now.piece, mark.part);
    for (int axis = 0; axis < 3; ++axis) EXPECT_NEAR(size[axis], mark.overall[axis], 1e-4);
  }
}

TEST_F(WorkshopStory, AWiderOpeningIsTakenUpByTheScribes) {
  machine();
  cutStiles();
  cutRails();
  // The plasterer has been: 912 mm between the walls.
  ASSERT_TRUE(file_.setDimension("opening_width", "912"));
  const DryFit changed = fit();
  const auto locked = findingsOfKind(changed, FindingKind::locked);
  ASSERT_EQ(locked.size(), 2U);
  for (const Finding& f : locked) {
    EXPECT_EQ(f.severity, Severity::error);
    EXPECT_NEAR(f.limit - f.measured, 12, 1e-6);
    EXPECT_NE(f.mend.find("scribe_width 26 mm (6 mm more)"), std::string::npos) << f.mend;
  }
  const auto all = absorptions(file_.model(), Basis::measured);
  ASSERT_TRUE(all) << all.error().line();
  const auto scribe = std::ranges::find(all->sound, "scribe_width",
                                        [](const Absorption& a) { return a.what.name; });
  ASSERT_NE(scribe, all->sound.end());
  EXPECT_TRUE(scribe->resultingFindings.empty());
  EXPECT_EQ(scribe->partsChanged,
            (std::vector<std::string>{"left_scribe", "right_scribe", "panel"}));
  // The stiles are measured: another drawn width of theirs would change nothing.
  EXPECT_TRUE(std::ranges::none_of(
      all->sound, [](const Absorption& a) { return a.what.name == "stile_width"; }));

  ASSERT_TRUE(file_.setDimension(scribe->what.name, scribe->afterText));
  const DryFit then = fit();
  EXPECT_EQ(errorsIn(then), 0);
  EXPECT_TRUE(findingsOfKind(then, FindingKind::locked).empty());
  for (const Mark& mark : file_.model().marks) {
    const kernel::Vec3 size = overallOf(then.piece, mark.part);
    for (int axis = 0; axis < 3; ++axis) EXPECT_NEAR(size[axis], mark.overall[axis], 1e-4);
  }
  EXPECT_NEAR(overallOf(then.piece, "left_scribe").y, 26, 1e-9);
  EXPECT_NEAR(partNamed(then.piece, "right_scribe").span.max.x, 912, 1e-9);
}

TEST_F(WorkshopStory, TheBenchWindowSeesTheSame) {
  machine();
  cutStiles();
  cutRails();
  LiveFit live;
  ASSERT_TRUE(live.update(file_.model(), Basis::measured));
  ASSERT_TRUE(file_.setDimension("opening_width", "912"));
  const auto seen = live.update(file_.model(), Basis::measured);
  ASSERT_TRUE(seen);
  EXPECT_TRUE((*seen)->findings == fit().findings);
}

}  // namespace
}  // namespace dryfit::joinery
