#pragma once

#include <cstdint>
#include <variant>
#include <vector>

#include "kernel/geometry.h"
#include "kernel/result.h"
#include "kernel/solid.h"

namespace dryfit::kernel {

/// A box in its own frame. With the identity frame it is square to the part.
struct Block {
  Box3 box;
  Frame frame;  ///< DEFAULT: identity
  friend bool operator==(const Block&, const Block&) = default;
};

/// A planar outline in the xy plane of `frame`, pushed `height` mm along its +z.
struct Prism {
  Frame frame;
  std::vector<Point2> outline;
  double height = 0;
  friend bool operator==(const Prism&, const Prism&) = default;
};

/// A round bar or hole.
struct Cylinder {
  Point3 base;
  Vec3 axis{0, 0, 1};  ///< length 1
  double radius = 0;
  double height = 0;
  friend bool operator==(const Cylinder&, const Cylinder&) = default;
};

/// One simple body that is added to a part or taken from it.
using Tool = std::variant<Block, Prism, Cylinder>;

/// All additions, or all removals, that happen at the same time. Order within a step is free.
struct Step {
  enum class Kind { add, remove };
  Kind kind = Kind::remove;
  std::vector<Tool> tools;
  friend bool operator==(const Step&, const Step&) = default;
};

/// How a part is made from its blank: pure data, so that equal recipes can share one solid.
struct Recipe {
  Tool blank;
  std::vector<Step> steps;
  friend bool operator==(const Recipe&, const Recipe&) = default;

  /// True when the blank and every tool are boxes square to the part.
  [[nodiscard]] bool isSquareWork() const;
};

/// Equal recipes have equal keys. Unequal ones differ but for a chance of about 2^-64: a cache
/// must still compare the recipes themselves.
[[nodiscard]] std::uint64_t contentKey(const Recipe& recipe);

/// A tool as a solid. Error: badDimension.
[[nodiscard]] Result<Solid> makeTool(const Tool& tool);

/// The same tool stated in the coordinates that `frame` maps to. Blocks whose turned frame is
/// square come back as plain boxes with the identity frame.
[[nodiscard]] Tool placed(const Tool& tool, const Frame& frame);

/// Box round a tool.
[[nodiscard]] Box3 boundsOf(const Tool& tool);

/// The finished part, by general Boolean operations, one a step. Removals that miss the part are
/// fine. Errors: badDimension, emptyResult, invalidSolid, libraryFailure; `where` names the step.
[[nodiscard]] Result<Solid> buildGeneral(const Recipe& recipe);

/// The finished part by the quickest way that suits it. Same solid as `buildGeneral`.
[[nodiscard]] Result<Solid> build(const Recipe& recipe);

}  // namespace dryfit::kernel
