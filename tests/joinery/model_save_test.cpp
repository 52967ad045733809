#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "joinery/file/model_file.h"
#include "tests/joinery/model_samples.h"

namespace dryfit::joinery {
namespace {

namespace fs = std::filesystem;

std::string contentOf(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// A folder of its own for one test, gone with it.
class ModelFolder : public ::testing::Test {
 protected:
  void SetUp() override {
    std::string name = (fs::temp_directory_path() / "dryfit-test-XXXXXX").string();
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder = name;
  }
  void TearDown() override { fs::remove_all(folder); }
  [[nodiscard]] std::size_t files() const {
    return static_cast<std::size_t>(
        std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
  }
  fs::path folder;
};

TEST_F(ModelFolder, SavedFileReadsAsTheSameText) {
  const ModelFile file = fileFrom(doorText());
  ASSERT_TRUE(file.save(folder / "door.dryfit"));
  EXPECT_EQ(contentOf(folder / "door.dryfit"), doorText());
  const auto loaded = ModelFile::load(folder / "door.dryfit");
  ASSERT_TRUE(loaded) << loaded.error().line();
  EXPECT_EQ(loaded->text(), doorText());
  EXPECT_EQ(files(), 1U);
}

TEST_F(ModelFolder, SaveKeepsLinksAndPermissions) {
  std::ofstream(folder / "real.dryfit") << "old";
  fs::permissions(folder / "real.dryfit", fs::perms::owner_read | fs::perms::owner_write);
  fs::create_symlink("real.dryfit", folder / "link.dryfit");
  ASSERT_TRUE(fileFrom(doorText()).save(folder / "link.dryfit"));
  EXPECT_TRUE(fs::is_symlink(folder / "link.dryfit"));
  EXPECT_EQ(contentOf(folder / "real.dryfit"), doorText());
  EXPECT_EQ(fs::status(folder / "real.dryfit").permissions(),
            fs::perms::owner_read | fs::perms::owner_write);
  EXPECT_EQ(files(), 2U);
}

TEST_F(ModelFolder, FailedSaveLeavesTheOldFileAndNothingElse) {
  // A folder cannot be replaced by a file, whoever asks.
  fs::create_directories(folder / "door.dryfit" / "inside");
  const Result<void> saved = fileFrom(doorText()).save(folder / "door.dryfit");
  ASSERT_FALSE(saved);
  EXPECT_EQ(saved.error().code, ErrorCode::fileNotWritten);
  EXPECT_TRUE(fs::is_directory(folder / "door.dryfit" / "inside"));
  EXPECT_EQ(files(), 1U);
  const Result<void> nowhere = fileFrom(doorText()).save(folder / "missing" / "door.dryfit");
  ASSERT_FALSE(nowhere);
  EXPECT_EQ(nowhere.error().code, ErrorCode::fileNotWritten);
  EXPECT_EQ(nowhere.error().where, (folder / "missing" / "door.dryfit").string());
}

TEST_F(ModelFolder, FileThatCannotBeReadIsNamed) {
  for (const fs::path& path : {folder / "none.dryfit", folder}) {
    const auto file = ModelFile::load(path);
    ASSERT_FALSE(file);
    EXPECT_EQ(file.error().code, ErrorCode::fileNotRead);
    EXPECT_EQ(file.error().where, path.string());
  }
  std::ofstream(folder / "empty.dryfit");
  ASSERT_FALSE(ModelFile::load(folder / "empty.dryfit"));
  EXPECT_EQ(ModelFile::load(folder / "empty.dryfit").error().code, ErrorCode::badModel);
  fs::resize_file(folder / "empty.dryfit", 20'000'001);
  EXPECT_EQ(ModelFile::load(folder / "empty.dryfit").error().code, ErrorCode::fileNotRead);
}

}  // namespace
}  // namespace dryfit::joinery
