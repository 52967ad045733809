#include "export/files/write_together.h"

#include "export/files/file_moves.h"
#include "export/files/scratch_folder.h"
#include "joinery/base/atomic_write.h"
#include "joinery/base/disk_files.h"

namespace dryfit::exporting {

namespace fs = std::filesystem;

Result<std::vector<fs::path>> writeTogether(const std::vector<FileContent>& files) {
  std::vector<ScratchFolder> scratch;  // beside each file, so that a move stays on one disk
  std::vector<PlannedMove> moves;
  std::vector<fs::path> written;
  for (const FileContent& file : files) {
    std::error_code ignored;
    if (fs::is_directory(file.path, ignored)) {
      return fail(ErrorCode::fileNotWritten, "is a folder, not a file", file.path.string(),
                  "name a file");
    }
    auto folder = ScratchFolder::in(joinery::folderOf(joinery::behindLinks(file.path)));
    if (!folder) return tl::unexpected(folder.error());
    const fs::path made = folder->path() / "new";
    if (auto done = joinery::writeAtomically(made, file.bytes); !done) {
      return tl::unexpected(done.error());
    }
    moves.push_back({made, file.path, folder->path()});
    written.push_back(file.path);
    scratch.push_back(std::move(*folder));
  }
  if (auto moved = moveTogether(moves); !moved) return tl::unexpected(moved.error());
  return written;
}

}  // namespace dryfit::exporting
