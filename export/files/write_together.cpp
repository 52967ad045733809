#include "export/files/write_together.h"

#include "export/files/file_moves.h"
#include "export/files/scratch_folder.h"
#include "joinery/base/atomic_write.h"

namespace dryfit::exporting {

namespace fs = std::filesystem;

Result<std::vector<fs::path>> writeTogether(const std::vector<FileContent>& files) {
  std::vector<ScratchFolder> scratch;  // beside each file, so that a move stays on one disk
  for (const FileContent& file : files) {
    std::error_code ignored;
    if (fs::is_directory(file.path, ignored)) {
      return fail(ErrorCode::fileNotWritten, "is a folder, not a file", file.path.string(),
                  "name a file");
    }
    const fs::path parent = file.path.parent_path();
    auto folder = ScratchFolder::in(parent.empty() ? fs::path(".") : parent);
    if (!folder) return tl::unexpected(folder.error());
    if (auto written = joinery::writeAtomically(folder->path() / "new", file.bytes); !written) {
      return tl::unexpected(written.error());
    }
    scratch.push_back(std::move(*folder));
  }
  try {
    std::vector<fs::path> places;
    places.reserve(files.size());
    for (const FileContent& file : files) places.push_back(file.path);
    if (auto fine = checkPlaces(places); !fine) return tl::unexpected(fine.error());
    FileMoves moves;
    std::vector<fs::path> written;
    for (std::size_t i = 0; i < files.size(); ++i) {
      moves.move(scratch[i].path() / "new", files[i].path, scratch[i].path() / "old");
      written.push_back(files[i].path);
    }
    moves.keep();
    return written;
  } catch (const fs::filesystem_error& e) {
    return fail(ErrorCode::fileNotWritten, "not written: " + e.code().message(), e.path2().string(),
                "choose a place that you may write in");
  }
}

}  // namespace dryfit::exporting
