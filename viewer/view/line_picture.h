#pragma once

#include <QSize>
#include <span>
#include <string>

#include "kernel/hidden_lines.h"

namespace dryfit::viewer {

/// Solids as lines on white, what is hidden left out: an SVG 1.1 of that many pixels, in parallel
/// projection. Errors: as hiddenLines; badDimension for a size without room.
[[nodiscard]] Result<std::string> linePicture(std::span<const kernel::Solid> solids,
                                              const kernel::Viewpoint& from, QSize size);

}  // namespace dryfit::viewer
