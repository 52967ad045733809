#include "joinery/base/atomic_write.h"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>

#include "joinery/file/model_file.h"

namespace dryfit::joinery {
namespace {

namespace fs = std::filesystem;

TEST(AtomicWrite, LeavesAPipeWhereItIs) {
  std::string name = (fs::temp_directory_path() / "dryfit-test-XXXXXX").string();
  ASSERT_NE(::mkdtemp(name.data()), nullptr);
  const fs::path pipe = fs::path(name) / "pipe.step";
  ASSERT_EQ(::mkfifo(pipe.c_str(), 0600), 0);
  const auto written = writeAtomically(pipe, "text");
  EXPECT_TRUE(fs::is_fifo(pipe));
  const auto files = std::distance(fs::directory_iterator(name), fs::directory_iterator());
  fs::remove_all(name);
  ASSERT_FALSE(written);
  EXPECT_EQ(written.error().code, ErrorCode::fileNotWritten);
  EXPECT_EQ(written.error().where, pipe.string());
  EXPECT_EQ(files, 1);
}

TEST(ModelFile, IsNotReadForEver) {
  const auto file = ModelFile::load("/dev/zero");
  ASSERT_FALSE(file);
  EXPECT_EQ(file.error().what, "the file is larger than 20 MB");
}

}  // namespace
}  // namespace dryfit::joinery
