#include "tests/support/scratch.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <sstream>

#include "export/command_line.h"

namespace dryfit::testing {

namespace fs = std::filesystem;

namespace {

// A user that owns nothing. Its number is arbitrary; no account is needed for it.
constexpr uid_t kNobody = 65534;

std::string bytesOf(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace

Scratch::Scratch() {
  std::string name = (fs::temp_directory_path() / "dryfit-test-XXXXXX").string();
  path_ = mkdtemp(name.data());
  // Open to the user without rights that some tests act as, whatever group that one is in.
  fs::permissions(path_, fs::perms::group_all | fs::perms::others_all, fs::perm_options::add);
}

Scratch::~Scratch() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

std::string Scratch::write(std::string_view name, std::string_view bytes) const {
  std::ofstream(path_ / name, std::ios::binary) << bytes;
  return file(name);
}

std::string Scratch::read(std::string_view name) const {
  return bytesOf(path_ / name);
}

std::map<std::string, std::string> Scratch::listing() const {
  std::map<std::string, std::string> all;
  for (const auto& entry : fs::recursive_directory_iterator(path_)) {
    all[fs::relative(entry.path(), path_).string()] =
        entry.is_regular_file() ? bytesOf(entry.path()) : "";
  }
  return all;
}

WithoutRights::WithoutRights() : dropped_(geteuid() == 0) {
  if (dropped_ && seteuid(kNobody) != 0) ADD_FAILURE() << "rights could not be dropped";
}

WithoutRights::~WithoutRights() {
  if (dropped_ && seteuid(0) != 0) std::abort();
}

Said dryfitCommand(const std::vector<std::string>& args) {
  std::ostringstream out, err;
  const int code = exporting::run(args, out, err);
  return {code, out.str(), err.str()};
}

std::string frameModel() {
  return R"({
  "format": "dryfit-model",
  "version": 1,
  "name": "Test frame",
  "unit": "mm",
  "dimensions": {"frame_width": 400, "frame_height": 600, "stile_width": 62},
  "materials": {
    "oak": {"kind": "solid", "species": "white oak", "thickness": 23}
  },
  "parts": {
    "left_stile": {
      "label": "Left stile",
      "material": "oak",
      "batch": "october",
      "length": {"along": "z", "from": 0, "size": "frame_height"},
      "width": {"along": "x", "from": 0, "size": "stile_width"},
      "thickness": {"along": "y", "from": 0}
    },
    "right_stile": {
      "label": "Right stile",
      "material": "oak",
      "length": {"along": "z", "from": 0, "size": "frame_height"},
      "width": {"along": "x", "to": "frame_width", "size": "stile_width"},
      "thickness": {"along": "y", "from": 0}
    },
    "top_rail": {
      "label": "Top rail",
      "material": "oak",
      "length": {"along": "x", "from": "left_stile.right", "to": "right_stile.left"},
      "width": {"along": "z", "to": "left_stile.top - 40", "size": "stile_width"},
      "thickness": {"along": "y", "from": 0}
    },
    "bottom_rail": {
      "label": "Bottom rail",
      "material": "oak",
      "length": {"along": "x", "from": "left_stile.right", "to": "right_stile.left"},
      "width": {"along": "z", "from": "left_stile.bottom + 40", "size": "stile_width"},
      "thickness": {"along": "y", "from": 0}
    }
  },
  "joints": {
    "top_left": {"kind": "blind-mortise-tenon", "tenon": "top_rail", "mortise": "left_stile"},
    "top_right": {"kind": "blind-mortise-tenon", "tenon": "top_rail", "mortise": "right_stile"},
    "bottom_left": {"kind": "blind-mortise-tenon", "tenon": "bottom_rail", "mortise": "left_stile"},
    "bottom_right": {"kind": "blind-mortise-tenon", "tenon": "bottom_rail", "mortise": "right_stile"}
  }
}
)";
}

std::string replaced(std::string text, std::string_view from, std::string_view to) {
  const auto at = text.find(from);
  if (at == std::string::npos) {
    ADD_FAILURE() << "the model has no " << from;
    return text;
  }
  return text.replace(at, from.size(), to);
}

}  // namespace dryfit::testing
