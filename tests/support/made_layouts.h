#pragma once

#include <cstdint>

#include "export/layout/layout_job.h"

namespace dryfit::testing {

/// Layouts put together by hand or at random, whatever an optimiser would do.

/// Three equal sheets of plywood cut alike, a fourth cut otherwise, with an offcut and one blank
/// that did not fit.
[[nodiscard]] exporting::LayoutJob sheetJob();
/// The same parts nested freely: no cuts.
[[nodiscard]] exporting::LayoutJob freeJob();
/// A long tapered board with a knot and a split, and a short one with narrow parts.
[[nodiscard]] exporting::LayoutJob boardJob();
/// Boards and sheets of random sizes full of random parts, some of them tiny. Same seed, same job.
[[nodiscard]] exporting::LayoutJob randomJob(std::uint32_t seed);

}  // namespace dryfit::testing
