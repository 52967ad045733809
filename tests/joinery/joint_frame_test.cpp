// A whole frame: its joints meet inside the same stiles and rails and must leave each other room.

#include <gtest/gtest.h>

#include "joinery/file/model_file.h"
#include "joinery/joints/evaluate.h"
#include "tests/support/demo_pieces.h"
#include "tests/support/joint_bench.h"

namespace dryfit::test {
namespace {

using joinery::Feature;
using joinery::Piece;
using joinery::Purpose;
using nlohmann::ordered_json;

/// Two stiles, two rails with haunched tenons, a muntin with stub tenons and two panels.
ModelText frame(double panel, double thickness, double stile) {
  const double width = 600;
  const double height = 500;
  const double front = (thickness - panel) / 2;
  const double muntin = (width - stile) / 2;
  ModelText text;
  text.part("left", {"z", 0, height}, {"x", 0, stile}, {"y", 0, thickness})
      .part("right", {"z", 0, height}, {"x", width - stile, stile}, {"y", 0, thickness})
      .part("top", {"x", stile, width - 2 * stile}, {"z", height - stile, stile},
            {"y", 0, thickness})
      .part("bottom", {"x", stile, width - 2 * stile}, {"z", 0, stile}, {"y", 0, thickness})
      .part("muntin", {"z", stile, height - 2 * stile}, {"x", muntin, stile}, {"y", 0, thickness})
      .part("panel_one", {"z", stile, height - 2 * stile}, {"x", stile, muntin - stile},
            {"y", front, panel})
      .part("panel_two", {"z", stile, height - 2 * stile}, {"x", muntin + stile, muntin - stile},
            {"y", front, panel});
  for (const std::string rail : {"top", "bottom"}) {
    for (const std::string side : {"left", "right"}) {
      text.joint(rail + "_" + side,
                 {{"kind", "haunched-mortise-tenon"}, {"tenon", rail}, {"mortise", side}});
    }
    text.joint("muntin_" + rail,
               {{"kind", "stub-tenon-groove"}, {"tenon", "muntin"}, {"groove", rail}});
  }
  text.joint("groove_one", {{"kind", "panel-groove"},
                            {"panel", "panel_one"},
                            {"frame", {"left", "muntin", "top", "bottom"}}});
  text.joint("groove_two", {{"kind", "panel-groove"},
                            {"panel", "panel_two"},
                            {"frame", {"muntin", "right", "top", "bottom"}}});
  return text;
}

const joinery::PlacedJoint& jointNamed(const Piece& piece, const std::string& name) {
  for (const joinery::PlacedJoint& joint : piece.joints) {
    if (piece.joint(joint.id).name == name) return joint;
  }
  ADD_FAILURE() << "no joint " << name;
  return piece.joints.front();
}

TEST(Frame, GoesTogetherWithoutSharedWood) {
  for (const double panel : {6.0, 9.5, 16.0}) {
    const Piece piece = pieceOf(frame(panel, 22, 58));
    std::string who;
    EXPECT_EQ(sharedWood(piece, who), 0) << who << "panel " << panel;
    for (const auto& part : piece.parts) {
      const kernel::Solid solid = solidOf(part);
      EXPECT_TRUE(kernel::validate(solid)) << piece.part(part.id).name;
      EXPECT_EQ(solid.topology().solids, 1) << piece.part(part.id).name;
    }
  }
}

TEST(Frame, TenonsKeepClearOfThePanelsGroove) {
  const Piece piece = pieceOf(frame(6, 22, 58));
  const double depth = valueOf(jointNamed(piece, "groove_one"), "groove depth");
  EXPECT_NEAR(valueOf(jointNamed(piece, "top_left"), "shoulder bottom"), depth, 1e-9);
  EXPECT_NEAR(valueOf(jointNamed(piece, "bottom_left"), "shoulder top"), depth, 1e-9);
}

TEST(Frame, StubTenonsStandInLineWithThePanelsGroove) {
  const Piece piece = pieceOf(frame(6, 22, 58));
  const auto& groove = jointNamed(piece, "groove_one");
  const auto& stub = jointNamed(piece, "muntin_top");
  EXPECT_NEAR(valueOf(stub, "tenon thickness"), valueOf(groove, "groove width"), 1e-9);
  EXPECT_NEAR(valueOf(stub, "groove depth"), valueOf(groove, "groove depth"), 1e-9);
  EXPECT_NEAR(valueOf(stub, "offset"), 0, 1e-9);
}

TEST(Frame, StubTenonsAreNotchedAtThePanelsCorners) {
  const Piece piece = pieceOf(frame(6, 22, 58));
  const auto& muntin = partNamed(piece, "muntin");
  const auto& stub = jointNamed(piece, "muntin_top");
  const double depth = valueOf(jointNamed(piece, "groove_one"), "groove depth");
  const double length = valueOf(stub, "tenon length");
  const double thickness = valueOf(stub, "tenon thickness") - stub.fit;
  const double groove = valueOf(jointNamed(piece, "groove_one"), "groove width");
  const double sight = 500 - 2 * 58.0;
  // Blank, two tenons, less a groove along each edge, whose ends notch the tenons.
  const double expected =
      58.0 * sight * 22 + 2 * length * thickness * (58 - 2 * depth) - 2 * groove * depth * sight;
  EXPECT_NEAR(solidOf(muntin).volume(), expected, 1e-6);
}

TEST(Frame, GroovesReachAsFarAsThePanelsCorners) {
  const Piece piece = pieceOf(frame(6, 22, 58));
  const double depth = valueOf(jointNamed(piece, "groove_one"), "groove depth");
  const Feature& groove = featureOf(partNamed(piece, "left"), Purpose::groove);
  EXPECT_TRUE(groove.stopped);
  EXPECT_NEAR(groove.extent.min.x, 58 - depth, 1e-9);
  EXPECT_NEAR(groove.extent.max.x, 500 - 58 + depth, 1e-9);
}

TEST(PanelGroove, FollowsAThinnerPanel) {
  for (const double panel : {6.0, 5.6, 5.2}) {
    const Piece piece = pieceOf(frame(panel, 22, 58));
    const auto& groove = jointNamed(piece, "groove_one");
    EXPECT_NEAR(valueOf(groove, "groove width"), panel + groove.fit, 1e-9);
    EXPECT_NEAR(featureOf(partNamed(piece, "left"), Purpose::groove).extent.size().z,
                panel + groove.fit, 1e-9);
  }
}

TEST(PanelGroove, AddsAnEdgeAllRoundWithItsCorners) {
  const Piece piece = pieceOf(frame(6, 22, 58));
  const auto& panel = partNamed(piece, "panel_one");
  const auto& joint = jointNamed(piece, "groove_one");
  const double edge = valueOf(joint, "groove depth") - valueOf(joint, "gap");
  const double expected = (panel.size.x + 2 * edge) * (panel.size.y + 2 * edge) * 6;
  EXPECT_NEAR(solidOf(panel).volume(), expected, 1e-6);
  EXPECT_EQ(solidOf(panel).topology().faces, 6);
}

TEST(PanelGroove, WorksAThickPanelDownToATongue) {
  const Piece piece = pieceOf(frame(16, 22, 58));
  const auto& joint = jointNamed(piece, "groove_one");
  const double width = valueOf(joint, "groove width");
  EXPECT_EQ(width, 8);  // a third of 22, by the nearest cutter
  EXPECT_NEAR(featureOf(partNamed(piece, "panel_one"), Purpose::tongue).extent.size().z,
              width - joint.fit, 1e-9);
}

// Wood Handbook, Eq. 13-2: 300 mm of flat-sawn white oak swell 4.38 mm from 8 to 12 %.
TEST(PanelGroove, LeavesRoomForASeasonsSwelling) {
  const Piece piece = pieceOf(frame(6, 22, 58));
  const double swelling = 300 * 0.00365 * (12 - 8);
  EXPECT_GE(valueOf(jointNamed(piece, "groove_one"), "gap"), swelling / 2);
}

TEST(PanelGroove, IsNeverGlued) {
  const Piece piece = pieceOf(frame(6, 22, 58));
  EXPECT_FALSE(jointNamed(piece, "groove_one").glued);
  EXPECT_TRUE(jointNamed(piece, "top_left").glued);
}

TEST(PanelGroove, OfAGivenWidthTellsATightPanel) {
  ModelText text = frame(6.2, 22, 58);
  ordered_json joint = text.json()["joints"]["groove_one"];
  joint["groove_width"] = 6;
  text.joint("groove_one", joint);
  const Piece piece = pieceOf(text);
  const auto& placed = jointNamed(piece, "groove_one");
  EXPECT_NEAR(placed.fit, -0.2, 1e-9);
  EXPECT_LT(placed.fit, placed.fitMin);
}

TEST(DemoPieces, AreCutWithoutSharedWood) {
  for (const std::string& name : soundPieces()) {
    const auto piece = joinery::evaluate(demoPiece(name).model(), joinery::Basis::drawn);
    ASSERT_TRUE(piece) << name << " " << piece.error().line();
    std::string who;
    EXPECT_EQ(sharedWood(*piece, who), 0) << name << "\n" << who;
  }
}

}  // namespace
}  // namespace dryfit::test
