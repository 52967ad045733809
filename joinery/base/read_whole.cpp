#include "joinery/base/read_whole.h"

#include <array>
#include <fstream>

namespace dryfit::joinery {

Result<std::string> readWhole(const std::filesystem::path& path, const std::string& kind) {
  const auto notRead = [&](const std::string& what, const std::string& mend = {}) {
    return fail(ErrorCode::fileNotRead, what, path.string(), mend);
  };
  std::error_code code;
  const std::filesystem::file_status status = std::filesystem::status(path, code);
  if (!std::filesystem::exists(status)) return notRead("there is no such file");
  if (std::filesystem::is_directory(status)) return notRead("this is a folder, not a file");
  std::ifstream in(path, std::ios::binary);
  if (!in) return notRead("the file cannot be opened", "check its permissions");
  // A pipe or a device does not say how much it will give: take no more than a file may hold.
  std::string text;
  std::array<char, 65536> block{};
  while (in && text.size() <= kLargestFile) {
    in.read(block.data(), block.size());
    text.append(block.data(), static_cast<std::size_t>(in.gcount()));
  }
  if (in.bad()) return notRead("the file cannot be read to the end");
  if (text.size() > kLargestFile) {
    return notRead("the file is larger than 20 MB", "no " + kind + " is that large");
  }
  return text;
}

}  // namespace dryfit::joinery
