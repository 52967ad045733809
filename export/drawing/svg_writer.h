#pragma once

#include <filesystem>
#include <string>

#include "export/drawing/sheet.h"
#include "kernel/result.h"

namespace dryfit::exporting {

/// One sheet as SVG 1.1: sizes in mm, one group a layer (its id is the layer's name), text as text.
[[nodiscard]] std::string svgText(const Sheet& sheet);

/// The same, written to a file. Error: fileNotWritten.
[[nodiscard]] Result<void> writeSvg(const std::filesystem::path& path, const Sheet& sheet);

}  // namespace dryfit::exporting
