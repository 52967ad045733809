// What is on the disk when writing succeeds, fails or is killed.

#include <gmock/gmock.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <map>
#include <thread>

#include "export/files/output_folder.h"
#include "export/files/write_together.h"
#include "joinery/base/atomic_write.h"
#include "tests/support/killed.h"
#include "tests/support/scratch.h"

namespace dryfit {
namespace {

using exporting::OutputFolder;
using exporting::writeTogether;
using joinery::writeAtomically;
using ::testing::AnyOf;
using testing::frameModel;
using ::testing::HasSubstr;
using testing::killedBefore;
using testing::Scratch;
using testing::WithoutRights;

namespace fs = std::filesystem;

using Listing = std::map<std::string, std::string>;

Listing shownOf(const Scratch& scratch) {
  Listing shown = scratch.listing();
  std::erase_if(shown, [](const auto& entry) {
    return entry.first.find(".dryfit-scratch-") != std::string::npos;
  });
  return shown;
}

/// One way of writing a set of files, begun from a state of the disk.
struct Writing {
  std::function<void(const Scratch&)> begin;
  std::function<void(const Scratch&)> write;
  std::vector<std::string> next;  ///< folders that the next run writes to
};

/// What the next run does before anything else.
void runAgain(const Scratch& scratch, const std::vector<std::string>& folders) {
  for (const std::string& folder : folders) {
    EXPECT_TRUE(OutputFolder::prepare(scratch.path() / folder));
  }
}

Listing before(const Writing& writing) {
  const Scratch scratch;
  writing.begin(scratch);
  return scratch.listing();
}

Listing after(const Writing& writing) {
  const Scratch scratch;
  writing.begin(scratch);
  writing.write(scratch);
  return scratch.listing();
}

/// Kills the writing before each of its steps in turn.
void expectOldOrNewWhereverKilled(const Writing& writing) {
  const Listing old = before(writing);
  const Listing fresh = after(writing);
  ASSERT_NE(old, fresh);
  int step = 1;
  for (;; ++step) {
    SCOPED_TRACE("killed before step " + std::to_string(step));
    const Scratch scratch;
    writing.begin(scratch);
    if (!killedBefore(step, [&] { writing.write(scratch); })) break;
    for (const auto& [name, bytes] : shownOf(scratch)) {
      const auto was = old.find(name);
      const auto is = fresh.find(name);
      const bool whole =
          (was != old.end() && was->second == bytes) || (is != fresh.end() && is->second == bytes);
      EXPECT_TRUE(whole) << name << " is neither the old file nor the new one";
    }
    runAgain(scratch, writing.next);
    EXPECT_THAT(scratch.listing(), AnyOf(old, fresh)) << "a mixed set, or something left behind";
  }
  EXPECT_GT(step, 8) << "hardly anything was tried";
}

void putOutput(const fs::path& target, const std::vector<std::string>& names,
               const fs::path& outside = {}) {
  auto folder = OutputFolder::prepare(target);
  ASSERT_TRUE(folder);
  for (const std::string& name : names) ASSERT_TRUE(folder->write(name, "new " + name));
  if (!outside.empty()) {
    ASSERT_TRUE(folder->writeOutside(outside, "new outside"));
  }
  ASSERT_TRUE(folder->commit());
}

TEST(KilledWriting, LeavesTwoFilesOfOneFolderOldOrNew) {
  expectOldOrNewWhereverKilled(
      {[](const Scratch& s) {
         (void)s.write("a.csv", "old a");
         (void)s.write("b.csv", "old b");
       },
       [](const Scratch& s) {
         (void)writeTogether({{s.path() / "a.csv", "new a"}, {s.path() / "b.csv", "new b"}});
       },
       {"."}});
}

TEST(KilledWriting, LeavesTwoFilesOfTwoFoldersOldOrNew) {
  // Whichever folder the next run comes to first.
  for (const std::vector<std::string>& next :
       {std::vector<std::string>{"left", "right"}, {"right", "left"}}) {
    expectOldOrNewWhereverKilled({[](const Scratch& s) {
                                    fs::create_directory(s.path() / "left");
                                    fs::create_directory(s.path() / "right");
                                    (void)s.write("left/a.csv", "old a");
                                    (void)s.write("right/b.csv", "old b");
                                  },
                                  [](const Scratch& s) {
                                    (void)writeTogether({{s.path() / "left/a.csv", "new a"},
                                                         {s.path() / "right/b.csv", "new b"}});
                                  },
                                  next});
  }
}

TEST(KilledWriting, LeavesAFolderThatWasThereOldOrNew) {
  expectOldOrNewWhereverKilled(
      {[](const Scratch& s) {
         fs::create_directories(s.path() / "out/sub");
         (void)s.write("out/a.txt", "old a");
         (void)s.write("out/sub/b.txt", "old b");
         (void)s.write("out/mine.txt", "mine");
       },
       [](const Scratch& s) {
         putOutput(s.path() / "out", {"a.txt", "sub/b.txt", "fresh/c.txt"});
       },
       {"out"}});
}

TEST(KilledWriting, MakesANewFolderWholeOrNotAtAll) {
  const Writing writing{[](const Scratch&) {},
                        [](const Scratch& s) {
                          putOutput(s.path() / "way/to/out", {"a.txt", "sub/b.txt"});
                        },
                        {"."}};
  expectOldOrNewWhereverKilled(writing);
  // Here even before the next run has tidied up.
  const Listing fresh = after(writing);
  for (int step = 1;; ++step) {
    const Scratch scratch;
    if (!killedBefore(step, [&] { writing.write(scratch); })) break;
    EXPECT_THAT(shownOf(scratch), AnyOf(Listing{}, fresh)) << step;
  }
}

TEST(KilledWriting, LeavesAFolderAndAFileElsewhereOldOrNew) {
  expectOldOrNewWhereverKilled(
      {[](const Scratch& s) {
         fs::create_directory(s.path() / "lists");
         (void)s.write("lists/left.json", "old outside");
       },
       [](const Scratch& s) {
         putOutput(s.path() / "out", {"a.txt", "sub/b.txt"}, s.path() / "lists/left.json");
       },
       {"lists", "out"}});
}

TEST(KilledWriting, LeavesASavedFileOldOrNew) {
  int step = 1;
  for (;; ++step) {
    SCOPED_TRACE(step);
    const Scratch scratch;
    const std::string file = scratch.write("door.dryfit", "old");
    if (!killedBefore(step, [&] { (void)writeAtomically(file, "new"); })) break;
    EXPECT_THAT(scratch.read("door.dryfit"), AnyOf("old", "new"));
    ASSERT_TRUE(writeAtomically(file, "newer"));
    EXPECT_EQ(scratch.listing(), (Listing{{"door.dryfit", "newer"}})) << "something left behind";
  }
  EXPECT_GT(step, 3);
}

TEST(KilledWriting, IsNotTakenBackWhereSomebodyHasWrittenSince) {
  int mixed = 0;
  for (int step = 1;; ++step) {
    const Scratch scratch;
    (void)scratch.write("a.csv", "old a");
    (void)scratch.write("b.csv", "old b");
    const auto write = [&] {
      (void)writeTogether(
          {{scratch.path() / "a.csv", "new a"}, {scratch.path() / "b.csv", "new b"}});
    };
    if (!killedBefore(step, write)) break;
    if (scratch.read("a.csv") != "new a" || scratch.read("b.csv") != "old b") continue;
    ++mixed;
    (void)scratch.write("a.csv", "by hand");
    runAgain(scratch, {"."});
    EXPECT_EQ(scratch.listing(), (Listing{{"a.csv", "by hand"}, {"b.csv", "old b"}}));
  }
  EXPECT_GT(mixed, 0);
}

TEST(StaleScratch, IsNotWhatIsStillInUseOrAnothers) {
  const Scratch scratch;
  const auto inUse = OutputFolder::prepare(scratch.path());
  ASSERT_TRUE(inUse);
  fs::create_directory(scratch.path() / ".dryfit-backup");
  (void)scratch.write(".dryfit-scratch.txt", "a file of the joiner's own");
  runAgain(scratch, {"."});
  EXPECT_TRUE(fs::exists(inUse->staging()));
  EXPECT_TRUE(fs::exists(scratch.path() / ".dryfit-backup"));
  EXPECT_TRUE(fs::exists(scratch.path() / ".dryfit-scratch.txt"));
}

// Links are followed and stay; the file that they lead to is replaced.

TEST(Links, StayWhereASetIsWrittenThroughThem) {
  const Scratch scratch;
  fs::create_directory(scratch.path() / "far");
  (void)scratch.write("far/real.csv", "old");
  fs::create_symlink("far/real.csv", scratch.path() / "a.csv");
  fs::create_symlink("far/none_yet.csv", scratch.path() / "b.csv");
  ASSERT_TRUE(
      writeTogether({{scratch.path() / "a.csv", "new a"}, {scratch.path() / "b.csv", "b"}}));
  EXPECT_TRUE(fs::is_symlink(scratch.path() / "a.csv"));
  EXPECT_TRUE(fs::is_symlink(scratch.path() / "b.csv"));
  EXPECT_EQ(scratch.read("far/real.csv"), "new a");
  EXPECT_EQ(scratch.read("far/none_yet.csv"), "b");
}

TEST(Links, StayInAnOutputFolderAndOnTheWayToIt) {
  const Scratch scratch;
  fs::create_directories(scratch.path() / "shelf/out");
  (void)scratch.write("real.txt", "old");
  fs::create_symlink("../../real.txt", scratch.path() / "shelf/out/a.txt");
  fs::create_symlink("shelf/out", scratch.path() / "out");
  putOutput(scratch.path() / "out", {"a.txt", "b.txt"});
  EXPECT_TRUE(fs::is_symlink(scratch.path() / "out"));
  EXPECT_TRUE(fs::is_symlink(scratch.path() / "shelf/out/a.txt"));
  EXPECT_EQ(scratch.read("real.txt"), "new a.txt");
  EXPECT_EQ(scratch.read("shelf/out/b.txt"), "new b.txt");
}

TEST(Links, MayLeadToAnotherDisk) {
  const fs::path memory = "/dev/shm";
  const Scratch scratch;
  struct stat here {};
  struct stat there {};
  if (::stat(memory.c_str(), &there) != 0 || ::stat(scratch.path().c_str(), &here) != 0 ||
      here.st_dev == there.st_dev || ::access(memory.c_str(), W_OK) != 0) {
    GTEST_SKIP() << "there is no second disk to write to";
  }
  std::string name = (memory / "dryfit-test-XXXXXX").string();
  ASSERT_NE(::mkdtemp(name.data()), nullptr);
  const fs::path real = fs::path(name) / "real.txt";
  ASSERT_TRUE(writeAtomically(real, "old"));
  fs::create_directory(scratch.path() / "out");
  fs::create_symlink(real, scratch.path() / "out/a.txt");
  putOutput(scratch.path() / "out", {"a.txt", "b.txt"});
  EXPECT_TRUE(fs::is_symlink(scratch.path() / "out/a.txt"));
  EXPECT_EQ(scratch.read("out/a.txt"), "new a.txt");
  EXPECT_EQ(std::distance(fs::directory_iterator(name), fs::directory_iterator()), 1);
  fs::remove_all(name);
}

TEST(Links, InARingAreRefused) {
  const Scratch scratch;
  fs::create_symlink("b.csv", scratch.path() / "a.csv");
  fs::create_symlink("a.csv", scratch.path() / "b.csv");
  EXPECT_FALSE(writeAtomically(scratch.path() / "a.csv", "new"));
  EXPECT_FALSE(writeTogether({{scratch.path() / "a.csv", "new"}}));
  EXPECT_TRUE(fs::is_symlink(scratch.path() / "a.csv"));
  EXPECT_EQ(std::distance(fs::directory_iterator(scratch.path()), fs::directory_iterator()), 2);
}

/// A umask as long as it lives.
class Umask {
 public:
  explicit Umask(mode_t mask) : before_(::umask(mask)) {}
  Umask(const Umask&) = delete;
  Umask& operator=(const Umask&) = delete;
  ~Umask() { ::umask(before_); }

 private:
  mode_t before_;
};

unsigned modeOf(const fs::path& path) {
  struct stat it {};
  EXPECT_EQ(::stat(path.c_str(), &it), 0) << path;
  return it.st_mode & 07777U;
}

TEST(Permissions, OfAReplacedFileStayAndNewOnesFollowTheUmask) {
  const Umask mask(027);
  const Scratch scratch;
  fs::create_directory(scratch.path() / "out");
  for (const char* name : {"a.csv", "saved.dryfit", "out/a.txt"}) {
    ASSERT_EQ(::chmod(scratch.write(name, "old").c_str(), 0604), 0);
  }
  ASSERT_TRUE(writeTogether({{scratch.path() / "a.csv", "n"}, {scratch.path() / "b.csv", "n"}}));
  ASSERT_TRUE(writeTogether({{scratch.path() / "c.csv", "n"}}));
  ASSERT_TRUE(writeAtomically(scratch.path() / "saved.dryfit", "n"));
  ASSERT_TRUE(writeAtomically(scratch.path() / "first.dryfit", "n"));
  putOutput(scratch.path() / "out", {"a.txt", "sub/b.txt"});
  putOutput(scratch.path() / "fresh", {"a.txt"});
  for (const char* kept : {"a.csv", "saved.dryfit", "out/a.txt"}) {
    EXPECT_EQ(modeOf(scratch.path() / kept), 0604U) << kept;
  }
  for (const char* made : {"b.csv", "c.csv", "first.dryfit", "out/sub/b.txt", "fresh/a.txt"}) {
    EXPECT_EQ(modeOf(scratch.path() / made), 0640U) << made;
  }
  for (const char* folder : {"out/sub", "fresh"}) {
    EXPECT_EQ(modeOf(scratch.path() / folder), 0750U) << folder;
  }
}

TEST(Permissions, OfOneFolderThatForbidItChangeNothingInTheOther) {
  const Scratch scratch;
  fs::create_directory(scratch.path() / "open");
  fs::create_directory(scratch.path() / "closed");
  (void)scratch.write("open/a.csv", "old");
  (void)scratch.write("closed/b.csv", "old");
  fs::permissions(scratch.path(), fs::perms::all);
  fs::permissions(scratch.path() / "open", fs::perms::all);
  fs::permissions(scratch.path() / "closed", fs::perms::owner_read | fs::perms::owner_exec |
                                                 fs::perms::others_read | fs::perms::others_exec);
  const Listing was = scratch.listing();
  {
    const WithoutRights user;
    const auto written = writeTogether(
        {{scratch.path() / "open/a.csv", "new"}, {scratch.path() / "closed/b.csv", "new"}});
    ASSERT_FALSE(written);
    EXPECT_EQ(written.error().code, ErrorCode::fileNotWritten);
    EXPECT_THAT(written.error().where, HasSubstr("closed"));
    EXPECT_FALSE(OutputFolder::prepare(scratch.path() / "closed"));
    EXPECT_FALSE(writeAtomically(scratch.path() / "closed/b.csv", "new"));
  }
  EXPECT_EQ(scratch.listing(), was);
  fs::permissions(scratch.path() / "closed", fs::perms::owner_all);
}

TEST(Interrupted, PacketLeavesNothingBehind) {
  const Scratch scratch;
  const std::string model = scratch.write("frame.dryfit", frameModel());
  const Listing was = scratch.listing();
  const pid_t child = ::fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    ::_exit(testing::dryfitCommand({"packet", model, "-o", scratch.file("packet")}).code);
  }
  // Interrupted as soon as it has begun to write; a fast machine may be done by then.
  int status = 0;
  bool told = false;
  while (::waitpid(child, &status, WNOHANG) == 0) {
    if (!told && scratch.listing().size() > was.size()) {
      ::kill(child, SIGINT);
      told = true;
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
  ASSERT_TRUE(told);
  ASSERT_TRUE(WIFEXITED(status)) << "ended by the signal";
  const Listing left = scratch.listing();
  EXPECT_EQ(left, shownOf(scratch)) << "scratch files are left";
  if (WEXITSTATUS(status) != 0) {
    EXPECT_EQ(left, was);
  }
}

}  // namespace
}  // namespace dryfit
