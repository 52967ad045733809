#pragma once

#include <filesystem>
#include <optional>
#include <vector>

#include "kernel/result.h"

namespace dryfit::exporting {

/// Error where two of the files are to go to one place: fileNotWritten.
/// Throws std::filesystem::filesystem_error.
[[nodiscard]] Result<void> checkPlaces(const std::vector<std::filesystem::path>& files);

/// Moves files into place one by one, and puts everything back as it was unless told to keep it.
/// The one place where a set of files changes together.
class FileMoves {
 public:
  FileMoves() = default;
  FileMoves(const FileMoves&) = delete;
  FileMoves& operator=(const FileMoves&) = delete;
  /// Undoes the moves, newest first, unless `keep` was called.
  ~FileMoves();

  /// Moves `from` over `to` in one step, making the folders that `to` needs. What was there keeps
  /// a second name `backup` until this object goes; all three lie on one disk.
  /// Throws std::filesystem::filesystem_error.
  void move(const std::filesystem::path& from, const std::filesystem::path& to,
            const std::filesystem::path& backup);
  void keep();

 private:
  struct Move {
    std::filesystem::path file;
    std::optional<std::filesystem::path> old;
  };
  void makeFolder(const std::filesystem::path& folder);

  std::vector<Move> done_;
  std::vector<std::filesystem::path> folders_;
};

}  // namespace dryfit::exporting
