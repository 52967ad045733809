#pragma once

#include <TopLoc_Location.hxx>
#include <TopoDS_Shape.hxx>
#include <memory>
#include <mutex>
#include <optional>

#include "kernel/solid.h"
#include "kernel/square_work.h"

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

/// Square work in its own axes, shared by all its placed copies.
struct SquareBody {
  SquareWork work;
  Once<TopoDS_Shape> shape;  ///< made when something first needs it

  explicit SquareBody(SquareWork w) : work(std::move(w)) {}
};

/// What a Solid shares among its copies: a shape of the geometry library (a solid, or a compound of
/// nothing but solids), or square work with its placement, which gets such a shape when asked.
/// Volume and area do not change when a solid is placed, so the placed copies share them.
struct Solid::Impl {
  Mass mass;
  std::shared_ptr<const Once<double>> area = std::make_shared<Once<double>>();
  Once<Box3> bounds;
  Box3 around;  ///< holds the solid, not always tightly; unset for square work
  std::shared_ptr<const SquareBody> square;  ///< null where the shape came first
  Frame frame;                               ///< where `square` stands

  Impl(TopoDS_Shape s, Mass m) : mass(m), given_(std::move(s)) {}
  Impl(std::shared_ptr<const SquareBody> body, const Frame& at)
      : mass{body->work.volume, at.place(body->work.centroid)},
        square(std::move(body)),
        frame(at) {}

  /// Throws what the geometry library throws, which for square work is lack of memory at most.
  [[nodiscard]] const TopoDS_Shape& shape() const {
    return square ? made_.get([&] { return makeShape(); }) : given_;
  }
  /// Where the body stands that the shape is made of.
  [[nodiscard]] TopLoc_Location place() const;

 private:
  [[nodiscard]] TopoDS_Shape makeShape() const;

  TopoDS_Shape given_;
  Once<TopoDS_Shape> made_;
};

/// A Solid of square work.
[[nodiscard]] Solid squareSolid(SquareWork work);

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
