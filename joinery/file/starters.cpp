#include "joinery/file/starters.h"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <system_error>

namespace dryfit::joinery {
namespace {

namespace fs = std::filesystem;

/// The maker's own, where the desktop keeps the data of programs (XDG Base Directory
/// Specification).
fs::path ownFolder() {
  const char* data = std::getenv("XDG_DATA_HOME");
  if (data != nullptr && *data == '/') return fs::path(data) / "dryfit" / "starters";
  const char* home = std::getenv("HOME");
  if (home == nullptr || *home == '\0') return {};
  return fs::path(home) / ".local" / "share" / "dryfit" / "starters";
}

/// Beside the installed program, or in the source from which it was built.
fs::path builtInFolder() {
  std::error_code none;
  const fs::path program = fs::read_symlink("/proc/self/exe", none);
  fs::path installed =
      program.parent_path().parent_path() / "share" / "dryfit" / "models" / "starters";
  if (fs::is_directory(installed, none)) return installed;
  return fs::path(DRYFIT_SOURCE_STARTERS);
}

}  // namespace

std::vector<fs::path> starterFolders() {
  std::vector<fs::path> folders;
  if (const fs::path own = ownFolder(); !own.empty()) folders.push_back(own);
  folders.push_back(builtInFolder());
  return folders;
}

std::vector<Starter> startersIn(const std::vector<fs::path>& folders) {
  std::map<std::string, Starter> all;
  bool own = folders.size() > 1;
  for (const fs::path& folder : folders) {
    std::error_code error;
    for (fs::directory_iterator entry(folder, error), end; !error && entry != end;
         entry.increment(error)) {
      if (entry->path().extension() != ".dryfit") continue;
      const std::string name = entry->path().stem().string();
      all.try_emplace(name, Starter{name, entry->path(), own});
    }
    own = false;
  }
  std::vector<Starter> list;
  list.reserve(all.size());
  for (auto& [name, starter] : all) list.push_back(std::move(starter));
  return list;
}

}  // namespace dryfit::joinery
