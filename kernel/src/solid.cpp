#include "kernel/solid.h"

#include <BRepBuilderAPI_Copy.hxx>
#include <BRepCheck_Analyzer.hxx>
#include <BRep_Builder.hxx>
#include <BRep_Tool.hxx>
#include <Message.hxx>
#include <Message_Messenger.hxx>
#include <TopExp.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_IndexedMapOfShape.hxx>
#include <TopoDS_Compound.hxx>
#include <mutex>
#include <utility>

#include "kernel/src/convert.h"
#include "kernel/src/guarded.h"
#include "kernel/src/solid_impl.h"
#include "kernel/src/square_brep.h"
#include "kernel/src/square_measure.h"
#include "kernel/src/square_turn.h"

namespace dryfit::kernel {

void quietLibrary() {
  static std::once_flag once;
  std::call_once(once, [] { Message::DefaultMessenger()->ChangePrinters().Clear(); });
}

Solid::Solid(std::shared_ptr<const Impl> impl) : impl_(std::move(impl)) {}

double Solid::volume() const {
  return impl_->mass.volume;
}

Point3 Solid::centroid() const {
  return impl_->mass.centroid;
}

double Solid::area() const {
  if (impl_->square) return impl_->square->work.area;
  return impl_->area->get([&] { return areaOf(impl_->shape()); });
}

Box3 Solid::bounds() const {
  return impl_->bounds.get([&] {
    if (impl_->square) return boundsOf(impl_->square->work, impl_->frame);
    const auto tight =
        guarded("measuring a box", [&]() -> Result<Box3> { return boundsOf(impl_->shape()); });
    return tight.value_or(impl_->around);
  });
}

const void* Solid::body() const {
  if (impl_->square) return impl_->square.get();
  return impl_->shape().TShape().get();
}

bool Solid::isSameAs(const Solid& other) const {
  if (impl_ == other.impl_) return true;
  if (body() != other.body()) return false;
  if (impl_->square) return impl_->frame == other.impl_->frame;
  const gp_Trsf mine = impl_->place().Transformation();
  const gp_Trsf theirs = other.impl_->place().Transformation();
  for (int row = 1; row <= 3; ++row) {
    for (int column = 1; column <= 4; ++column) {
      if (mine.Value(row, column) != theirs.Value(row, column)) return false;
    }
  }
  return true;
}

Topology Solid::topology() const {
  if (impl_->square) return impl_->square->work.topology();
  const auto count = [&](TopAbs_ShapeEnum kind) {
    TopTools_IndexedMapOfShape found;
    TopExp::MapShapes(impl_->shape(), kind, found);
    return found.Extent();
  };
  return {count(TopAbs_SOLID), count(TopAbs_SHELL), count(TopAbs_FACE), count(TopAbs_EDGE),
          count(TopAbs_VERTEX)};
}

Solid Solid::placed(const Frame& frame) const {
  if (frame == Frame{}) return *this;
  if (impl_->square) {
    return Solid(std::make_shared<Impl>(impl_->square, snapped(frame.after(impl_->frame))));
  }
  auto moved = std::make_shared<Impl>(impl_->shape().Moved(TopLoc_Location(toMotion(frame))),
                                      Mass{impl_->mass.volume, frame.place(impl_->mass.centroid)});
  moved->area = impl_->area;
  moved->around = boundsOf(frame, impl_->around);
  return Solid(std::move(moved));
}

TopLoc_Location Solid::Impl::place() const {
  if (!square) return given_.Location();
  return frame == Frame{} ? TopLoc_Location() : TopLoc_Location(toMotion(frame));
}

TopoDS_Shape Solid::Impl::makeShape() const {
  return square->shape.get([&] { return squareShape(square->work); }).Moved(place());
}

Solid squareSolid(SquareWork work) {
  auto body = std::make_shared<const SquareBody>(std::move(work));
  return Solid(std::make_shared<const Solid::Impl>(std::move(body), Frame{}));
}

namespace {

/// Everything that a solid is asked later is measured now, where a failure has somewhere to go.
Solid measured(const TopoDS_Shape& shape) {
  auto impl = std::make_shared<Solid::Impl>(shape, massOf(shape));
  impl->around = impl->bounds.get([&] { return boundsOf(shape); });
  impl->area->get([&] { return areaOf(shape); });
  return Solid(std::move(impl));
}

}  // namespace

TopoDS_Shape solidsOf(const TopoDS_Shape& shape) {
  if (shape.IsNull()) return {};
  TopTools_IndexedMapOfShape solids;
  TopExp::MapShapes(shape, TopAbs_SOLID, solids);
  if (solids.IsEmpty()) return {};
  if (solids.Extent() == 1) return solids(1);
  TopoDS_Compound flat;
  BRep_Builder builder;
  builder.MakeCompound(flat);
  for (int i = 1; i <= solids.Extent(); ++i) builder.Add(flat, solids(i));
  return flat;
}

namespace {

Result<void> invalid(const char* why) {
  return fail(ErrorCode::invalidSolid,
              std::string("the geometry library gave a solid that ") + why);
}

}  // namespace

Result<void> checkShape(const TopoDS_Shape& shape) {
  if (shape.IsNull()) return invalid("is empty");
  int lumps = 0;
  for (TopExp_Explorer solid(shape, TopAbs_SOLID); solid.More(); solid.Next(), ++lumps) {
    int shells = 0;
    for (TopExp_Explorer shell(solid.Current(), TopAbs_SHELL); shell.More(); shell.Next()) {
      if (!BRep_Tool::IsClosed(shell.Current())) return invalid("is not closed");
      ++shells;
    }
    if (shells == 0) return invalid("has no faces");
    // Lump by lump, for an inside-out lump could hide behind the volume of the others.
    if (!(massOf(solid.Current()).volume > 0)) return invalid("is inside out or has no volume");
  }
  if (lumps == 0) return invalid("is empty");
  if (!BRepCheck_Analyzer(shape).IsValid()) return invalid("fails the library's own check");
  return {};
}

Result<void> validate(const Solid& solid) {
  return guarded("checking a solid", [&] {
    const TopoDS_Shape& shape = solid.impl().shape();
    if (shape.IsNull()) return checkShape(shape);
    // The library's check marks what it looks at as used, and solids are shared between threads.
    return checkShape(BRepBuilderAPI_Copy(shape, /*copyGeom=*/false, /*copyMesh=*/false).Shape());
  });
}

Result<Solid> finish(const TopoDS_Shape& shape) {
  const TopoDS_Shape solids = solidsOf(shape);
  if (solids.IsNull()) return fail(ErrorCode::emptyResult, "nothing is left");
  if (auto ok = checkShape(solids); !ok) return tl::unexpected(ok.error());
  return measured(solids);
}

}  // namespace dryfit::kernel
