// Square work is built face by face without Boolean operations: here it goes through an exchange
// file and comes back the same.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "export/step/step_writer.h"
#include "joinery/fit/dry_fit.h"
#include "tests/support/batch_model.h"
#include "tests/support/hand_made.h"
#include "tests/support/step_reader.h"

namespace dryfit::test {
namespace {

using joinery::Axis;
using joinery::Face;
using joinery::Purpose;
using kernel::Box3;

/// Boards side by side, each with pockets from above and grooves from the front at random places;
/// many meet or lie in one plane.
HandMade randomBoards(std::mt19937& random, int count) {
  const auto whole = [&](int low, int high) {
    return std::uniform_int_distribution<>(low, high)(random);
  };
  HandMade made;
  for (int i = 0; i < count; ++i) {
    const double y = 200.0 * i;
    const Box3 board{{0, y, 0}, {300.0 + i, y + 100, 40}};
    const auto part = made.part("board_" + std::to_string(i), board, Axis::x, Axis::y);
    const auto joint = made.joint("work_" + std::to_string(i), {part});
    const int cuts = whole(1, 8);
    for (int c = 0; c < cuts; ++c) {
      const double x = whole(1, 25) * 10, w = whole(1, 4) * 10;
      if (whole(0, 1) == 0) {
        const double at = y + whole(2, 7) * 10;
        made.cut(joint, part, Purpose::mortise,
                 {{x, at, 40.0 - whole(1, 3) * 10}, {x + w, at + 20, 40}}, Face::top);
      } else {
        made.cut(joint, part, Purpose::groove, {{x, y, 10}, {x + w, y + 10, 20}}, Face::front);
      }
    }
  }
  return made;
}

/// Writes the parts and reads them again: each comes back with its volume, area and faces.
void expectBackFaceByFace(const joinery::Piece& piece, const std::vector<kernel::Solid>& solids) {
  const auto text = exporting::stepText(piece, solids);
  ASSERT_TRUE(text) << text.error().line();
  const auto read = testing::readStep(*text);
  ASSERT_TRUE(read) << read.error().line();
  ASSERT_EQ(read->instances.size(), solids.size());
  std::map<std::string, const kernel::Solid*> byName;
  for (const auto& instance : read->instances) byName[instance.name] = &instance.solid;
  for (const auto& part : piece.parts) {
    const std::string label = piece.label(part.id);
    ASSERT_TRUE(byName.contains(label)) << label;
    const auto& solid = solids[part.id.index()];
    const kernel::Solid& back = *byName[label];
    EXPECT_NEAR(back.volume() / solid.volume(), 1, 1e-9) << label;
    EXPECT_NEAR(back.area() / solid.area(), 1, 1e-9) << label;
    EXPECT_EQ(back.topology(), solid.topology()) << label;
  }
}

/// DRYFIT_SQUARE_PARTS in the environment sets how many boards are tried, 80 to a file.
TEST(StepFile, GivesSquareWorkBackFaceByFace) {
  const char* given = std::getenv("DRYFIT_SQUARE_PARTS");
  const int files = given == nullptr ? 1 : std::max(1, std::atoi(given) / 80);
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE("seed " + std::to_string(seed));
  std::mt19937 random(seed);
  for (int file = 0; file < files && !HasFailure(); ++file) {
    const HandMade made = randomBoards(random, 80);
    const auto solids = joinery::buildSolids(made.piece);
    ASSERT_TRUE(solids) << solids.error().line();
    expectBackFaceByFace(made.piece, *solids);
  }
}

TEST(StepFile, GivesDowelHolesBackFaceByFace) {
  const auto fit = joinery::dryFit(dowelledShelves(3), joinery::Basis::drawn);
  ASSERT_TRUE(fit) << fit.error().line();
  int holes = 0;
  for (const auto& part : fit->piece.parts) holes += static_cast<int>(part.features.size());
  ASSERT_GT(holes, 20);
  expectBackFaceByFace(fit->piece, fit->solids);
}

}  // namespace
}  // namespace dryfit::test
