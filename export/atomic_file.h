#pragma once

#include <filesystem>
#include <string_view>

#include "kernel/result.h"

namespace dryfit::exporting {

/// Writes `bytes` to a new file beside `path`, then renames it over `path`: a reader sees the old
/// file or the new one, never a half. Folders are not made.
/// Error: fileNotWritten; an old file is untouched then and nothing is left beside it.
[[nodiscard]] Result<void> writeFileAtomically(const std::filesystem::path& path,
                                               std::string_view bytes);

}  // namespace dryfit::exporting
