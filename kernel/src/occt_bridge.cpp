#include "kernel/occt_bridge.h"

#include "kernel/src/guarded.h"
#include "kernel/src/solid_impl.h"

namespace dryfit::kernel {

const TopoDS_Shape& shapeOf(const Solid& solid) {
  return solid.impl().shape();
}

Result<Solid> solidFrom(const TopoDS_Shape& shape) {
  return guarded("taking over a shape", [&]() -> Result<Solid> {
    auto solid = finish(shape);
    if (!solid && solid.error().code == ErrorCode::emptyResult) {
      return fail(ErrorCode::invalidSolid, "the shape has no solid in it");
    }
    return solid;
  });
}

}  // namespace dryfit::kernel
