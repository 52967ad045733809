#include "viewer/view/part_shapes.h"

#include <BRepAdaptor_Surface.hxx>
#include <Standard_Failure.hxx>
#include <TopExp_Explorer.hxx>
#include <TopLoc_Location.hxx>
#include <TopoDS.hxx>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include "joinery/base/parallel.h"
#include "kernel/occt_bridge.h"
#include "viewer/view/grain_look.h"

namespace dryfit::viewer {
namespace {

constexpr double kSag = 0.2;        // mm between mesh and true surface
constexpr double kSagAngle = 0.35;  // radians, about 20°: dowels look round

gp_Trsf motionTo(const kernel::Frame& f) {
  gp_Trsf motion;
  motion.SetDisplacement(gp_Ax3(gp::Origin(), gp::DZ(), gp::DX()),
                         gp_Ax3(gp_Pnt(f.origin.x, f.origin.y, f.origin.z),
                                gp_Dir(f.z.x, f.z.y, f.z.z), gp_Dir(f.x.x, f.x.y, f.x.z)));
  return motion;
}

/// Plane faces that cross the grain, in the part's frame: the ends of a board, all four edges of a
/// sheet.
std::vector<TopoDS_Shape> endFaces(const TopoDS_Shape& shape, const joinery::Piece& piece,
                                   const joinery::PlacedPart& part) {
  std::vector<TopoDS_Shape> found;
  bool sheet = false;
  for (const joinery::Material& m : piece.model.materials) {
    if (m.name == piece.part(part.id).material) sheet = m.kind == joinery::MaterialKind::sheet;
  }
  for (TopExp_Explorer e(shape, TopAbs_FACE); e.More(); e.Next()) {
    const BRepAdaptor_Surface surface(TopoDS::Face(e.Current()));
    if (surface.GetType() != GeomAbs_Plane) continue;
    const gp_Dir normal = surface.Plane().Axis().Direction();
    const auto across = [&](int axis) { return std::abs(normal.Coord(axis + 1)) > 0.8; };
    if (sheet ? !across(2) : part.grain && across(indexOf(*part.grain)))
      found.push_back(e.Current());
  }
  return found;
}

/// A body and the way of its part's grain: parts that are equal in both share one mesh.
using Kind = std::pair<const void*, std::optional<joinery::PartAxis>>;

/// Meshed shapes by what they are copies of.
using Copies = std::map<Kind, TopoDS_Shape>;

/// Copies for all bodies of the fit: taken over where an earlier fit had them, else made.
Copies copiesFor(const joinery::DryFit& fit, const joinery::DryFit* earlierFit,
                 const PartShapes* earlier) {
  std::map<Kind, const PartShape*> known;
  // The earlier fit keeps its bodies alive, so that no new one can have taken the place of an old.
  if (earlierFit != nullptr && earlier != nullptr) {
    for (const PartShape& part : earlier->parts) known.emplace(Kind{part.body, part.grain}, &part);
  }
  Copies copies;
  std::vector<std::pair<std::size_t, TopoDS_Shape*>> wanted;  // by part
  for (std::size_t i = 0; i < fit.solids.size(); ++i) {
    const Kind kind{fit.solids[i].body(), fit.piece.parts[i].grain};
    const auto [entry, isNew] = copies.try_emplace(kind);
    if (!isNew) continue;
    const auto old = known.find(kind);
    if (old != known.end()) {
      entry->second = old->second->shape;
    } else {
      wanted.emplace_back(i, &entry->second);
    }
  }
  const auto done = joinery::inParallel(wanted.size(), [&](std::size_t i) -> Result<void> {
    const auto& [part, shape] = wanted[i];
    *shape = kernel::meshedShapeOf(fit.solids[part], kSag, kSagAngle);
    const joinery::PlacedPart& placed = fit.piece.parts[part];
    if (placed.grain) {
      layFigure(*shape, endFaces(*shape, fit.piece, placed), *placed.grain);
    }
    return {};
  });
  if (!done) throw Standard_Failure(done.error().what.c_str());
  return copies;
}

}  // namespace

TopoDS_Shape PartShape::placed() const {
  return shape.Moved(TopLoc_Location(place));
}

std::shared_ptr<const PartShapes> makePartShapes(const joinery::DryFit& fit,
                                                 const joinery::DryFit* earlierFit,
                                                 const PartShapes* earlier) {
  auto shapes = std::make_shared<PartShapes>();
  const Copies copies = copiesFor(fit, earlierFit, earlier);
  // Equal parts of one material with their grain one way have the same ends.
  std::map<std::pair<Kind, std::string>, std::vector<TopoDS_Shape>> ends;
  for (std::size_t i = 0; i < fit.solids.size(); ++i) {
    PartShape part;
    part.body = fit.solids[i].body();
    const joinery::PlacedPart& placed = fit.piece.parts[i];
    part.grain = placed.grain;
    const Kind kind{part.body, part.grain};
    part.shape = copies.at(kind);
    const auto [known, isNew] = ends.try_emplace({kind, fit.piece.part(placed.id).material});
    if (isNew) known->second = endFaces(part.shape, fit.piece, placed);
    part.endFaces = known->second;
    part.place = motionTo(placed.frame);
    shapes->parts.push_back(std::move(part));
  }
  return shapes;
}

}  // namespace dryfit::viewer
