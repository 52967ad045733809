#include "export/atomic_file.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <string>

namespace dryfit::exporting {
namespace {

/// Closes the descriptor and removes the file unless it was renamed into place.
class TemporaryFile {
 public:
  explicit TemporaryFile(const std::filesystem::path& target) {
    for (int attempt = 0; attempt < 100 && descriptor_ < 0; ++attempt) {
      name_ = target.string() + "." + std::to_string(::getpid()) + "-" + std::to_string(attempt) +
              ".part";
      descriptor_ = ::open(name_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
      if (descriptor_ < 0 && errno != EEXIST) return;
    }
  }
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  ~TemporaryFile() {
    if (descriptor_ < 0) return;
    ::close(descriptor_);
    if (!renamed_) ::unlink(name_.c_str());
  }

  [[nodiscard]] bool isOpen() const { return descriptor_ >= 0; }
  [[nodiscard]] bool write(std::string_view bytes) const {
    while (!bytes.empty()) {
      const ssize_t written = ::write(descriptor_, bytes.data(), bytes.size());
      if (written < 0 && errno == EINTR) continue;
      if (written <= 0) return false;
      bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return ::fsync(descriptor_) == 0;
  }
  [[nodiscard]] bool renameTo(const std::filesystem::path& target) {
    renamed_ = std::rename(name_.c_str(), target.c_str()) == 0;
    return renamed_;
  }

 private:
  std::string name_;
  int descriptor_ = -1;
  bool renamed_ = false;
};

tl::unexpected<Error> notWritten(const std::filesystem::path& path, int reason) {
  return fail(ErrorCode::fileNotWritten,
              "the file cannot be written (" + std::string(std::strerror(reason)) + ")",
              path.string(), "name a folder that exists and may be written to");
}

}  // namespace

Result<void> writeFileAtomically(const std::filesystem::path& path, std::string_view bytes) {
  TemporaryFile file(path);
  if (!file.isOpen()) return notWritten(path, errno);
  if (!file.write(bytes)) return notWritten(path, errno);
  if (!file.renameTo(path)) return notWritten(path, errno);
  return {};
}

}  // namespace dryfit::exporting
