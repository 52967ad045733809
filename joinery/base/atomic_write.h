#pragma once

#include <filesystem>
#include <string_view>

#include "kernel/result.h"

namespace dryfit::joinery {

/// Writes `text` to a hidden file beside `path`, makes sure that it is on the disk, then renames it
/// to `path`. Links are followed and stay, the permissions of an old file are kept. Folders are not
/// made, and a device or a pipe is not written to. Error: fileNotWritten; the old file is untouched
/// then and nothing is left beside it. A process that is killed leaves the old file or the new one,
/// and at most a hidden file that the next write to that folder removes.
[[nodiscard]] Result<void> writeAtomically(const std::filesystem::path& path,
                                           std::string_view text);

}  // namespace dryfit::joinery
