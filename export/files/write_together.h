#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "kernel/result.h"

namespace dryfit::exporting {

/// A file to be written.
struct FileContent {
  std::filesystem::path path;
  std::string bytes;
};

/// Writes all of the files or none, as `moveTogether`: readers see old files or new ones, never a
/// half. The folders must be there. Gives the paths. Error: fileNotWritten; nothing has changed
/// then.
[[nodiscard]] Result<std::vector<std::filesystem::path>> writeTogether(
    const std::vector<FileContent>& files);

}  // namespace dryfit::exporting
