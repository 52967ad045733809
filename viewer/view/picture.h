#pragma once

#include <filesystem>
#include <memory>

#include "kernel/result.h"
#include "viewer/view/assembled.h"

namespace dryfit::viewer {

/// Writes a picture of the piece from its front corner, as PNG, without showing a window. Needs an
/// X display. Errors: fileNotWritten, libraryFailure.
[[nodiscard]] Result<void> writePicture(std::shared_ptr<const Assembled> assembled,
                                        const std::filesystem::path& file, int width = 1200,
                                        int height = 900);

}  // namespace dryfit::viewer
