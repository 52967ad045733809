#pragma once

#include <cstdint>
#include <filesystem>
#include <vector>

#include "kernel/result.h"

namespace dryfit::exporting {

/// What tells a file from every other, also from itself once it has been written to.
struct FileIdentity {
  std::uint64_t device = 0, number = 0, size = 0;
  std::int64_t seconds = 0, nanoseconds = 0;  ///< when it was last written to
  friend bool operator==(const FileIdentity&, const FileIdentity&) = default;
};
/// All zero where there is no such file. Links are not followed.
[[nodiscard]] FileIdentity identityOf(const std::filesystem::path& file);

/// A set of files that change together, and how to take the change back.
struct MoveJournal {
  struct Move {
    std::filesystem::path from, to;
    std::filesystem::path old;  ///< second name of what was there; empty where nothing was
    FileIdentity moved;         ///< of the new file
  };
  std::vector<std::filesystem::path> folders;  ///< that were made for it, outermost first
  std::vector<Move> moves;

  /// Puts back what was there, the newest move first. What is not there any more as it was put
  /// there has been changed since, and stays. May be done again where it was cut short. False where
  /// something could not be put back: the old file is then still under its second name.
  [[nodiscard]] bool undo() const;
  /// All folders in which names change, each once.
  [[nodiscard]] std::vector<std::filesystem::path> places() const;
};

/// Writes the journal into a scratch folder: from now on, whoever finds the folder left behind
/// undoes the moves. Error: fileNotWritten.
[[nodiscard]] Result<void> writeJournal(const std::filesystem::path& scratch,
                                        const MoveJournal& journal);
/// Says in a scratch folder that holds some of the files where their journal is. Error:
/// fileNotWritten.
[[nodiscard]] Result<void> pointToJournal(const std::filesystem::path& scratch,
                                          const std::filesystem::path& journalScratch);
/// Removes the journal: the moves are final.
void closeJournal(const std::filesystem::path& scratch);
/// Undoes the moves of a scratch folder that was left behind, or does nothing where it holds no
/// journal and points to none. False where the folder must stay: the process whose journal it is
/// still works, the journal cannot be reached or read, or an old file could not be put back.
[[nodiscard]] bool settle(const std::filesystem::path& scratch);

}  // namespace dryfit::exporting
