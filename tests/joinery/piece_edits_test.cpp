// What is written of a piece as a whole is changed in place, and reads again as it was saved.

#include "joinery/file/piece_edits.h"

#include <gtest/gtest.h>

#include "tests/support/random_answers.h"

namespace dryfit::test {
namespace {

using joinery::ModelFile;

ModelFile read(const std::string& text) {
  return ModelFile::parse(text, "piece").value();
}

TEST(PieceEdits, ChangeTheBriefAndTakeItAway) {
  for (const joinery::Starter& starter : builtInStarters()) {
    ModelFile file = starterFile(starter);
    ASSERT_TRUE(joinery::setPieceText(file, "brief", "tolerance", "2")) << starter.name;
    EXPECT_EQ(joinery::pieceText(file, "brief", "tolerance"), "2");
    EXPECT_TRUE(read(file.text()).saysTheSame(file)) << starter.name;
  }
}

TEST(PieceEdits, RefuseWhatCannotStandThereAndChangeNothing) {
  ModelFile file = starterFile(builtInStarters().front());
  const std::string before = file.text();
  EXPECT_FALSE(joinery::setPieceText(file, "finish", "coats", "a few (("));
  EXPECT_FALSE(joinery::addHardware(file, "  "));
  EXPECT_FALSE(joinery::setHardware(file, "no_such_thing", "count", "2"));
  EXPECT_FALSE(joinery::eraseHardware(file, "no_such_thing"));
  EXPECT_EQ(file.text(), before);
}

TEST(PieceEdits, AddChangeAndTakeOutHardware) {
  ModelFile file = starterFile(builtInStarters().front());
  const std::string before = file.text();
  ASSERT_TRUE(joinery::addHardware(file, "brass_pull"));
  EXPECT_FALSE(joinery::addHardware(file, "brass_pull")) << "it is there already";
  ASSERT_TRUE(joinery::setHardware(file, "brass_pull", "count", "4"));
  ASSERT_TRUE(joinery::setHardware(file, "brass_pull", "note", "of the drawers"));
  EXPECT_EQ(joinery::hardwareText(file, "brass_pull", "count"), "4");
  EXPECT_TRUE(read(file.text()).saysTheSame(file));
  ASSERT_TRUE(joinery::eraseHardware(file, "brass_pull"));
  EXPECT_EQ(file.text(), before);
}

}  // namespace
}  // namespace dryfit::test
