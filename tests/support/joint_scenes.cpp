#include "tests/support/joint_scenes.h"

#include "joinery/joints/joint_kinds.h"

#include <cmath>

#include "joinery/joints/joint_kind.h"

namespace dryfit::test {
namespace {

using nlohmann::ordered_json;

/// A random size on a grid of half millimetres.
double size(std::mt19937_64& random, double lo, double hi) {
  return std::round(2 * std::uniform_real_distribution(lo, hi)(random)) / 2;
}

bool chance(std::mt19937_64& random) {
  return std::uniform_int_distribution(0, 1)(random) == 1;
}

/// A rail meeting the right face of a stile, flush with its top or somewhere along it.
JointScene railAndStile(const std::string& kind, const ordered_json& roles,
                        std::mt19937_64& random) {
  const double stileLength = size(random, 300, 700);
  const double stileWidth = size(random, 40, 80);
  const double stileThickness = size(random, 20, 40);
  const double railWidth = size(random, 36, 90);
  const double railThickness = size(random, 18, stileThickness);
  const double bottom =
      chance(random) ? stileLength - railWidth : size(random, 20, stileLength - railWidth);
  const double front = chance(random) ? 0 : size(random, 0, stileThickness - railThickness);
  JointScene scene;
  scene.kind = kind;
  scene.text.part("stile", {"z", 0, stileLength}, {"x", 0, stileWidth}, {"y", 0, stileThickness})
      .part("rail", {"x", "stile.right", size(random, 150, 500)}, {"z", bottom, railWidth},
            {"y", front, railThickness});
  ordered_json joint = roles;
  joint["kind"] = kind;
  scene.text.joint("corner", joint);
  scene.second = "stile";
  scene.square = "x";
  scene.slanting = {"y", "z"};
  scene.at = {stileWidth, front + railThickness / 2, bottom + railWidth / 2};
  return scene;
}

/// A shelf meeting the right face of an upright side.
JointScene shelfAndSide(const std::string& kind, std::mt19937_64& random) {
  const double height = size(random, 300, 900);
  const double depth = size(random, 150, 350);
  const double thickness = size(random, 15, 28);
  const double shelf = size(random, 12, 28);
  const double setback = chance(random) ? 0 : size(random, 2, 40);
  const double level = size(random, 30, height - 60);
  JointScene scene;
  scene.kind = kind;
  scene.text.part("side", {"z", 0, height}, {"y", 0, depth}, {"x", 0, thickness})
      .part("shelf", {"x", "side.right", size(random, 200, 700)}, {"y", setback, depth - setback},
            {"z", level, shelf});
  scene.text.joint("housing", {{"kind", kind}, {"shelf", "shelf"}, {"side", "side"}});
  scene.second = "side";
  scene.square = "x";
  scene.slanting = {"y"};
  scene.at = {thickness, depth / 2, level + shelf / 2};
  return scene;
}

/// A panel in a frame of two stiles and two rails that only butt, or fewer of them.
JointScene panelInFrame(std::mt19937_64& random) {
  const double stile = size(random, 40, 70);
  const double thickness = size(random, 18, 30);
  const double panel = size(random, 4, thickness);
  const double width = size(random, 100, 400);
  const double height = size(random, 100, 500);
  JointScene scene;
  scene.kind = "panel-groove";
  scene.text
      .part("left", {"z", -stile, height + 2 * stile}, {"x", -stile, stile}, {"y", 0, thickness})
      .part("right", {"z", -stile, height + 2 * stile}, {"x", width, stile}, {"y", 0, thickness})
      .part("bottom", {"x", 0, width}, {"z", -stile, stile}, {"y", 0, thickness})
      .part("top", {"x", 0, width}, {"z", height, stile}, {"y", 0, thickness})
      .part("panel", {"z", 0, height}, {"x", 0, width}, {"y", (thickness - panel) / 2, panel});
  ordered_json frame = {"left"};
  for (const char* member : {"right", "bottom", "top"}) {
    if (chance(random)) frame.push_back(member);
  }
  scene.text.joint("groove", {{"kind", scene.kind}, {"panel", "panel"}, {"frame", frame}});
  scene.second = "left";
  scene.square = "x";
  scene.at = {0, thickness / 2, height / 2};
  return scene;
}

/// A back let into the sides of a case, and into its top as well where there is one.
JointScene backInCase(std::mt19937_64& random) {
  const double height = size(random, 300, 700);
  const double depth = size(random, 150, 300);
  const double thickness = size(random, 15, 25);
  const double width = size(random, 200, 600);
  const double back = size(random, 4, 12);
  JointScene scene;
  scene.kind = "rebate";
  scene.text.part("side", {"z", 0, height}, {"y", 0, depth}, {"x", 0, thickness})
      .part("back", {"z", 0, height}, {"x", "side.right", width}, {"y", depth - back, back})
      .part("top", {"x", 0, width + 2 * thickness}, {"y", 0, depth}, {"z", height, thickness});
  ordered_json rebated = {"side"};
  if (chance(random)) rebated.push_back("top");
  scene.text.joint("rebate", {{"kind", scene.kind}, {"inset", "back"}, {"rebated", rebated}});
  scene.second = "side";
  scene.square = "x";
  scene.at = {thickness, depth - back / 2, height / 2};
  return scene;
}

/// Two parts lying flat that cross, meet in a T or meet in a corner.
JointScene lapped(std::mt19937_64& random) {
  const double overWidth = size(random, 30, 80);
  const double underWidth = size(random, 30, 80);
  const double overThickness = size(random, 15, 30);
  const double underThickness = chance(random) ? overThickness : size(random, 15, 30);
  const double length = size(random, 200, 500);
  const int shape = std::uniform_int_distribution(0, 2)(random);
  const double overFrom = shape == 0 ? -length / 2 : 0;              // a T or a corner ends there
  const double underFrom = shape == 2 ? 0 : -size(random, 50, 200);  // a corner ends there
  JointScene scene;
  scene.kind = "half-lap";
  scene.text.part("over", {"x", overFrom, length}, {"y", 0, overWidth}, {"z", 0, overThickness})
      .part("under", {"y", underFrom, length}, {"x", 0, underWidth}, {"z", 0, underThickness})
      .joint("lap", {{"kind", scene.kind}, {"over", "over"}, {"under", "under"}});
  scene.second = "under";
  scene.square = "z";
  scene.at = {underWidth / 2, overWidth / 2, 0};
  return scene;
}

/// Two boards edge to edge.
JointScene boards(const std::string& kind, const ordered_json& roles, std::mt19937_64& random) {
  const double length = size(random, 200, 900);
  const double first = size(random, 60, 180);
  const double thickness = size(random, 15, 30);
  JointScene scene;
  scene.kind = kind;
  scene.text.part("one", {"x", 0, length}, {"y", 0, first}, {"z", 0, thickness})
      .part("two", {"x", chance(random) ? 0 : -20.0, length},
            {"y", "one.back", size(random, 60, 180)}, {"z", 0, thickness});
  ordered_json joint = roles;
  joint["kind"] = kind;
  scene.text.joint("edge", joint);
  scene.second = "two";
  scene.square = "y";
  if (kind == "tongue-groove") scene.slanting = {"x"};
  scene.at = {length / 2, first, thickness / 2};
  return scene;
}

}  // namespace

std::vector<std::string> sceneKinds() {
  std::vector<std::string> kinds;
  for (const auto& kind : joinery::jointKinds()) kinds.emplace_back(kind->name());
  return kinds;
}

JointScene randomScene(const std::string& kind, std::mt19937_64& random) {
  if (kind.ends_with("mortise-tenon")) {
    return railAndStile(kind, {{"tenon", "rail"}, {"mortise", "stile"}}, random);
  }
  if (kind == "stub-tenon-groove") {
    JointScene scene = railAndStile(kind, {{"tenon", "rail"}, {"groove", "stile"}}, random);
    scene.slanting = {"z"};
    return scene;
  }
  if (kind == "dowels") {
    JointScene scene = railAndStile(kind, {{"end", "rail"}, {"face", "stile"}}, random);
    scene.slanting.clear();
    return scene;
  }
  if (kind.ends_with("housing")) return shelfAndSide(kind, random);
  if (kind == "panel-groove") return panelInFrame(random);
  if (kind == "rebate") return backInCase(random);
  if (kind == "half-lap") return lapped(random);
  if (kind == "tongue-groove") return boards(kind, {{"tongue", "one"}, {"groove", "two"}}, random);
  return boards(kind, {{"first", "one"}, {"second", "two"}}, random);
}

}  // namespace dryfit::test
