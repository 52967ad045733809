#include <BRepBuilderAPI_MakeFace.hxx>
#include <BRepBuilderAPI_MakePolygon.hxx>
#include <BRepPrimAPI_MakeCylinder.hxx>
#include <BRepPrimAPI_MakePrism.hxx>
#include <algorithm>
#include <cmath>
#include <gp_Pln.hxx>

#include "kernel/solid.h"
#include "kernel/src/convert.h"
#include "kernel/src/guarded.h"
#include "kernel/src/outline.h"
#include "kernel/src/solid_impl.h"
#include "kernel/tolerance.h"

namespace dryfit::kernel {
namespace {

tl::unexpected<Error> badDimension(std::string what, std::string mend = {}) {
  return fail(ErrorCode::badDimension, std::move(what), {}, std::move(mend));
}

/// A length as the user would write it, for a message.
std::string shown(double mm) {
  char text[32];
  std::snprintf(text, sizeof text, "%.6g mm", mm);
  return text;
}

const char* const kWithin = "every place must be finite and within 100 m of the origin";

bool inWorkshop(Point3 p) {
  return isFinite(p) && std::fabs(p.x) <= kLargest && std::fabs(p.y) <= kLargest &&
         std::fabs(p.z) <= kLargest;
}

/// Sizes under `kContact` count as none: two faces that close are touching.
Result<void> checkSize(const char* name, double mm) {
  if (!std::isfinite(mm)) return badDimension(std::string(name) + " is not a finite number");
  if (mm < kContact) {
    return badDimension(std::string(name) + " is " + shown(mm), "it must be greater than zero");
  }
  if (mm > kLargest) {
    return badDimension(std::string(name) + " is " + shown(mm),
                        "nothing may be larger than " + shown(kLargest));
  }
  return {};
}

}  // namespace

Result<Solid> makeBox(const Box3& box) {
  if (!inWorkshop(box.min) || !inWorkshop(box.max)) {
    return badDimension("a corner of the box is out of reach", kWithin);
  }
  for (int axis = 0; axis < 3; ++axis) {
    const char* const names[] = {"the box's size along x", "the box's size along y",
                                 "the box's size along z"};
    if (auto ok = checkSize(names[axis], box.size()[axis]); !ok) {
      return tl::unexpected(ok.error());
    }
  }
  return squareSolid(arrangeBox(box));
}

Result<Solid> makePrism(const Frame& frame, std::span<const Point2> outline, Length height) {
  if (!inWorkshop(frame.origin)) return badDimension("the prism's frame is out of reach", kWithin);
  if (!isRigid(frame)) return badDimension("the prism's frame is not square in itself");
  if (auto ok = checkSize("the prism's height", height.mm()); !ok) {
    return tl::unexpected(ok.error());
  }
  auto corners = cleanOutline(outline);
  if (!corners) return tl::unexpected(corners.error());

  return guarded("making a prism", [&]() -> Result<Solid> {
    BRepBuilderAPI_MakePolygon polygon;
    for (const Point2& p : *corners) {
      const Point3 corner = frame.place({p.x, p.y, 0});
      if (!inWorkshop(corner)) return badDimension("a prism's corner is out of reach", kWithin);
      polygon.Add(toLibrary(corner));
    }
    polygon.Close();
    const BRepBuilderAPI_MakeFace base(gp_Pln(toAxes(frame)), polygon.Wire());
    const Vec3 push = frame.z * height.mm();
    return finish(BRepPrimAPI_MakePrism(base.Face(), gp_Vec(push.x, push.y, push.z)).Shape());
  });
}

Result<Solid> makeCylinder(Point3 base, Vec3 axis, Length radius, Length height) {
  if (!inWorkshop(base)) return badDimension("the cylinder's base is out of reach", kWithin);
  if (!isUnit(axis)) return badDimension("the cylinder's axis has not length 1");
  if (auto ok = checkSize("the cylinder's radius", radius.mm()); !ok) {
    return tl::unexpected(ok.error());
  }
  if (auto ok = checkSize("the cylinder's height", height.mm()); !ok) {
    return tl::unexpected(ok.error());
  }
  return guarded("making a cylinder", [&] {
    const gp_Ax2 axes(toLibrary(base), toDirection(axis), toDirection(seamSide(axis)));
    return finish(BRepPrimAPI_MakeCylinder(axes, radius.mm(), height.mm()).Solid());
  });
}

}  // namespace dryfit::kernel
