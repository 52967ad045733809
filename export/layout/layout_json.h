#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "export/layout/layout_job.h"

namespace dryfit::exporting {

/// The whole layout for other programs, as export/json_output.md describes it. `files`: what was
/// written, for the report on a terminal; left out where empty.
[[nodiscard]] std::string layoutJson(const LayoutJob& job,
                                     const std::vector<std::filesystem::path>& files = {});

}  // namespace dryfit::exporting
