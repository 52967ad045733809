#include "export/files/output_folder.h"

#include <algorithm>
#include <fstream>
#include <system_error>
#include <utility>

#include "export/files/file_moves.h"

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

}  // namespace

OutputFolder::OutputFolder(fs::path target, ScratchFolder scratch)
    : target_(std::move(target)), scratch_(std::move(scratch)) {}

Result<OutputFolder> OutputFolder::prepare(const fs::path& target) {
  std::error_code failed;
  const fs::path existing = nearestExisting(target);
  if (!fs::is_directory(existing, failed)) {
    return fail(ErrorCode::fileNotWritten, "is a file, not a folder", existing.string(),
                "name a folder");
  }
  auto scratch = ScratchFolder::in(existing);
  if (!scratch) return tl::unexpected(scratch.error());
  fs::create_directory(scratch->path() / "new", failed);
  if (failed) return notWritten(target, failed.message());
  return OutputFolder(target, std::move(*scratch));
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
  auto scratch = ScratchFolder::in(path.has_parent_path() ? path.parent_path() : fs::path("."));
  if (!scratch) return tl::unexpected(scratch.error());
  std::ofstream out(scratch->path() / "new", std::ios::binary);
  out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  out.close();
  if (!out) return notWritten(path, "the disk may be full");
  outside_.push_back({path, std::move(*scratch)});
  return {};
}

Result<std::vector<fs::path>> OutputFolder::commit() const {
  try {
    std::vector<fs::path> places;
    for (const fs::path& file : filesUnder(staging())) places.push_back(target_ / file);
    for (const Outside& one : outside_) places.push_back(one.path);
    if (auto fine = checkPlaces(places); !fine) return tl::unexpected(fine.error());
    const fs::path backups = scratch_.path() / "old";
    fs::create_directory(backups);
    FileMoves moves;
    std::vector<fs::path> written;
    for (const fs::path& file : filesUnder(staging())) {
      moves.move(staging() / file, target_ / file, backups / std::to_string(written.size()));
      written.push_back(target_ / file);
    }
    for (const Outside& one : outside_) {
      moves.move(one.scratch.path() / "new", one.path, one.scratch.path() / "old");
      written.push_back(one.path);
    }
    moves.keep();
    return written;
  } catch (const fs::filesystem_error& e) {
    return notWritten(e.path2().empty() ? e.path1() : e.path2(), e.code().message());
  }
}

}  // namespace dryfit::exporting
