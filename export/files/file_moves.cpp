#include "export/files/file_moves.h"

#include <set>
#include <system_error>

namespace dryfit::exporting {

namespace fs = std::filesystem;

Result<void> checkPlaces(const std::vector<fs::path>& files) {
  std::set<fs::path> places;
  for (const fs::path& file : files) {
    if (places.insert(fs::weakly_canonical(file)).second) continue;
    return fail(ErrorCode::fileNotWritten, "two files would be written here", file.string(),
                "choose another name");
  }
  return {};
}

FileMoves::~FileMoves() {
  std::error_code ignored;  // putting back is all that can still be done
  for (auto it = done_.rbegin(); it != done_.rend(); ++it) {
    if (it->old) {
      fs::rename(*it->old, it->file, ignored);
    } else {
      fs::remove(it->file, ignored);
    }
  }
  for (auto it = folders_.rbegin(); it != folders_.rend(); ++it) fs::remove(*it, ignored);
}

void FileMoves::move(const fs::path& from, const fs::path& to, const fs::path& backup) {
  if (fs::is_directory(to)) {
    throw fs::filesystem_error("move", from, to, std::make_error_code(std::errc::is_a_directory));
  }
  // A move would put a plain file in the place of a device or a pipe.
  if (fs::exists(to) && !fs::is_regular_file(to)) {
    throw fs::filesystem_error("move", from, to,
                               std::make_error_code(std::errc::operation_not_permitted));
  }
  makeFolder(to.parent_path());
  std::optional<fs::path> old;
  if (fs::exists(to)) {
    old = backup;
    std::error_code noLinks;
    // A second name leaves the old file in place until the new one takes over in one step.
    fs::create_hard_link(to, backup, noLinks);
    if (noLinks) fs::copy_file(to, backup);
  }
  fs::rename(from, to);
  done_.push_back({to, old});
}

void FileMoves::keep() {
  done_.clear();
  folders_.clear();
}

void FileMoves::makeFolder(const fs::path& folder) {
  if (folder.empty() || fs::is_directory(folder)) return;
  makeFolder(folder.parent_path());
  fs::create_directory(folder);
  folders_.push_back(folder);
}

}  // namespace dryfit::exporting
