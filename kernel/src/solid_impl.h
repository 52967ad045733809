#pragma once

#include <TopoDS_Shape.hxx>
#include <memory>
#include <mutex>
#include <optional>

#include "kernel/solid.h"

namespace dryfit::kernel {

/// A quantity worked out once, when first asked for, by whichever thread comes first.
template <class T>
class Once {
 public:
  template <class Work>
  const T& get(Work&& work) const {
    std::call_once(flag_, [&] { value_ = work(); });
    return *value_;
  }

 private:
  mutable std::once_flag flag_;
  mutable std::optional<T> value_;
};

struct Mass {
  double volume = 0;
  Point3 centroid;
};

/// What a Solid shares among its copies. `shape` is a solid, or a compound of nothing but solids.
/// Volume and area do not change when a solid is placed, so the placed copies share them.
struct Solid::Impl {
  TopoDS_Shape shape;
  Mass mass;
  std::shared_ptr<const Once<double>> area = std::make_shared<Once<double>>();
  Once<Box3> bounds;

  Impl(TopoDS_Shape s, Mass m) : shape(std::move(s)), mass(m) {}
};

/// A Solid from a shape whose validity and mass the caller vouches for.
[[nodiscard]] Solid adopt(TopoDS_Shape shape, const Mass& mass);

/// A Solid from any shape: the solids in it are taken out, checked and measured; a single one is
/// freed of the compounds round it. Errors: emptyResult when there is no solid in it, invalidSolid.
/// Throws what the geometry library throws.
[[nodiscard]] Result<Solid> finish(const TopoDS_Shape& shape);

/// The solids of `shape` alone: one solid, or a flat compound of several, or a null shape.
[[nodiscard]] TopoDS_Shape solidsOf(const TopoDS_Shape& shape);

/// Volume and centroid. Throws what the geometry library throws.
[[nodiscard]] Mass massOf(const TopoDS_Shape& shape);
[[nodiscard]] double areaOf(const TopoDS_Shape& shape);
[[nodiscard]] Box3 boundsOf(const TopoDS_Shape& shape);

/// The law of `validate`, on a bare shape.
[[nodiscard]] Result<void> checkShape(const TopoDS_Shape& shape);

}  // namespace dryfit::kernel
