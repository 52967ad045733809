#include "export/files/scratch_folder.h"

#include <cerrno>
#include <cstdlib>
#include <system_error>
#include <utility>

namespace dryfit::exporting {

Result<ScratchFolder> ScratchFolder::in(const std::filesystem::path& parent) {
  std::string name = (parent / ".dryfit-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) {
    return fail(ErrorCode::fileNotWritten,
                "cannot write in this folder: " + std::generic_category().message(errno),
                parent.string(), "choose a folder that you may write in");
  }
  return ScratchFolder(std::filesystem::path(name));
}

ScratchFolder::ScratchFolder(std::filesystem::path path) : path_(std::move(path)) {}

ScratchFolder::ScratchFolder(ScratchFolder&& other) noexcept
    : path_(std::exchange(other.path_, {})) {}

ScratchFolder::~ScratchFolder() {
  std::error_code ignored;  // nothing can be done about it here, and no result depends on it
  if (!path_.empty()) std::filesystem::remove_all(path_, ignored);
}

}  // namespace dryfit::exporting
