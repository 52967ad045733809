#pragma once

#include <filesystem>

#include "kernel/result.h"

namespace dryfit::exporting {

/// A new, empty folder of our own that goes away, with all in it, when this object does.
class ScratchFolder {
 public:
  /// In `parent`, under a hidden name that nobody else has. Error: fileNotWritten.
  [[nodiscard]] static Result<ScratchFolder> in(const std::filesystem::path& parent);
  ScratchFolder(ScratchFolder&& other) noexcept;
  ScratchFolder& operator=(ScratchFolder&&) = delete;
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;
  ~ScratchFolder();

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  explicit ScratchFolder(std::filesystem::path path);
  std::filesystem::path path_;
};

}  // namespace dryfit::exporting
