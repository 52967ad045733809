#include "joinery/making/measure.h"

#include <gtest/gtest.h>

#include "tests/joinery/model_samples.h"

namespace dryfit::joinery {
namespace {

TEST(ChangeReport, ListsWhatANarrowerStileChanges) {
  const std::string text = replaced(doorText(),
                                    ",\n    \"batches\": {\"october\": {\"thickness\": "
                                    "\"7/8 in\"}},\n    \"materials\": {\"oak\": "
                                    "{\"thickness\": 22.3}}",
                                    "");
  const Piece drawn = pieceFrom(text, Basis::drawn);
  const Piece measured = pieceFrom(text, Basis::measured);
  const ChangeReport report = compare(drawn, measured);
  std::vector<std::string> lines;
  for (const SizeChange& c : report.sizes) {
    lines.push_back(fmt::format("{} {} {:.1f} {:.1f}", drawn.part(c.part).name, c.size,
                                c.before.mm(), c.after.mm()));
  }
  EXPECT_EQ(lines,
            (std::vector<std::string>{
                "left_stile width 62.0 60.8", "top_rail shoulder length 276.0 277.2",
                "top_rail overall length 276.0 277.2", "bottom_rail shoulder length 276.0 277.2",
                "bottom_rail overall length 276.0 277.2", "panel width 276.0 277.2"}));
  EXPECT_TRUE(report.joints.empty());
}

TEST(ChangeReport, IsEmptyBetweenEqualPieces) {
  const Piece piece = pieceFrom(doorText());
  EXPECT_TRUE(compare(piece, piece).sizes.empty());
}

TEST(ChangeReport, LeavesOutWhatNoRuleCanShow) {
  const Piece before = pieceFrom(doorText());
  Piece after = before;
  after.parts[0].size.x += 0.0049;
  EXPECT_TRUE(compare(before, after).sizes.empty());
  after.parts[0].size.x += 0.0002;
  EXPECT_EQ(compare(before, after).sizes.size(), 2U);  // shoulder and overall length
}

TEST(ChangeReport, ListsJointLengthsByName) {
  Piece before = pieceFrom(doorText());
  PlacedJoint joint;
  joint.id = JointId(1);
  joint.values = {{"tenon length", 38, true, false, ""},
                  {"dowels", 2, false, false, ""},
                  {"fit", 0.1, true, false, ""}};
  before.joints = {joint};
  Piece after = before;
  after.joints[0].values[0].value = 36;
  after.joints[0].values[1].value = 3;
  const ChangeReport report = compare(before, after);
  ASSERT_EQ(report.joints.size(), 1U);
  EXPECT_EQ(report.joints[0].value, "tenon length");
  EXPECT_EQ(report.joints[0].joint, JointId(1));
  EXPECT_EQ(report.joints[0].before, Length::mm(38));
  EXPECT_EQ(report.joints[0].after, Length::mm(36));
}

}  // namespace
}  // namespace dryfit::joinery
