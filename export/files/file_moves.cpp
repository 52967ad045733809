#include "export/files/file_moves.h"

#include <sys/stat.h>

#include <algorithm>
#include <optional>
#include <set>
#include <string>
#include <system_error>

#include "export/files/move_journal.h"
#include "export/files/scratch_folder.h"
#include "joinery/base/disk_files.h"

namespace dryfit::exporting {

namespace fs = std::filesystem;

namespace {

tl::unexpected<Error> notWritten(const fs::path& path, const std::string& why) {
  return fail(ErrorCode::fileNotWritten, "not written: " + why, path.string(),
              "choose a place that you may write in");
}

/// 0 where there is no such folder.
dev_t diskOf(const fs::path& path) {
  struct stat it {};
  return ::stat(path.c_str(), &it) == 0 ? it.st_dev : 0;
}

fs::path nearestFolder(fs::path folder) {
  std::error_code ignored;
  while (!fs::exists(folder, ignored) && folder.has_relative_path()) folder = folder.parent_path();
  return folder;
}

/// Makes all ready, moves, and takes back where a move fails.
class Mover {
 public:
  explicit Mover(const std::vector<PlannedMove>& planned) : planned_(planned) {}

  Result<void> run() {
    try {
      for (const PlannedMove& plan : planned_) {
        if (auto fine = prepare(plan); !fine) return fine;
      }
      planFolders();
      if (auto written = writeJournals(); !written) return written;
      move();
    } catch (const fs::filesystem_error& e) {
      return takenBack(notWritten(e.path2().empty() ? e.path1() : e.path2(), e.code().message()));
    } catch (...) {
      (void)takenBack(fail(ErrorCode::libraryFailure, "not written"));
      throw;
    }
    for (const fs::path& place : journal_.places()) joinery::syncFolder(place);
    close();
    return {};
  }

 private:
  static void check(const std::error_code& failed, const fs::path& path) {
    if (failed) throw fs::filesystem_error("write", path, failed);
  }

  Result<void> prepare(const PlannedMove& plan) {
    const fs::path to = fs::absolute(joinery::behindLinks(plan.to));
    if (!places_.insert(fs::weakly_canonical(to)).second) {
      return fail(ErrorCode::fileNotWritten, "two files would be written here", plan.to.string(),
                  "choose another name");
    }
    if (fs::is_directory(to)) {
      return notWritten(plan.to, std::make_error_code(std::errc::is_a_directory).message());
    }
    const bool replaces = fs::exists(to);
    // A move would put a plain file in the place of a device or a pipe.
    if (replaces && !fs::is_regular_file(to)) {
      return notWritten(plan.to, "it is a device or a pipe, not a file");
    }
    auto scratch = plan.scratch;
    fs::path from = fs::absolute(plan.from);
    if (auto moved = toDiskOf(to, from, scratch); !moved) return moved;
    check(joinery::allowAs(from, to), to);
    check(joinery::syncFile(from), to);
    fs::path old;
    if (replaces && planned_.size() > 1) {
      old = fs::absolute(scratch) / ("old-" + std::to_string(journal_.moves.size()));
      secondName(to, old);
    }
    scratches_.insert(fs::absolute(scratch));
    if (journalIn_.empty()) journalIn_ = fs::absolute(scratch);
    journal_.moves.push_back({from, to, old, identityOf(from)});
    return {};
  }

  /// A name does not move from one disk to another: a link may have led there.
  Result<void> toDiskOf(const fs::path& to, fs::path& from, fs::path& scratch) {
    const fs::path folder = nearestFolder(to.parent_path());
    if (diskOf(folder) == diskOf(from)) return {};
    auto there = ScratchFolder::in(folder);
    if (!there) return tl::unexpected(there.error());
    const fs::path copy = there->path() / "new";
    fs::copy_file(from, copy);
    from = fs::absolute(copy);
    scratch = there->path();
    ownScratches_.push_back(std::move(*there));
    return {};
  }

  /// The old file stays in place until the new one takes over in one step.
  static void secondName(const fs::path& file, const fs::path& name) {
    std::error_code noLinks;
    fs::create_hard_link(file, name, noLinks);
    if (!noLinks) return;
    fs::copy_file(file, name);
    check(joinery::syncFile(name), name);
  }

  /// Which folders will have to be made, outermost first.
  void planFolders() {
    std::set<fs::path> missing;  // shorter paths sort before what they hold
    for (const MoveJournal::Move& move : journal_.moves) {
      for (fs::path folder = move.to.parent_path(); !fs::exists(folder);
           folder = folder.parent_path()) {
        missing.insert(folder);
      }
    }
    journal_.folders.assign(missing.begin(), missing.end());
  }

  [[nodiscard]] bool needsJournal() const { return journal_.moves.size() > 1; }

  Result<void> writeJournals() {
    if (!needsJournal()) return {};
    for (const fs::path& scratch : scratches_) {
      if (scratch == journalIn_) continue;
      if (auto written = pointToJournal(scratch, journalIn_); !written) return written;
    }
    return writeJournal(journalIn_, journal_);
  }

  void move() {
    for (const fs::path& folder : journal_.folders) fs::create_directory(folder);
    for (const MoveJournal::Move& one : journal_.moves) fs::rename(one.from, one.to);
  }

  void close() const {
    if (needsJournal()) closeJournal(journalIn_);
  }

  /// All as it was, and the error; where an old file could not be put back, a folder that stays
  /// holds it.
  tl::unexpected<Error> takenBack(tl::unexpected<Error> error) const {
    if (journal_.undo()) {
      close();
      return error;
    }
    for (const fs::path& scratch : scratches_) {
      std::string name = scratch.filename().string();
      name.replace(0, joinery::kScratchPrefix.size(), "dryfit-old-files-");
      const fs::path kept = scratch.parent_path() / name;
      std::error_code failed;
      fs::rename(scratch, kept, failed);
      if (!failed) error.value().mend += "; old files that are missing are in " + kept.string();
    }
    return error;
  }

  const std::vector<PlannedMove>& planned_;
  MoveJournal journal_;
  std::set<fs::path> places_, scratches_;
  std::vector<ScratchFolder> ownScratches_;
  fs::path journalIn_;
};

}  // namespace

Result<void> moveTogether(const std::vector<PlannedMove>& moves) {
  return Mover(moves).run();
}

}  // namespace dryfit::exporting
