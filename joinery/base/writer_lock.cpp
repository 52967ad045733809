#include "joinery/base/writer_lock.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <string>
#include <thread>
#include <utility>

#include "joinery/base/disk_files.h"

namespace dryfit::joinery {
namespace {

constexpr std::chrono::milliseconds kBetweenTries{20};

/// True where the lock is ours, or the file system knows no locks.
bool tryLock(int descriptor) {
  while (::flock(descriptor, LOCK_EX | LOCK_NB) != 0) {
    if (errno == EINTR) continue;
    return errno != EWOULDBLOCK;
  }
  return true;
}

}  // namespace

Result<WriterLock> WriterLock::take(const std::filesystem::path& path,
                                    std::chrono::milliseconds most) {
  const std::filesystem::path folder = folderOf(behindLinks(path));
  const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) {
    return fail(ErrorCode::fileNotWritten,
                std::string("its folder cannot be opened: ") + std::strerror(errno), path.string(),
                "check that the folder exists and its permissions");
  }
  WriterLock lock(descriptor);
  const auto end = std::chrono::steady_clock::now() + most;
  while (!tryLock(descriptor)) {
    if (std::chrono::steady_clock::now() >= end) {
      return fail(ErrorCode::fileNotWritten, "another program is still writing to its folder",
                  path.string(), "nothing was changed: try again when that has ended");
    }
    std::this_thread::sleep_for(kBetweenTries);
  }
  return lock;
}

WriterLock::WriterLock(WriterLock&& other) noexcept
    : descriptor_(std::exchange(other.descriptor_, -1)) {}

WriterLock& WriterLock::operator=(WriterLock&& other) noexcept {
  std::swap(descriptor_, other.descriptor_);
  return *this;
}

WriterLock::~WriterLock() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

}  // namespace dryfit::joinery
