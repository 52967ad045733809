#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "export/files/scratch_folder.h"
#include "kernel/result.h"

namespace dryfit::exporting {

/// A set of files that appears in a folder all together or not at all.
///
/// Files are made in a scratch folder on the same disk and moved into place by `commit`. A folder
/// that was there keeps its other files. When a move fails, what was there before is put back. A
/// program that is killed leaves at most a hidden scratch folder, never a file half written.
class OutputFolder {
 public:
  /// Touches nothing but a hidden scratch folder. Error: fileNotWritten (the target is a file, or
  /// may not be written in).
  [[nodiscard]] static Result<OutputFolder> prepare(const std::filesystem::path& target);

  /// Where to make files before `commit`; folders inside it are allowed.
  [[nodiscard]] std::filesystem::path staging() const { return scratch_.path() / "new"; }
  /// Writes a file into the staging folder. `name` is relative. Error: fileNotWritten.
  [[nodiscard]] Result<void> write(const std::filesystem::path& name, std::string_view bytes) const;
  /// Stages a file that goes to `path` in another folder, which must be there, together with the
  /// rest. Error: fileNotWritten.
  [[nodiscard]] Result<void> writeOutside(const std::filesystem::path& path,
                                          std::string_view bytes);
  /// Moves all files into place; gives their paths, sorted. Error: fileNotWritten (two
  /// files for one place, too).
  [[nodiscard]] Result<std::vector<std::filesystem::path>> commit() const;

 private:
  OutputFolder(std::filesystem::path target, ScratchFolder scratch);
  struct Outside {
    std::filesystem::path path;
    ScratchFolder scratch;  ///< beside it, so that the move stays on one disk
  };
  std::filesystem::path target_;
  ScratchFolder scratch_;
  std::vector<Outside> outside_;
};

}  // namespace dryfit::exporting
