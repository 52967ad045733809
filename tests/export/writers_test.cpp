// Several programs that change one file at the same moment: what was reported as recorded is there.

#include <gmock/gmock.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <thread>
#include <vector>

#include "joinery/base/writer_lock.h"
#include "joinery/file/model_file.h"
#include "tests/support/repetitions.h"
#include "tests/support/scratch.h"

namespace dryfit {
namespace {

using testing::dryfitCommand;
using testing::frameModel;
using ::testing::HasSubstr;
using testing::Said;
using testing::Scratch;

/// Part, size and value of the n-th writer: no two write the same record.
struct Record {
  std::string part;
  joinery::SizeName size;
  std::string word, value;
};

Record recordOf(int n) {
  static const std::vector<std::string> parts{"left_stile", "right_stile", "top_rail",
                                              "bottom_rail"};
  const bool width = n % 2 == 0;
  return {parts[static_cast<std::size_t>(n / 2) % parts.size()],
          width ? joinery::SizeName::width : joinery::SizeName::thickness,
          width ? "width" : "thickness", (width ? "61." : "22.") + std::to_string(10 + n)};
}

bool holds(const std::string& model, const Record& record) {
  const auto file = joinery::ModelFile::load(model);
  EXPECT_TRUE(file) << (file ? "" : file.error().line());
  if (!file) return false;
  for (const joinery::Measurement& m : file->model().measurements) {
    if (m.name == record.part && m.size == record.size) return m.value.text == record.value;
  }
  return false;
}

int measured(const std::string& model, const Record& record) {
  return dryfitCommand({"measure", model, record.part + "." + record.word + "=" + record.value})
      .code;
}

TEST(Writers, AtTheSameMomentLoseNothing) {
  constexpr int kWriters = 8;
  for (int round = 0; round < test::repetitions(10); ++round) {
    const Scratch scratch;
    const std::string model = scratch.write("frame.dryfit", frameModel());
    std::vector<int> codes(kWriters, -1);
    std::vector<std::thread> writers;
    for (int n = 0; n < kWriters; ++n) {
      writers.emplace_back(
          [&, n] { codes[static_cast<std::size_t>(n)] = measured(model, recordOf(n)); });
    }
    for (std::thread& writer : writers) writer.join();
    for (int n = 0; n < kWriters; ++n) {
      EXPECT_LE(codes[static_cast<std::size_t>(n)], 1) << "1: errors found, and recorded";
      EXPECT_TRUE(holds(model, recordOf(n))) << n;
    }
  }
}

TEST(Writers, ThatAreKilledLoseNothingThatAnotherReported) {
  constexpr int kWriters = 8;
  for (int round = 0; round < test::repetitions(10); ++round) {
    const Scratch scratch;
    const std::string model = scratch.write("frame.dryfit", frameModel());
    std::vector<pid_t> children;
    for (int n = 0; n < kWriters; ++n) {
      const pid_t child = ::fork();
      ASSERT_GE(child, 0);
      if (child == 0) ::_exit(measured(model, recordOf(n)));
      children.push_back(child);
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(3 * round));
    for (std::size_t n = 0; n < children.size(); n += 3) ::kill(children[n], SIGKILL);
    for (int n = 0; n < kWriters; ++n) {
      int status = 0;
      ASSERT_EQ(::waitpid(children[static_cast<std::size_t>(n)], &status, 0),
                children[static_cast<std::size_t>(n)]);
      if (!WIFEXITED(status)) continue;
      EXPECT_LE(WEXITSTATUS(status), 1) << n;
      EXPECT_TRUE(holds(model, recordOf(n))) << "round " << round << ", writer " << n;
    }
  }
}

TEST(AWriter, WaitsForAnotherAndThenDoesItsChange) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  auto lock = joinery::WriterLock::take(model);
  ASSERT_TRUE(lock);
  int code = -1;
  std::thread writer([&] { code = measured(model, recordOf(0)); });
  std::this_thread::sleep_for(std::chrono::milliseconds(100));
  EXPECT_FALSE(holds(model, recordOf(0)));
  { const joinery::WriterLock released = std::move(*lock); }
  writer.join();
  EXPECT_LE(code, 1);
  EXPECT_TRUE(holds(model, recordOf(0)));
}

TEST(AWriter, SaysThatItDidNothingWhereAnotherNeverEnds) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const auto lock = joinery::WriterLock::take(model);
  ASSERT_TRUE(lock);
  const auto second = joinery::WriterLock::take(model, std::chrono::milliseconds(50));
  ASSERT_FALSE(second);
  EXPECT_THAT(second.error().line(), HasSubstr("nothing was changed"));
}

/// Lays the frame out and takes what it needs off the stock list.
int laidOut(const std::string& model, const std::string& stock, const std::string& out) {
  return dryfitCommand({"layout", model, "--stock", stock, "-o", out, "--offcuts", stock}).code;
}

std::string stockOf(const Scratch& scratch) {
  return scratch.write("stock.json", R"({"format": "dryfit-stock", "version": 1, "unit": "mm",
    "boards": {"A1": {"species": "white oak", "thickness": 27, "width": 200, "length": 3600},
               "A2": {"species": "white oak", "thickness": 27, "width": 200, "length": 3600}}})");
}

// Each that succeeds has taken its wood from what the one before it left: as if they had come one
// after the other.
TEST(Writers, OfOneStockListTakeNoWoodTwice) {
  constexpr int kWriters = 4;
  for (int round = 0; round < test::repetitions(5); ++round) {
    const Scratch scratch;
    const std::string model = scratch.write("frame.dryfit", frameModel());
    const std::string stock = stockOf(scratch);
    std::vector<pid_t> children;
    for (int n = 0; n < kWriters; ++n) {
      const pid_t child = ::fork();
      ASSERT_GE(child, 0);
      if (child == 0) ::_exit(laidOut(model, stock, scratch.file("out" + std::to_string(n))));
      children.push_back(child);
    }
    int done = 0;
    for (const pid_t child : children) {
      int status = 0;
      ASSERT_EQ(::waitpid(child, &status, 0), child);
      ASSERT_TRUE(WIFEXITED(status));
      const int code = WEXITSTATUS(status);
      EXPECT_TRUE(code == 0 || code == 2) << code;
      done += code == 0 ? 1 : 0;
    }
    EXPECT_GE(done, 1);
    const Scratch alone;
    const std::string same = stockOf(alone);
    for (int n = 0; n < done; ++n) ASSERT_EQ(laidOut(model, same, alone.file("out")), 0);
    EXPECT_EQ(scratch.read("stock.json"), alone.read("stock.json")) << done << " had wood";
  }
}

TEST(AReader, IsNotKeptOutByAWriter) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const auto lock = joinery::WriterLock::take(model);
  ASSERT_TRUE(lock);
  EXPECT_EQ(dryfitCommand({"parts", model}).code, 0);
  EXPECT_EQ(dryfitCommand({"measure", model, "left_stile.width=60", "--dry-run"}).code, 0);
}

}  // namespace
}  // namespace dryfit
