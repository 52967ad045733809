#include "joinery/base/atomic_write.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <string>
#include <utility>

#include "joinery/base/disk_files.h"

namespace dryfit::joinery {
namespace {

namespace fs = std::filesystem;

/// A file that is there only until it is renamed: closed and removed unless it was.
class TemporaryFile {
 public:
  explicit TemporaryFile(const fs::path& folder) {
    constexpr int kTries = 10;  // a name may be taken, or tidied away before it is marked
    for (int i = 0; i < kTries && descriptor_ < 0; ++i) {
      path_ = folder / newScratchName();
      descriptor_ = ::open(path_.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, 0666);
      if (descriptor_ < 0 && errno != EEXIST) return;
      if (descriptor_ >= 0 && !mark_.take(path_)) {
        // A umask that takes the owner's right to read leaves a file that cannot be marked.
        if (errno == EACCES) return;
        ::close(std::exchange(descriptor_, -1));
        ::unlink(path_.c_str());  // nobody else has it: one that tidied up has removed it
      }
    }
  }
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  ~TemporaryFile() {
    if (descriptor_ < 0) return;
    ::close(descriptor_);
    if (!kept_) ::unlink(path_.c_str());
  }

  [[nodiscard]] bool isOpen() const { return descriptor_ >= 0; }

  bool write(std::string_view text) const {
    while (!text.empty()) {
      const ssize_t count = ::write(descriptor_, text.data(), text.size());
      if (count < 0 && errno == EINTR) continue;
      if (count <= 0) return false;
      text.remove_prefix(static_cast<std::size_t>(count));
    }
    return true;
  }

  /// Takes over the permissions of the file that will be replaced, if there is one.
  [[nodiscard]] bool allowAs(const fs::path& path) const {
    const std::error_code failed = joinery::allowAs(path_, path);
    errno = failed ? failed.value() : errno;
    return !failed;
  }

  bool renameTo(const fs::path& path) {
    kept_ = ::fsync(descriptor_) == 0 && ::rename(path_.c_str(), path.c_str()) == 0;
    return kept_;
  }

 private:
  fs::path path_;
  UseMark mark_;
  int descriptor_ = -1;
  bool kept_ = false;
};

tl::unexpected<Error> notWritten(const fs::path& path) {
  return fail(ErrorCode::fileNotWritten, std::string("cannot be written: ") + std::strerror(errno),
              path.string(),
              "check that the folder exists, its permissions and the space left on the disk");
}

}  // namespace

Result<void> writeAtomically(const fs::path& path, std::string_view text) {
  std::error_code ignored;
  const fs::path target = behindLinks(path);
  if (fs::is_directory(target, ignored)) {
    errno = EISDIR;
    return notWritten(path);
  }
  // A rename would put a plain file in the place of a device or a pipe.
  if (fs::exists(target, ignored) && !fs::is_regular_file(target, ignored)) {
    return fail(ErrorCode::fileNotWritten, "is a device or a pipe, not a file", path.string(),
                "name a plain file");
  }
  if (fs::is_symlink(target, ignored)) {
    errno = ELOOP;
    return notWritten(path);
  }
  removeStaleFiles(folderOf(target));
  TemporaryFile file(folderOf(target));
  if (!file.isOpen() || !file.write(text) || !file.allowAs(target) || !file.renameTo(target)) {
    return notWritten(path);
  }
  syncFolder(folderOf(target));
  return {};
}

}  // namespace dryfit::joinery
