#pragma once

#include <filesystem>
#include <vector>

#include "kernel/result.h"

namespace dryfit::exporting {

/// A file that is to take its place.
struct PlannedMove {
  std::filesystem::path from;     ///< the new file, made already
  std::filesystem::path to;       ///< links are followed and stay
  std::filesystem::path scratch;  ///< a scratch folder of ours on the disk of `from`
};

/// Moves all of the files into place, making the folders that they need, or none. New files take
/// over the permissions of those that they replace. The one place where a set of files changes
/// together.
///
/// Every file is whole at any time, the old one or the new one, and everything is on the disk when
/// this returns. A process that is killed between the first move and the last leaves some of the
/// files old and some new: the next time that a scratch folder is made in one of the folders, the
/// old ones are put back (but for those that somebody has changed since).
///
/// Error: fileNotWritten (two files for one place, too); everything is then as it was.
[[nodiscard]] Result<void> moveTogether(const std::vector<PlannedMove>& moves);

}  // namespace dryfit::exporting
