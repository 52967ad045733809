#include "joinery/base/disk_files.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <random>
#include <utility>
#include <vector>

namespace dryfit::joinery {

namespace fs = std::filesystem;

namespace {

std::error_code lastError() {
  return {errno, std::generic_category()};
}

}  // namespace

fs::path behindLinks(const fs::path& path) {
  constexpr int kMostLinks = 40;  // as many as the system itself follows
  std::error_code failed;
  fs::path at = path;
  for (int i = 0; i < kMostLinks && fs::is_symlink(at, failed); ++i) {
    const fs::path to = fs::read_symlink(at, failed);
    if (failed) return path;
    at = folderOf(at) / to;  // an absolute path takes the place of the whole
  }
  return fs::is_symlink(at, failed) ? path : at;
}

fs::path folderOf(const fs::path& path) {
  return path.has_parent_path() ? path.parent_path() : fs::path(".");
}

std::error_code syncFile(const fs::path& file) {
  const int descriptor = ::open(file.c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor < 0) return lastError();
  const std::error_code failed = ::fsync(descriptor) == 0 ? std::error_code() : lastError();
  ::close(descriptor);
  return failed;
}

void syncFolder(const fs::path& folder) {
  const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return;
  (void)::fsync(descriptor);
  ::close(descriptor);
}

std::error_code allowAs(const fs::path& file, const fs::path& old) {
  struct stat was {};
  struct stat is {};
  if (::stat(old.c_str(), &was) != 0) return {};
  if (::stat(file.c_str(), &is) != 0) return lastError();
  const bool others = was.st_uid != is.st_uid || was.st_gid != is.st_gid;
  // Only the system's keeper may give files away; whoever may not keeps them.
  mode_t allowed = was.st_mode & 0777;
  if (others && ::chown(file.c_str(), was.st_uid, was.st_gid) != 0 &&
      ::chown(file.c_str(), static_cast<uid_t>(-1), was.st_gid) != 0) {
    errno = 0;
    allowed &= 0707;  // what the old group might do, ours may not have been meant to
  }
  return ::chmod(file.c_str(), allowed) == 0 ? std::error_code() : lastError();
}

std::string newScratchName() {
  static constexpr std::string_view kLetters = "abcdefghijklmnopqrstuvwxyz0123456789";
  constexpr int kCount = 12;
  std::random_device random;
  std::uniform_int_distribution<std::size_t> pick(0, kLetters.size() - 1);
  std::string name(kScratchPrefix);
  for (int i = 0; i < kCount; ++i) name += kLetters[pick(random)];
  return name;
}

UseMark::UseMark(UseMark&& other) noexcept
    : descriptor_(std::exchange(other.descriptor_, -1)), held_(std::exchange(other.held_, false)) {}

UseMark& UseMark::operator=(UseMark&& other) noexcept {
  std::swap(descriptor_, other.descriptor_);
  std::swap(held_, other.held_);
  return *this;
}

UseMark::~UseMark() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

bool UseMark::take(const fs::path& scratch) {
  if (descriptor_ >= 0) ::close(descriptor_);
  held_ = false;
  descriptor_ = ::open(scratch.c_str(), O_RDONLY | O_NOFOLLOW | O_CLOEXEC | O_NONBLOCK);
  if (descriptor_ < 0) return false;
  held_ = ::flock(descriptor_, LOCK_EX | LOCK_NB) == 0;
  if (!held_) return errno != EWOULDBLOCK;
  // Whoever tidies up may have had it a moment ago, and removed it.
  struct stat here {};
  struct stat named {};
  return ::fstat(descriptor_, &here) == 0 && ::lstat(scratch.c_str(), &named) == 0 &&
         here.st_ino == named.st_ino && here.st_dev == named.st_dev;
}

bool isOwnScratch(const fs::path& path) {
  if (!path.filename().string().starts_with(kScratchPrefix)) return false;
  struct stat it {};
  return ::lstat(path.c_str(), &it) == 0 && it.st_uid == ::geteuid() &&
         (S_ISREG(it.st_mode) || S_ISDIR(it.st_mode));
}

void removeStaleFiles(const fs::path& folder) {
  std::error_code failed;
  std::vector<fs::path> stale;
  for (fs::directory_iterator at(folder, failed), end; !failed && at != end; at.increment(failed)) {
    if (isOwnScratch(at->path()) && !fs::is_directory(at->path(), failed)) {
      stale.push_back(at->path());
    }
  }
  for (const fs::path& file : stale) {
    UseMark mark;
    if (mark.take(file) && mark.isHeld()) ::unlink(file.c_str());
  }
}

}  // namespace dryfit::joinery
