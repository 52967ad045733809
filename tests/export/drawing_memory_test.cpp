// Drawings made again after a change: only what changed is worked out, and nothing is stale.

#include <gtest/gtest.h>

#include <random>
#include <string>
#include <vector>

#include "export/drawing/drawing_set.h"
#include "export/drawing/svg_writer.h"
#include "joinery/file/model_file.h"
#include "joinery/fit/live_fit.h"
#include "tests/support/random_pieces.h"

namespace dryfit::exporting {
namespace {

using joinery::Basis;

std::vector<std::string> texts(const joinery::DryFit& fit, ViewMemory* memory) {
  const auto sheets = drawAll(fit, joinery::Unit::mm, {}, memory);
  std::vector<std::string> all;
  if (!sheets) {
    all.push_back(sheets.error().line());
    return all;
  }
  for (const NamedSheet& named : *sheets) all.push_back(named.name + svgText(named.sheet));
  return all;
}

joinery::ModelFile table() {
  return joinery::ModelFile::load(DRYFIT_MODELS "/reading-table.dryfit").value();
}

TEST(DrawingMemory, DrawsTheSamePieceAgainWithoutLookingAtItAnew) {
  joinery::LiveFit live;
  ViewMemory memory;
  const joinery::ModelFile file = table();
  const auto first = texts(*live.update(file.model(), Basis::drawn).value(), &memory);
  const int worked = memory.worked();
  ASSERT_GT(worked, 0);
  EXPECT_EQ(texts(*live.update(file.model(), Basis::drawn).value(), &memory), first);
  EXPECT_EQ(memory.worked(), worked);
}

TEST(DrawingMemory, LooksAnewOnlyAtWhatAChangedNumberChanges) {
  joinery::LiveFit live;
  ViewMemory memory;
  joinery::ModelFile file = table();
  (void)texts(*live.update(file.model(), Basis::drawn).value(), &memory);
  const int all = memory.worked();
  const double width = live.update(file.model(), Basis::drawn)
                           .value()
                           ->piece.values.at(file.model().dimensions.front().name);
  ASSERT_TRUE(file.setDimension(file.model().dimensions.front().name, std::to_string(width + 7)));
  const auto again = texts(*live.update(file.model(), Basis::drawn).value(), &memory);
  EXPECT_GT(memory.worked(), all);
  EXPECT_LT(memory.worked(), 2 * all) << "legs and the like are as they were";
  EXPECT_EQ(again, texts(joinery::dryFit(file.model(), Basis::drawn).value(), nullptr));
}

TEST(DrawingMemory, NeverShowsAnOldPictureWhateverTheOrderOfChanges) {
  joinery::LiveFit live;
  ViewMemory memory;
  const joinery::ModelFile original = table();
  joinery::ModelFile file = original;
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE("seed " + std::to_string(test::seed()));
  for (int step = 0; step < 8; ++step) {
    const auto& dimensions = original.model().dimensions;
    const auto& changed = dimensions[random() % dimensions.size()];
    const bool back = random() % 3 == 0;
    joinery::ModelFile next = back ? original : file;
    const double share = 0.98 + 0.01 * static_cast<double>(random() % 5);
    if (!back && !next.setDimension(changed.name,
                                    "(" + changed.value.text + ") * " + std::to_string(share))) {
      continue;
    }
    const auto fit = live.update(next.model(), Basis::drawn);
    if (!fit) continue;
    file = next;
    ASSERT_EQ(texts(**fit, &memory), texts(**fit, nullptr)) << "step " << step;
  }
}

}  // namespace
}  // namespace dryfit::exporting
