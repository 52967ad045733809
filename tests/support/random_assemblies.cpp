#include "tests/support/random_assemblies.h"

#include <array>
#include <map>
#include <string>
#include <vector>

namespace dryfit::test {
namespace {

using nlohmann::ordered_json;
using Triple = std::array<double, 3>;

const std::array<std::string, 3> kAxes{"x", "y", "z"};
const std::array<std::string, 3> kNear{"left", "front", "bottom"};
const std::array<std::string, 3> kFar{"right", "back", "top"};

/// Where a described coordinate lies: sign * it + offset, along each axis.
struct Lie {
  Triple sign{1, 1, 1}, offset{0, 0, 0};

  [[nodiscard]] double at(std::size_t axis, double described) const {
    return sign[axis] * described + offset[axis];
  }
  /// What is mirrored about a described plane first.
  [[nodiscard]] Lie mirrored(std::size_t axis, double plane) const {
    Lie lie = *this;
    lie.offset[axis] = at(axis, 2 * plane);
    lie.sign[axis] = -sign[axis];
    return lie;
  }
  [[nodiscard]] std::string face(const std::string& word) const {
    for (std::size_t axis = 0; axis < 3; ++axis) {
      if (word == kNear[axis]) return sign[axis] < 0 ? kFar[axis] : word;
      if (word == kFar[axis]) return sign[axis] < 0 ? kNear[axis] : word;
    }
    return word;
  }
};

/// A part by its lower corner from that of its opening, and its size along x, y and z.
struct Block {
  std::string name;
  std::array<std::size_t, 3> axes;  ///< of length, width, thickness
  Triple corner, size;
  std::string faceSide, faceEdge;  ///< may be empty
};

class Maker {
 public:
  explicit Maker(std::mt19937_64& random) : random_(random) {}

  TwoWays make() {
    ordered_json head = {
        {"format", "dryfit-model"}, {"version", 1}, {"name", "random"}, {"unit", "mm"}};
    head["materials"]["wood"] = {{"kind", "solid"}, {"species", "white oak"}, {"thickness", 20}};
    two_.assembled = two_.flat = head;
    two_.flat["parts"] = two_.flat["joints"] = two_.flat["tapers"] = ordered_json::object();
    two_.assembled["parts"] = ordered_json::object();
    const std::string outer = describe(3);
    ordered_json use = {{"of", outer}};
    for (std::size_t axis = 0; axis < 3; ++axis) {
      use["opening"][kAxes[axis]] = {{"from", 0}, {"size", 1000}};
    }
    two_.assembled["uses"]["whole"] = use;
    writeOut(outer, {}, {0, 0, 0});
    if (two_.flat["joints"].empty()) two_.flat.erase("joints");
    if (two_.flat["tapers"].empty()) two_.flat.erase("tapers");
    return two_;
  }

 private:
  double number(int least, int most) {
    return std::uniform_int_distribution<int>(least * 2, most * 2)(random_) / 2.0;
  }
  bool chance(int percent) {
    return std::uniform_int_distribution<int>(1, 100)(random_) <= percent;
  }

  /// One use of a description in another.
  struct Inner {
    std::string of;
    Triple corner{}, step{}, size{};
    int count = 0;                   ///< 0: not repeated
    std::array<bool, 3> mirror{};    ///< about the middle of the opening
    std::array<double, 3> planes{};  ///< from the outer opening's lower corner
    std::array<bool, 3> doubles{};   ///< repeated as mirror images about the planes
    bool there = true;
  };
  struct Described {
    std::vector<Block> blocks;
    ordered_json joints, tapers;
    std::vector<Inner> inner;
  };

  /// Adds a description and what stands in it; its name.
  std::string describe(int depth) {
    Described own;
    const double post = number(35, 60), rail = number(18, 26), high = number(50, 90);
    own.blocks.push_back({"post", {2, 0, 1}, {0, 0, 0}, {post, number(35, 60), 220}, "", ""});
    own.blocks.push_back({"rail",
                          {0, 2, 1},
                          {post, number(2, 8), number(20, 100)},
                          {number(150, 300), rail, high},
                          "front",
                          "top"});
    if (chance(50)) own.blocks[0].faceSide = chance(50) ? "front" : "back";
    own.joints["tenon"] = {{"kind", "blind-mortise-tenon"}, {"tenon", "rail"}, {"mortise", "post"}};
    ordered_json& tenon = own.joints["tenon"];
    if (chance(50)) tenon["face"] = "left";
    if (chance(60)) tenon["offset"] = number(-2, 2);
    if (chance(60)) tenon["shoulder_bottom"] = number(5, 12);
    if (chance(30)) tenon["shoulder_top"] = "rail.width / 8";
    own.tapers["foot"] = {
        {"parts", {"post"}}, {"size", "thickness"}, {"narrow_end", "bottom"}, {"by", number(2, 6)}};
    if (chance(50)) own.tapers["foot"]["face"] = "back";
    const int inner = depth > 1 ? std::uniform_int_distribution<int>(1, 2)(random_) : 0;
    for (int i = 0; i < inner; ++i) own.inner.push_back(standIn(depth));
    const std::string name = "kind" + std::to_string(descriptions_.size());
    two_.assembled["assemblies"][name] = jsonOf(own);
    descriptions_[name] = own;
    return name;
  }

  Inner standIn(int depth) {
    Inner inner;
    inner.of = describe(depth - 1);
    for (std::size_t axis = 0; axis < 3; ++axis) {
      inner.corner[axis] = number(0, 400);
      inner.size[axis] = number(200, 500);
      inner.mirror[axis] = chance(25);
      inner.doubles[axis] = false;
      inner.planes[axis] = number(100, 600);
    }
    if (chance(40)) {
      inner.count = std::uniform_int_distribution<int>(0, 3)(random_);
      inner.step[std::uniform_int_distribution<std::size_t>(0, 2)(random_)] = number(50, 150);
    } else if (chance(50)) {
      for (bool& doubles : inner.doubles) doubles = chance(50);
    }
    inner.there = chance(85);
    return inner;
  }

  static bool any(const std::array<bool, 3>& flags) { return flags[0] || flags[1] || flags[2]; }

  static ordered_json from(std::size_t axis, double corner) {
    return "opening." + kNear[axis] + " + " + std::to_string(corner);
  }

  static ordered_json jsonOf(const Described& own) {
    ordered_json json;
    for (const Block& block : own.blocks) {
      ordered_json& part = json["parts"][block.name];
      part["material"] = "wood";
      for (int i = 0; i < 3; ++i) {
        const std::size_t axis = block.axes[static_cast<std::size_t>(i)];
        part[i == 0   ? "length"
             : i == 1 ? "width"
                      : "thickness"] = {{"along", kAxes[axis]},
                                        {"from", from(axis, block.corner[axis])},
                                        {"size", block.size[axis]}};
      }
      // The rail runs from the post, whichever way the image lies.
      if (block.name == "rail") part["length"]["from"] = "post.right";
      if (!block.faceSide.empty()) part["face_side"] = block.faceSide;
      if (!block.faceEdge.empty()) part["face_edge"] = block.faceEdge;
    }
    json["joints"] = own.joints;
    json["tapers"] = own.tapers;
    int number = 0;
    for (const Inner& inner : own.inner) {
      ordered_json& use = json["uses"]["part" + std::to_string(++number)];
      use["of"] = inner.of;
      for (std::size_t axis = 0; axis < 3; ++axis) {
        ordered_json& span = use["opening"][kAxes[axis]];
        span = {{"from", from(axis, inner.corner[axis])}, {"size", inner.size[axis]}};
        if (inner.step[axis] != 0) {
          span["from"] = span["from"].get<std::string>() + " + (copy - 1) * " +
                         std::to_string(inner.step[axis]);
        }
      }
      if (inner.count > 0 || any(asFlags(inner.step))) use["repeat"] = inner.count;
      for (std::size_t axis = 0; axis < 3; ++axis) {
        if (inner.mirror[axis]) use["mirror"].push_back(kAxes[axis]);
        if (inner.doubles[axis]) {
          use["repeat"]["mirrored"][kAxes[axis]] = from(axis, inner.planes[axis]);
        }
      }
      if (!inner.there) use["when"] = "1 > 2";
    }
    return json;
  }

  static std::array<bool, 3> asFlags(const Triple& t) { return {t[0] != 0, t[1] != 0, t[2] != 0}; }

  /// Writes a description out whose opening has its lower corner here, in described coordinates.
  void writeOut(const std::string& name, const Lie& lie, const Triple& corner) {
    const Described own = descriptions_[name];
    std::map<std::string, std::string> names;
    for (const Block& block : own.blocks) {
      names[block.name] = "p" + std::to_string(++parts_);
      two_.flat["parts"][names[block.name]] = placed(block, lie, corner);
    }
    for (const Inner& inner : own.inner) {
      if (inner.there) writeInner(inner, lie, corner);
    }
    for (const auto& [joint, words] : own.joints.items()) {
      two_.flat["joints"]["j" + std::to_string(++joints_)] = placed(words, names, lie);
    }
    for (const auto& [taper, words] : own.tapers.items()) {
      ordered_json image = words;
      image["parts"] = {names["post"]};
      for (const char* key : {"face", "narrow_end"}) {
        if (image.contains(key)) image[key] = lie.face(image[key]);
      }
      two_.flat["tapers"]["t" + std::to_string(++joints_)] = image;
    }
  }

  void writeInner(const Inner& inner, const Lie& lie, const Triple& corner) {
    const bool repeated = inner.count > 0 || any(asFlags(inner.step));
    int copies = repeated ? inner.count : 1;
    std::vector<std::size_t> doubled;
    for (std::size_t axis = 0; axis < 3; ++axis) {
      if (inner.doubles[axis]) doubled.push_back(axis);
    }
    if (!doubled.empty()) copies = 1 << doubled.size();
    for (int copy = 0; copy < copies; ++copy) {
      Triple own{};
      Lie image = lie;
      for (std::size_t i = 0; i < doubled.size(); ++i) {
        if ((copy >> i & 1) == 0) continue;
        const std::size_t axis = doubled[i];
        image = image.mirrored(axis, corner[axis] + inner.planes[axis]);
      }
      for (std::size_t axis = 0; axis < 3; ++axis) {
        own[axis] = corner[axis] + inner.corner[axis] + copy * inner.step[axis];
        if (!inner.mirror[axis]) continue;
        image = image.mirrored(axis, own[axis] + inner.size[axis] / 2);
      }
      writeOut(inner.of, image, own);
    }
  }

  static ordered_json placed(const Block& block, const Lie& lie, const Triple& corner) {
    ordered_json part = {{"material", "wood"}};
    for (int i = 0; i < 3; ++i) {
      const std::size_t axis = block.axes[static_cast<std::size_t>(i)];
      const double a = lie.at(axis, corner[axis] + block.corner[axis]);
      const double b = lie.at(axis, corner[axis] + block.corner[axis] + block.size[axis]);
      part[i == 0   ? "length"
           : i == 1 ? "width"
                    : "thickness"] = {
          {"along", kAxes[axis]}, {"from", std::min(a, b)}, {"size", block.size[axis]}};
    }
    if (!block.faceSide.empty()) part["face_side"] = lie.face(block.faceSide);
    if (!block.faceEdge.empty()) part["face_edge"] = lie.face(block.faceEdge);
    return part;
  }

  /// A joint of the image: faces in its words change, and the sign of what lies to one side.
  static ordered_json placed(const ordered_json& joint, std::map<std::string, std::string>& names,
                             const Lie& lie) {
    ordered_json image;
    for (const auto& [key, value] : joint.items()) {
      ordered_json own = value;
      std::string word = key;
      if (key == "tenon" || key == "mortise") own = names[value];
      if (key == "face") own = lie.face(value);
      if (key == "offset") own = lie.sign[1] * value.get<double>();
      if (key == "shoulder_bottom" || key == "shoulder_top") {
        word = "shoulder_" + lie.face(key.substr(9));
      }
      if (own == "rail.width / 8") own = names["rail"] + ".width / 8";
      image[word] = own;
    }
    return image;
  }

  std::mt19937_64& random_;
  TwoWays two_;
  std::map<std::string, Described> descriptions_;
  int parts_ = 0, joints_ = 0;
};

}  // namespace

TwoWays randomAssembly(std::mt19937_64& random) {
  return Maker(random).make();
}

}  // namespace dryfit::test
