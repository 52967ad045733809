#pragma once

#include <array>
#include <vector>

#include "joinery/piece/piece.h"
#include "kernel/geometry.h"

namespace dryfit::joinery {

/// What a part looks like to the one who makes it: the blank, the edges of everything added to or
/// taken from it and what each is for, and the face marks that it is set out from. Two parts with
/// matching outlines are made alike.
class ShapeOutline {
 public:
  /// `edged`: the edges and ends that get an edging.
  explicit ShapeOutline(const PlacedPart& part, std::vector<LocalFace> edged = {});

  /// True when `other`, turned end for end, over, or both, is this part within 1e-6 mm.
  [[nodiscard]] bool sameAs(const ShapeOutline& other) const;
  /// True when the mirror image of `other`, turned likewise, is this part within 1e-6 mm.
  [[nodiscard]] bool mirrors(const ShapeOutline& other) const;

 private:
  /// An edge of a tool, or a cylinder's axis.
  struct Segment {
    kernel::Point3 a, b;
  };
  struct ToolOutline {
    double radius = 0;  ///< of a cylinder, else 0
    kernel::Box3 bounds;
    std::vector<Segment> segments;
  };
  struct StepOutline {
    kernel::Step::Kind kind = kernel::Step::Kind::remove;
    std::vector<ToolOutline> tools;
  };
  /// Which of the part's axes are turned round.
  using Flip = std::array<bool, 3>;

  [[nodiscard]] static ToolOutline outlineOf(const kernel::Tool& tool);
  [[nodiscard]] bool matches(const ShapeOutline& other, Flip flip) const;
  [[nodiscard]] static bool matches(const ToolOutline& a, const ToolOutline& b);
  [[nodiscard]] static bool matches(const StepOutline& a, const StepOutline& b);
  [[nodiscard]] StepOutline flipped(const StepOutline& step, Flip flip) const;

  /// The marks and edgings of `other`, turned round, are those of this part.
  [[nodiscard]] bool marksMatch(const ShapeOutline& other, Flip flip) const;

  kernel::Vec3 size_;
  LocalFace faceSide_, faceEdge_;
  bool faceSideFree_, faceEdgeFree_;
  std::vector<LocalFace> edged_;
  std::vector<Purpose> purposes_;  ///< of its features, rising
  std::vector<StepOutline> steps_;
};

}  // namespace dryfit::joinery
