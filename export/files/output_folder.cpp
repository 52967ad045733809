#include "export/files/output_folder.h"

#include <algorithm>
#include <fstream>
#include <system_error>
#include <utility>

#include "export/files/file_moves.h"
#include "joinery/base/disk_files.h"

namespace dryfit::exporting {

namespace fs = std::filesystem;

namespace {

tl::unexpected<Error> notWritten(const fs::path& path, const std::string& why) {
  return fail(ErrorCode::fileNotWritten, "not written: " + why, path.string(),
              "choose a folder that you may write in");
}

fs::path nearestExisting(fs::path path) {
  std::error_code ignored;
  while (!path.empty() && !fs::exists(path, ignored)) path = path.parent_path();
  return path.empty() ? fs::path(".") : path;
}

std::vector<fs::path> filesUnder(const fs::path& folder) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (!entry.is_directory()) files.push_back(fs::relative(entry.path(), folder));
  }
  std::sort(files.begin(), files.end());
  return files;
}

/// All in the folder is on the disk, and so are the folders in it.
void syncAll(const fs::path& folder) {
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.is_directory()) {
      joinery::syncFolder(entry.path());
    } else if (const auto failed = joinery::syncFile(entry.path())) {
      throw fs::filesystem_error("write", entry.path(), failed);
    }
  }
  joinery::syncFolder(folder);
}

}  // namespace

OutputFolder::OutputFolder(fs::path target, fs::path place, ScratchFolder scratch)
    : target_(std::move(target)), place_(std::move(place)), scratch_(std::move(scratch)) {}

Result<OutputFolder> OutputFolder::prepare(const fs::path& target) {
  std::error_code failed;
  // Absolute, since what is not there yet has no canonical form: "drawings" would stay as it is.
  fs::path place = fs::weakly_canonical(fs::absolute(joinery::behindLinks(target)), failed);
  if (failed) return notWritten(target, failed.message());
  if (!place.has_filename()) place = place.parent_path();  // a slash at its end
  const fs::path existing = nearestExisting(place);
  if (!fs::is_directory(existing, failed)) {
    return fail(ErrorCode::fileNotWritten, "is a file, not a folder",
                nearestExisting(target).string(), "name a folder");
  }
  // From when the folder itself, or one on the way to it, was not there yet.
  for (fs::path above = existing; above.has_relative_path();) {
    above = above.parent_path();
    clearStale(above);
  }
  auto scratch = ScratchFolder::in(existing);
  if (!scratch) return tl::unexpected(scratch.error());
  fs::create_directory(scratch->path() / "new", failed);
  if (failed) return notWritten(target, failed.message());
  return OutputFolder(target, place, std::move(*scratch));
}

Result<void> OutputFolder::write(const fs::path& name, std::string_view bytes) const {
  const fs::path path = staging() / name;
  std::error_code failed;
  fs::create_directories(path.parent_path(), failed);
  std::ofstream out(path, std::ios::binary);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  out.close();
  if (!out) return notWritten(target_ / name, "the disk may be full");
  return {};
}

Result<void> OutputFolder::writeOutside(const fs::path& path, std::string_view bytes) {
  std::error_code ignored;
  if (fs::is_directory(path, ignored)) {
    return fail(ErrorCode::fileNotWritten, "is a folder, not a file", path.string(), "name a file");
  }
  auto scratch = ScratchFolder::in(joinery::folderOf(joinery::behindLinks(path)));
  if (!scratch) return tl::unexpected(scratch.error());
  std::ofstream out(scratch->path() / "new", std::ios::binary);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  out.close();
  if (!out) return notWritten(path, "the disk may be full");
  outside_.push_back({path, std::move(*scratch)});
  return {};
}

Result<std::vector<fs::path>> OutputFolder::commit() const {
  std::vector<PlannedMove> moves;
  std::vector<fs::path> written;
  try {
    for (const fs::path& file : filesUnder(staging())) {
      moves.push_back({staging() / file, place_ / file, scratch_.path()});
      written.push_back(target_ / file);
    }
    if (outside_.empty() && !fs::exists(place_)) {
      putWhole();
      return written;
    }
  } catch (const fs::filesystem_error& e) {
    return notWritten(target_, e.code().message());
  }
  for (const Outside& one : outside_) {
    moves.push_back({one.scratch.path() / "new", one.path, one.scratch.path()});
    written.push_back(one.path);
  }
  if (auto moved = moveTogether(moves); !moved) return tl::unexpected(moved.error());
  return written;
}

/// One move makes a folder that was not there, and those on the way to it.
void OutputFolder::putWhole() const {
  syncAll(staging());
  fs::path top = place_;
  while (!fs::exists(top.parent_path())) top = top.parent_path();
  fs::path made = staging();
  if (top != place_) {
    made = scratch_.path() / "way";
    const fs::path inner = made / place_.lexically_relative(top);
    fs::create_directories(inner.parent_path());
    fs::rename(staging(), inner);
    syncAll(made);
  }
  fs::rename(made, top);
  joinery::syncFolder(top.parent_path());
}

}  // namespace dryfit::exporting
