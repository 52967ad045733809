#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <system_error>

namespace dryfit::joinery {

/// Where a file written to `path` ends up: behind its links, also where the last one leads to
/// nothing yet. A ring of links comes back as it is.
[[nodiscard]] std::filesystem::path behindLinks(const std::filesystem::path& path);

/// Makes sure that the file is on the disk.
[[nodiscard]] std::error_code syncFile(const std::filesystem::path& file);
/// A name lasts only once its folder is on the disk. Some file systems refuse this, and the files
/// are whole either way, so a failure is none.
void syncFolder(const std::filesystem::path& folder);
/// "." where the path names no folder.
[[nodiscard]] std::filesystem::path folderOf(const std::filesystem::path& path);

/// Gives `file` the permissions of `old`, if that is there, and its owner and group as far as we
/// may.
[[nodiscard]] std::error_code allowAs(const std::filesystem::path& file,
                                      const std::filesystem::path& old);

/// What we write before it gets its own name is called so, and is nobody else's.
inline constexpr std::string_view kScratchPrefix = ".dryfit-scratch-";
[[nodiscard]] std::string newScratchName();

/// Says that a scratch file or folder is still in use. The mark goes with the process, however that
/// ends, so what bears none was left behind.
class UseMark {
 public:
  UseMark() = default;
  UseMark(UseMark&& other) noexcept;
  UseMark& operator=(UseMark&& other) noexcept;
  UseMark(const UseMark&) = delete;
  UseMark& operator=(const UseMark&) = delete;
  ~UseMark();

  /// Marks it; false where another process has, or where it is gone. Where the file system knows no
  /// such marks it is true, but `isHeld` false.
  [[nodiscard]] bool take(const std::filesystem::path& scratch);
  [[nodiscard]] bool isHeld() const { return held_; }

 private:
  int descriptor_ = -1;
  bool held_ = false;
};

/// True for a scratch file or folder of this user, by its name and owner; not for a link.
[[nodiscard]] bool isOwnScratch(const std::filesystem::path& path);
/// Removes the scratch files in a folder that processes left behind which were killed.
void removeStaleFiles(const std::filesystem::path& folder);

}  // namespace dryfit::joinery
