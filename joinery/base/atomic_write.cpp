#include "joinery/base/atomic_write.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <string>

#include "joinery/base/plain_text.h"

namespace dryfit::joinery {
namespace {

/// A file that is there only until it is renamed: closed and removed unless it was.
class TemporaryFile {
 public:
  explicit TemporaryFile(const std::string& besidePath) {
    constexpr int kTries = 100;  // names left behind by programs that were killed
    for (int i = 0; i < kTries && descriptor_ < 0; ++i) {
      name_ = besidePath + "." + std::to_string(::getpid()) + "-" + std::to_string(i);
      descriptor_ = ::open(name_.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, 0666);
      if (descriptor_ < 0 && errno != EEXIST) return;
    }
  }
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  ~TemporaryFile() {
    if (descriptor_ < 0) return;
    ::close(descriptor_);
    if (!kept_) ::unlink(name_.c_str());
  }

  [[nodiscard]] bool isOpen() const { return descriptor_ >= 0; }

  bool write(std::string_view text) {
    while (!text.empty()) {
      const ssize_t count = ::write(descriptor_, text.data(), text.size());
      if (count < 0 && errno == EINTR) continue;
      if (count <= 0) return false;
      text.remove_prefix(static_cast<std::size_t>(count));
    }
    return ::fsync(descriptor_) == 0;
  }

  /// Takes over the permissions of the file that will be replaced, if there is one.
  bool allowAs(const std::string& path) {
    struct stat old {};
    return ::stat(path.c_str(), &old) != 0 || ::fchmod(descriptor_, old.st_mode & 0777) == 0;
  }

  bool renameTo(const std::string& path) {
    kept_ = ::rename(name_.c_str(), path.c_str()) == 0;
    return kept_;
  }

 private:
  std::string name_;
  int descriptor_ = -1;
  bool kept_ = false;
};

/// A rename lasts only once the folder itself is on the disk. Some file systems refuse this, and
/// the file is whole either way, so a failure here is none.
void syncFolder(const std::filesystem::path& folder) {
  const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return;
  (void)::fsync(descriptor);
  ::close(descriptor);
}

tl::unexpected<Error> notWritten(const std::filesystem::path& path) {
  return fail(ErrorCode::fileNotWritten, std::string("cannot be written: ") + std::strerror(errno),
              path.string(),
              "check that the folder exists, its permissions and the space left on the disk");
}

}  // namespace

Result<void> writeAtomically(const std::filesystem::path& path, std::string_view text) {
  std::error_code ignored;
  const bool link = std::filesystem::is_symlink(path, ignored);
  std::filesystem::path target = link ? std::filesystem::canonical(path, ignored) : path;
  if (target.empty()) target = path;
  if (std::filesystem::is_directory(target, ignored)) {
    errno = EISDIR;
    return notWritten(path);
  }
  // A rename would put a plain file in the place of a device or a pipe.
  if (std::filesystem::exists(target, ignored) &&
      !std::filesystem::is_regular_file(target, ignored)) {
    return fail(ErrorCode::fileNotWritten, "is a device or a pipe, not a file", path.string(),
                "name a plain file");
  }
  TemporaryFile file(target.string());
  if (!file.isOpen() || !file.write(text) || !file.allowAs(target.string()) ||
      !file.renameTo(target.string())) {
    return notWritten(path);
  }
  syncFolder(target.has_parent_path() ? target.parent_path() : ".");
  return {};
}

}  // namespace dryfit::joinery
