#pragma once

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace dryfit::testing {

/// A folder of a test's own that goes away with it.
class Scratch {
 public:
  Scratch();
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch();

  [[nodiscard]] std::filesystem::path path() const { return path_; }
  [[nodiscard]] std::string file(std::string_view name) const { return (path_ / name).string(); }
  /// Writes a file and gives its path.
  [[nodiscard]] std::string write(std::string_view name, std::string_view bytes) const;
  [[nodiscard]] std::string read(std::string_view name) const;
  /// Every file and folder below, hidden ones too, with the files' bytes ("" for a folder).
  [[nodiscard]] std::map<std::string, std::string> listing() const;

 private:
  std::filesystem::path path_;
};

/// Acts as a user without rights as long as it lives, where the tests run with all rights: they
/// would otherwise write where nobody may.
class WithoutRights {
 public:
  WithoutRights();
  WithoutRights(const WithoutRights&) = delete;
  WithoutRights& operator=(const WithoutRights&) = delete;
  ~WithoutRights();

 private:
  bool dropped_ = false;
};

/// What the command line said.
struct Said {
  int code = 0;
  std::string out, err;
};
[[nodiscard]] Said dryfitCommand(const std::vector<std::string>& args);

/// A door frame of two stiles and two rails, 400 x 600 x 23 mm, tenoned into each other.
[[nodiscard]] std::string frameModel();
/// `text` with the first `from` replaced; fails the test where `from` is not there.
[[nodiscard]] std::string replaced(std::string text, std::string_view from, std::string_view to);

}  // namespace dryfit::testing
