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
/// Files are made in a scratch folder on the same disk and put in place by `commit`: a folder that
/// was not there appears in one step; in one that was there the files are moved as `moveTogether`
/// does, and its other files stay. A program that is killed leaves at most a hidden scratch folder,
/// never a file half written; the next `prepare` for the folder removes it and puts the old set
/// back where it finds some of each.
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
  OutputFolder(std::filesystem::path target, std::filesystem::path place, ScratchFolder scratch);
  void putWhole() const;
  struct Outside {
    std::filesystem::path path;
    ScratchFolder scratch;  ///< beside it, so that the move stays on one disk
  };
  std::filesystem::path target_;  ///< as named
  std::filesystem::path place_;   ///< the same, absolute and behind links
  ScratchFolder scratch_;
  std::vector<Outside> outside_;
};

}  // namespace dryfit::exporting
