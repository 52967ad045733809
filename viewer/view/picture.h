#pragma once

#include <QImage>
#include <QSize>
#include <V3d_View.hxx>
#include <filesystem>
#include <memory>

#include "kernel/result.h"
#include "viewer/view/assembled.h"

namespace dryfit::viewer {

/// What a view shows, in a size of its own; null where it cannot be drawn.
[[nodiscard]] QImage imageOf(const Handle(V3d_View) & view, QSize size);

/// Writes a picture of the piece from its front corner, as PNG, without showing a window. Needs an
/// X display. Errors: fileNotWritten, libraryFailure.
[[nodiscard]] Result<void> writePicture(std::shared_ptr<const Assembled> assembled,
                                        const std::filesystem::path& file, int width = 1200,
                                        int height = 900);

}  // namespace dryfit::viewer
