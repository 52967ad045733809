#include "export/files/scratch_folder.h"

#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>
#include <utility>
#include <vector>

#include "export/files/move_journal.h"

namespace dryfit::exporting {

namespace fs = std::filesystem;

Result<ScratchFolder> ScratchFolder::in(const fs::path& parent) {
  clearStale(parent);
  constexpr int kTries = 10;  // a name may be taken, or tidied away before it is marked
  for (int i = 0; i < kTries; ++i) {
    const fs::path path = parent / joinery::newScratchName();
    constexpr mode_t kOwnersOnly = 0700;
    if (::mkdir(path.c_str(), kOwnersOnly) != 0) {
      if (errno == EEXIST) continue;
      break;
    }
    joinery::UseMark mark;
    if (mark.take(path)) return ScratchFolder(path, std::move(mark));
    ::rmdir(path.c_str());  // whoever tidied it away took it; else it would stay
  }
  return fail(ErrorCode::fileNotWritten,
              "cannot write in this folder: " + std::generic_category().message(errno),
              parent.string(), "choose a folder that you may write in");
}

ScratchFolder::ScratchFolder(fs::path path, joinery::UseMark mark)
    : path_(std::move(path)), mark_(std::move(mark)) {}

ScratchFolder::ScratchFolder(ScratchFolder&& other) noexcept
    : path_(std::exchange(other.path_, {})), mark_(std::move(other.mark_)) {}

ScratchFolder::~ScratchFolder() {
  std::error_code ignored;  // nothing can be done about it here, and no result depends on it
  if (!path_.empty()) fs::remove_all(path_, ignored);
}

void clearStale(const fs::path& folder) {
  joinery::removeStaleFiles(folder);
  std::error_code failed;
  std::vector<fs::path> found;
  for (fs::directory_iterator at(folder, failed), end; !failed && at != end; at.increment(failed)) {
    if (joinery::isOwnScratch(at->path())) found.push_back(at->path());
  }
  for (const fs::path& scratch : found) {
    joinery::UseMark mark;
    if (mark.take(scratch) && mark.isHeld() && settle(scratch)) fs::remove_all(scratch, failed);
  }
}

}  // namespace dryfit::exporting
