#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace dryfit::joinery {

/// A model that new pieces are begun from: any model with questions.
struct Starter {
  std::string name;  ///< of its file, without the ending: "table"
  std::filesystem::path file;
  bool own = false;  ///< kept by the maker
};

/// Where starters lie: the maker's own folder first, whether it is there or not, then those that
/// came with the program.
[[nodiscard]] std::vector<std::filesystem::path> starterFolders();

/// The starters in these folders by their names; of two with one name the first folder's.
[[nodiscard]] std::vector<Starter> startersIn(const std::vector<std::filesystem::path>& folders);

}  // namespace dryfit::joinery
