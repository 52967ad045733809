#pragma once

#include <filesystem>

#include "joinery/base/disk_files.h"
#include "kernel/result.h"

namespace dryfit::exporting {

/// A new, empty folder of our own that goes away, with all in it, when this object does. One that a
/// killed process left behind goes when the next is made beside it.
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
  ScratchFolder(std::filesystem::path path, joinery::UseMark mark);
  std::filesystem::path path_;
  joinery::UseMark mark_;
};

/// Tidies up after processes that were killed while they wrote to the folder: a set of files half
/// put in place is taken back, hidden files and folders of theirs go. What is still in use, or
/// another user's, stays.
void clearStale(const std::filesystem::path& folder);

}  // namespace dryfit::exporting
