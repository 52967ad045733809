#pragma once

#include <memory>
#include <span>
#include <vector>

#include "kernel/geometry.h"
#include "kernel/result.h"

namespace dryfit::kernel {

/// Counts of the shape elements of a solid.
struct Topology {
  int solids = 0, shells = 0, faces = 0, edges = 0, vertices = 0;
  friend bool operator==(const Topology&, const Topology&) = default;
};

/// A valid, closed body of wood. Immutable; copying shares the geometry. Coordinates in mm.
///
/// A Solid and its copies may be used by any number of threads at once, in every function of the
/// kernel: what is worked out late is worked out once, and answers are those of a single thread.
///
/// Every Solid that exists passed `validate`: closed shells, positive volume, at least one lump.
/// (A cut may leave several lumps; `topology().solids` tells.)
class Solid {
 public:
  struct Impl;
  explicit Solid(std::shared_ptr<const Impl> impl);

  /// mm³, to about 1e-12 relative for planar and cylindrical faces.
  [[nodiscard]] double volume() const;
  /// Surface area, mm².
  [[nodiscard]] double area() const;
  [[nodiscard]] Point3 centroid() const;
  /// The tight axis-aligned box, to 1e-6 mm (of a placed copy looser, should the library fail).
  [[nodiscard]] Box3 bounds() const;
  [[nodiscard]] Topology topology() const;
  /// The same body in another place, by a rigid frame. Geometry is shared, not copied.
  [[nodiscard]] Solid placed(const Frame& frame) const;

  /// Equal for solids that are one body in different places, for as long as one of them lives.
  [[nodiscard]] const void* body() const;
  /// One body in one place. Solids that merely look alike are not.
  [[nodiscard]] bool isSameAs(const Solid& other) const;

  [[nodiscard]] const Impl& impl() const { return *impl_; }

 private:
  std::shared_ptr<const Impl> impl_;
};

/// Checks what every Solid must be: the geometry library's own validity check, closed shells,
/// volume > 0. Error: invalidSolid.
[[nodiscard]] Result<void> validate(const Solid& solid);

/// Box from its corners. Error: badDimension when empty, not finite or beyond `kLargest`.
[[nodiscard]] Result<Solid> makeBox(const Box3& box);
/// Prism over a simple closed planar outline (3 points or more, either sense, not repeated at the
/// end) in the xy plane of `frame`, `height` mm along its +z. Error: badDimension.
[[nodiscard]] Result<Solid> makePrism(const Frame& frame, std::span<const Point2> outline,
                                      Length height);
/// Round bar from `base` along `axis` (length 1). Error: badDimension.
[[nodiscard]] Result<Solid> makeCylinder(Point3 base, Vec3 axis, Length radius, Length height);

/// `body` less all `tools` in one operation. With no tools, or none that touch, `body` itself.
/// Errors: emptyResult when nothing is left, invalidSolid, libraryFailure.
[[nodiscard]] Result<Solid> cut(const Solid& body, std::span<const Solid> tools);
/// `body` and all `tools` made one, faces in one plane merged. Errors as `cut`.
[[nodiscard]] Result<Solid> fuse(const Solid& body, std::span<const Solid> tools);
/// The wood shared by `body` and the union of `tools`. Error emptyResult when they share none.
[[nodiscard]] Result<Solid> common(const Solid& body, std::span<const Solid> tools);

/// Shared wood of two solids.
struct Overlap {
  double volume = 0;  ///< mm³; 0 where they only touch or are apart
  Point3 centre;      ///< centroid of the shared wood; unset where volume is 0
  Box3 bounds;        ///< box round the shared wood
};
/// Laws: overlap(a, b).volume == overlap(b, a).volume; overlap(a, a).volume == a.volume(), both to
/// 1e-9 relative. Films (shared pieces nowhere as thick as `kContact`) are left out: parts that
/// touch share them by rounding. What is then below `kSliverVolume` is reported as 0. Error:
/// libraryFailure.
[[nodiscard]] Result<Overlap> overlap(const Solid& a, const Solid& b);

/// Least distance between two solids, mm; 0 where they touch or overlap. Error: libraryFailure.
[[nodiscard]] Result<double> distance(const Solid& a, const Solid& b);

}  // namespace dryfit::kernel
