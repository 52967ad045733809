#include "kernel/src/boolean.h"

#include <BRepAlgoAPI_BooleanOperation.hxx>
#include <BRepAlgoAPI_Common.hxx>
#include <BRepAlgoAPI_Cut.hxx>
#include <BRepAlgoAPI_Fuse.hxx>
#include <BRepBuilderAPI_Copy.hxx>
#include <ShapeUpgrade_UnifySameDomain.hxx>
#include <TopExp_Explorer.hxx>
#include <TopTools_ListOfShape.hxx>
#include <cmath>
#include <sstream>
#include <utility>
#include <vector>

#include "kernel/src/guarded.h"
#include "kernel/src/solid_impl.h"
#include "kernel/src/square_measure.h"
#include "kernel/tolerance.h"

namespace dryfit::kernel {
namespace {

bool sameVolume(double a, double b) {
  return std::fabs(a - b) <= kSameVolume * std::fmax(std::fabs(a), std::fabs(b));
}

/// Whether two solids may share space, by their boxes. Boxes that only touch share none.
bool mayOverlap(const Solid& a, const Solid& b) {
  return !a.bounds().common(b.bounds()).empty();
}

int countSolids(const TopoDS_Shape& shape) {
  int count = 0;
  for (TopExp_Explorer solid(shape, TopAbs_SOLID); solid.More(); solid.Next()) ++count;
  return count;
}

/// Copies of solids' topology, over the same surfaces and curves, for the library to work on.
/// Solids are shared between threads, and the library writes to its arguments even when it is told
/// not to: it marks what it takes over as used, and merging faces sets flags and tolerances of
/// edges that a result has in common with them. One body in two places stays one in its copies.
class Copies {
 public:
  [[nodiscard]] TopoDS_Shape of(const Solid& solid) {
    const TopoDS_Shape& shape = solid.impl().shape();
    for (const auto& [given, copy] : made_) {
      if (given.IsPartner(shape)) {
        return copy.Located(shape.Location()).Oriented(shape.Orientation());
      }
    }
    BRepBuilderAPI_Copy copied(shape.Located(TopLoc_Location()), /*copyGeom=*/false,
                               /*copyMesh=*/false);
    made_.emplace_back(shape, copied.Shape());
    return copied.Shape().Located(shape.Location());
  }

 private:
  std::vector<std::pair<TopoDS_Shape, TopoDS_Shape>> made_;
};

/// One operation of `body` with all `tools`, which shares no topology with them.
Result<TopoDS_Shape> run(BRepAlgoAPI_BooleanOperation&& operation, const Solid& body,
                         std::span<const Solid> tools) {
  Copies copies;
  TopTools_ListOfShape bodies;
  bodies.Append(copies.of(body));
  TopTools_ListOfShape others;
  for (const Solid& tool : tools) others.Append(copies.of(tool));
  operation.SetArguments(bodies);
  operation.SetTools(others);
  operation.SetNonDestructive(true);
  operation.SetRunParallel(false);  // parts are built in parallel, not one cut
  operation.Build();
  if (!operation.IsDone() || operation.HasErrors() || operation.Shape().IsNull()) {
    std::ostringstream report;
    operation.DumpErrors(report);
    return fail(ErrorCode::libraryFailure,
                "the geometry library could not combine two solids (" + report.str() + ")");
  }
  return operation.Shape();
}

/// The solids in `raw` with the faces in one plane, and the edges on one line, merged.
///
/// Merging is a convenience and must not change the wood. Where the library's merge does so, gives
/// a solid that fails the check, or gives up (at two round holes that meet end to end it does), the
/// unmerged solid stands.
Result<Solid> merged(const TopoDS_Shape& raw) {
  const TopoDS_Shape plain = solidsOf(raw);
  const auto unified = guarded("merging faces", [&] {
    ShapeUpgrade_UnifySameDomain unify(plain, /*UnifyEdges=*/true, /*UnifyFaces=*/true,
                                       /*ConcatBSplines=*/false);
    unify.Build();
    return finish(unify.Shape());
  });
  const bool kept = unified && sameVolume(unified->volume(), massOf(plain).volume) &&
                    unified->topology().solids == countSolids(plain);
  return kept ? unified : finish(plain);
}

tl::unexpected<Error> nothingLeft() {
  return fail(ErrorCode::emptyResult, "no wood is left", {},
              "make the tools smaller or move them off the part");
}

/// Catches the library's silent failures: a result with less or more wood than there can be.
Result<Solid> checked(Result<Solid> result, double least, double most) {
  if (!result) return result;
  const double volume = result->volume();
  const double slack = kSameVolume * std::fmax(most, 1);
  if (volume < least - slack || volume > most + slack) {
    return fail(ErrorCode::invalidSolid,
                "the geometry library gave a solid with more or less wood than can be");
  }
  return result;
}

std::vector<Solid> touching(const Solid& body, std::span<const Solid> tools) {
  std::vector<Solid> near;
  for (const Solid& tool : tools) {
    if (mayOverlap(body, tool)) near.push_back(tool);
  }
  return near;
}

}  // namespace

Result<TopoDS_Shape> commonShape(const Solid& a, const Solid& b) {
  return run(BRepAlgoAPI_Common(), a, {&b, 1});
}

Result<Solid> cut(const Solid& body, std::span<const Solid> tools) {
  return guarded("cutting", [&]() -> Result<Solid> {
    const std::vector<Solid> near = touching(body, tools);
    if (near.empty()) return body;
    const auto raw = run(BRepAlgoAPI_Cut(), body, near);
    if (!raw) return tl::unexpected(raw.error());
    if (solidsOf(*raw).IsNull()) return nothingLeft();
    auto result = checked(merged(*raw), 0, body.volume());
    if (result && sameVolume(result->volume(), body.volume())) return body;
    return result;
  });
}

Result<Solid> fuse(const Solid& body, std::span<const Solid> tools) {
  if (tools.empty()) return body;
  return guarded("joining", [&]() -> Result<Solid> {
    const auto raw = run(BRepAlgoAPI_Fuse(), body, tools);
    if (!raw) return tl::unexpected(raw.error());
    double least = body.volume();
    double most = body.volume();
    for (const Solid& tool : tools) {
      least = std::fmax(least, tool.volume());
      most += tool.volume();
    }
    auto result = checked(merged(*raw), least, most);
    if (result && sameVolume(result->volume(), body.volume())) return body;
    return result;
  });
}

Result<Solid> common(const Solid& body, std::span<const Solid> tools) {
  return guarded("taking the shared wood", [&]() -> Result<Solid> {
    const std::vector<Solid> near = touching(body, tools);
    if (near.empty()) return nothingLeft();
    if (near.size() > 1) {
      // With several tools at once the library gives the shared wood in pieces, one for each set of
      // tools that meet there; made one first, they give it whole.
      const auto joined = fuse(near.front(), std::span(near).subspan(1));
      return joined ? common(body, {&*joined, 1}) : joined;
    }
    if (auto square = squareCommon(body.impl(), near.front().impl())) return *square;
    const auto raw = run(BRepAlgoAPI_Common(), body, near);
    if (!raw) return tl::unexpected(raw.error());
    if (solidsOf(*raw).IsNull()) return nothingLeft();
    return checked(merged(*raw), 0, body.volume());
  });
}

}  // namespace dryfit::kernel
