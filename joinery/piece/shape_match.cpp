#include "joinery/piece/shape_match.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

using kernel::Box3;
using kernel::Point3;

bool near(double a, double b) {
  return std::fabs(a - b) <= kernel::kAlike;
}
bool near(Point3 a, Point3 b) {
  return near(a.x, b.x) && near(a.y, b.y) && near(a.z, b.z);
}

Box3 boxRound(const Point3& a, const Point3& b) {
  return Box3{a, a}.united({b, b});
}

/// Pairs up the members of two lists of equal length by `alike`, each used once.
template <class T, class Alike>
bool pairUp(const std::vector<T>& a, const std::vector<T>& b, const Alike& alike) {
  if (a.size() != b.size()) return false;
  std::vector<bool> used(b.size());
  return std::all_of(a.begin(), a.end(), [&](const T& x) {
    for (std::size_t i = 0; i < b.size(); ++i) {
      if (used[i] || !alike(x, b[i])) continue;
      used[i] = true;
      return true;
    }
    return false;
  });
}

/// Cuts may over-run the part, each its own way; what lies outside the part is no part of it.
kernel::Tool withoutOverrun(const kernel::Tool& tool, const Box3& overall) {
  const auto* block = std::get_if<kernel::Block>(&tool);
  if (block == nullptr || !block->frame.isSquare()) return tool;
  return kernel::Block{kernel::boundsOf(block->frame, block->box).common(overall), {}};
}

}  // namespace

ShapeOutline::ShapeOutline(const PlacedPart& part, std::vector<LocalFace> edged)
    : size_(part.size),
      faceSide_(part.faceSide),
      faceEdge_(part.faceEdge),
      faceSideFree_(part.faceSideFree),
      faceEdgeFree_(part.faceEdgeFree),
      edged_(std::move(edged)) {
  for (const Feature& feature : part.features) purposes_.push_back(feature.purpose);
  std::ranges::sort(purposes_);
  const Box3 overall = part.overall();
  for (const kernel::Step& step : part.recipe().steps) {
    StepOutline outline{step.kind, {}};
    for (const kernel::Tool& tool : step.tools) {
      const bool cut = step.kind == kernel::Step::Kind::remove;
      outline.tools.push_back(outlineOf(cut ? withoutOverrun(tool, overall) : tool));
    }
    steps_.push_back(std::move(outline));
  }
}

ShapeOutline::ToolOutline ShapeOutline::outlineOf(const kernel::Tool& tool) {
  ToolOutline outline;
  if (const auto* bar = std::get_if<kernel::Cylinder>(&tool)) {
    outline.radius = bar->radius;
    outline.segments.push_back({bar->base, bar->base + bar->axis * bar->height});
  } else {
    // A block is a prism over its bottom face, so the two kinds can be told alike.
    kernel::Prism prism;
    if (const auto* block = std::get_if<kernel::Block>(&tool)) {
      const Point3 lo = block->box.min;
      const Point3 hi = block->box.max;
      prism.frame = block->frame;
      prism.frame.origin = block->frame.place({0, 0, lo.z});
      prism.outline = {{lo.x, lo.y}, {hi.x, lo.y}, {hi.x, hi.y}, {lo.x, hi.y}};
      prism.height = hi.z - lo.z;
    } else {
      prism = std::get<kernel::Prism>(tool);
    }
    const std::size_t corners = prism.outline.size();
    const auto corner = [&](std::size_t i, double z) {
      const kernel::Point2 p = prism.outline[i % corners];
      return prism.frame.place({p.x, p.y, z});
    };
    for (std::size_t i = 0; i < corners; ++i) {
      outline.segments.push_back({corner(i, 0), corner(i + 1, 0)});
      outline.segments.push_back({corner(i, prism.height), corner(i + 1, prism.height)});
      outline.segments.push_back({corner(i, 0), corner(i, prism.height)});
    }
  }
  for (std::size_t i = 0; i < outline.segments.size(); ++i) {
    const Box3 box = boxRound(outline.segments[i].a, outline.segments[i].b);
    outline.bounds = i == 0 ? box : outline.bounds.united(box);
  }
  return outline;
}

ShapeOutline::StepOutline ShapeOutline::flipped(const StepOutline& step, Flip flip) const {
  const auto turned = [&](Point3 p) {
    for (int axis = 0; axis < 3; ++axis) {
      if (flip[axis]) p.set(axis, size_[axis] - p[axis]);
    }
    return p;
  };
  StepOutline result = step;
  for (ToolOutline& tool : result.tools) {
    for (Segment& s : tool.segments) s = {turned(s.a), turned(s.b)};
    tool.bounds = boxRound(turned(tool.bounds.min), turned(tool.bounds.max));
  }
  return result;
}

bool ShapeOutline::matches(const ToolOutline& a, const ToolOutline& b) {
  return near(a.radius, b.radius) && near(a.bounds.min, b.bounds.min) &&
         near(a.bounds.max, b.bounds.max) &&
         pairUp(a.segments, b.segments, [](const Segment& s, const Segment& t) {
           return (near(s.a, t.a) && near(s.b, t.b)) || (near(s.a, t.b) && near(s.b, t.a));
         });
}

bool ShapeOutline::matches(const StepOutline& a, const StepOutline& b) {
  return a.kind == b.kind &&
         pairUp(a.tools, b.tools,
                [](const ToolOutline& s, const ToolOutline& t) { return matches(s, t); });
}

bool ShapeOutline::marksMatch(const ShapeOutline& other, Flip flip) const {
  const auto turned = [&](LocalFace face) {
    return LocalFace{face.axis, face.far != flip[static_cast<std::size_t>(face.axis)]};
  };
  // Where both are free, one is marked as the other is.
  const bool side = (faceSideFree_ && other.faceSideFree_) || turned(other.faceSide_) == faceSide_;
  const bool edge = (faceEdgeFree_ && other.faceEdgeFree_) || turned(other.faceEdge_) == faceEdge_;
  return side && edge &&
         pairUp(edged_, other.edged_, [&](LocalFace a, LocalFace b) { return a == turned(b); });
}

bool ShapeOutline::matches(const ShapeOutline& other, Flip flip) const {
  if (purposes_ != other.purposes_ || !marksMatch(other, flip)) return false;
  if (!near(size_.x, other.size_.x) || !near(size_.y, other.size_.y) ||
      !near(size_.z, other.size_.z) || steps_.size() != other.steps_.size()) {
    return false;
  }
  for (std::size_t i = 0; i < steps_.size(); ++i) {
    if (steps_[i].tools.size() != other.steps_[i].tools.size()) return false;
  }
  for (std::size_t i = 0; i < steps_.size(); ++i) {
    if (!matches(steps_[i], flipped(other.steps_[i], flip))) return false;
  }
  return true;
}

bool ShapeOutline::sameAs(const ShapeOutline& other) const {
  // Turning two axes round is half a turn about the third.
  constexpr std::array<Flip, 4> kTurns{
      {{false, false, false}, {false, true, true}, {true, false, true}, {true, true, false}}};
  return std::any_of(kTurns.begin(), kTurns.end(), [&](Flip f) { return matches(other, f); });
}

bool ShapeOutline::mirrors(const ShapeOutline& other) const {
  constexpr std::array<Flip, 4> kMirrors{
      {{true, false, false}, {false, true, false}, {false, false, true}, {true, true, true}}};
  return std::any_of(kMirrors.begin(), kMirrors.end(), [&](Flip f) { return matches(other, f); });
}

}  // namespace dryfit::joinery
