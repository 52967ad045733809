#include "kernel/hidden_lines.h"

#include <BRepAdaptor_Curve.hxx>
#include <BRepBuilderAPI_Copy.hxx>
#include <BRepLib.hxx>
#include <GCPnts_QuasiUniformDeflection.hxx>
#include <HLRAlgo_Projector.hxx>
#include <HLRBRep_Algo.hxx>
#include <HLRBRep_HLRToShape.hxx>
#include <TopExp_Explorer.hxx>
#include <TopoDS.hxx>
#include <algorithm>
#include <cmath>
#include <gp_Circ.hxx>
#include <gp_Elips.hxx>
#include <numbers>
#include <optional>
#include <utility>

#include "kernel/src/convert.h"
#include "kernel/src/guarded.h"
#include "kernel/src/solid_impl.h"
#include "kernel/src/view_lines.h"
#include "kernel/tolerance.h"

namespace dryfit::kernel {
namespace {

/// The parameter between `from` and `to` where `value`, which has one peak there, is greatest.
template <class Value>
double peakOf(Value value, double from, double to) {
  const double golden = (std::sqrt(5.0) - 1) / 2;
  for (int i = 0; i < 80; ++i) {
    const double a = to - golden * (to - from);
    const double b = from + golden * (to - from);
    if (value(a) > value(b)) {
      to = b;
    } else {
      from = a;
    }
  }
  return (from + to) / 2;
}

/// The two ends of a curve that keeps to one straight line, as a circle seen edge-on does; it may
/// run to and fro on it, so its ends need not be the ends of its parameter.
template <class Curve>
std::optional<std::pair<Point2, Point2>> straightExtent(Curve at, double from, double to) {
  constexpr int steps = 64;
  const Point2 first = at(from);
  Point2 farthest = first;
  const auto away = [&](Point2 p) { return std::hypot(p.x - first.x, p.y - first.y); };
  for (int i = 1; i <= steps; ++i) {
    const Point2 p = at(from + (to - from) * i / steps);
    if (away(p) > away(farthest)) farthest = p;
  }
  const double length = away(farthest);
  if (length <= kContact) return std::nullopt;
  const Point2 along{(farthest.x - first.x) / length, (farthest.y - first.y) / length};
  const auto place = [&](double u) {
    const Point2 p = at(u);
    return (p.x - first.x) * along.x + (p.y - first.y) * along.y;
  };
  int least = 0;
  int most = 0;
  const auto step = [&](int i) { return from + (to - from) * std::clamp(i, 0, steps) / steps; };
  for (int i = 0; i <= steps; ++i) {
    const Point2 p = at(step(i));
    const double off = (p.y - first.y) * along.x - (p.x - first.x) * along.y;
    if (std::fabs(off) > kContact / 10) return std::nullopt;
    if (place(step(i)) < place(step(least))) least = i;
    if (place(step(i)) > place(step(most))) most = i;
  }
  const auto back = [&](double u) { return -place(u); };
  return std::pair(at(peakOf(back, step(least - 1), step(least + 1))),
                   at(peakOf(place, step(most - 1), step(most + 1))));
}

/// Reads the edges of a projected compound into the raw view, shifted by `offset`.
class Reader {
 public:
  Reader(RawView& view, Point2 offset) : view_(view), offset_(offset) {}

  void read(const TopoDS_Shape& compound, bool visible) {
    if (compound.IsNull()) return;  // no line of this class
    // The projection gives curves on a plane only; without this an edge has no curve to look at.
    BRepLib::BuildCurves3d(compound);
    for (TopExp_Explorer edge(compound, TopAbs_EDGE); edge.More(); edge.Next()) {
      read(BRepAdaptor_Curve(TopoDS::Edge(edge.Current())), visible);
    }
  }

 private:
  void read(const BRepAdaptor_Curve& curve, bool visible) {
    const double from = curve.FirstParameter();
    const double to = curve.LastParameter();
    switch (curve.GetType()) {
      case GeomAbs_Line:
        view_.segments.push_back({flat(curve.Value(from)), flat(curve.Value(to)), visible});
        return;
      case GeomAbs_Circle: {
        const gp_Circ c = curve.Circle();
        addArc(c.Position(), c.Radius(), c.Radius(), from, to, visible);
        return;
      }
      case GeomAbs_Ellipse: {
        const gp_Elips e = curve.Ellipse();
        addArc(e.Position(), e.MajorRadius(), e.MinorRadius(), from, to, visible);
        return;
      }
      default:
        addSampled(curve, visible);
    }
  }

  void addArc(const gp_Ax2& axes, double major, double minor, double from, double to,
              bool visible) {
    Arc arc{flat(axes.Location()), major, minor, 0, from, to, visible};
    const double direction = std::atan2(axes.XDirection().Y(), axes.XDirection().X());
    if (axes.Direction().Z() < 0) {  // clockwise on the paper
      arc.from = -to;
      arc.to = -from;
    }
    if (major - minor <= kContact) {
      // A circle has no tilt; its angles count from the x axis.
      arc.from += direction;
      arc.to += direction;
    } else {
      arc.tilt = direction;
      const auto half = [&](double turn) {
        arc.tilt += turn;
        arc.from += std::numbers::pi;
        arc.to += std::numbers::pi;
      };
      if (arc.tilt < 0) half(std::numbers::pi);
      if (arc.tilt >= std::numbers::pi) half(-std::numbers::pi);
    }
    if (minor > kContact) {
      view_.arcs.push_back(arc);
    } else {
      addEdgeOn(arc);
    }
  }

  /// A circle seen edge-on is a straight stretch.
  void addEdgeOn(const Arc& arc) {
    double least = std::min(std::cos(arc.from), std::cos(arc.to));
    double most = std::max(std::cos(arc.from), std::cos(arc.to));
    for (double k = std::ceil(arc.from / std::numbers::pi); k * std::numbers::pi <= arc.to; ++k) {
      const double turning = std::fmod(k, 2) == 0 ? 1 : -1;
      least = std::min(least, turning);
      most = std::max(most, turning);
    }
    view_.segments.push_back({arc.at(std::acos(least)), arc.at(std::acos(most)), arc.visible});
  }

  void addSampled(const BRepAdaptor_Curve& curve, bool visible) {
    const auto at = [&](double u) { return flat(curve.Value(u)); };
    const double from = curve.FirstParameter();
    const double to = curve.LastParameter();
    if (const auto straight = straightExtent(at, from, to)) {
      view_.segments.push_back({straight->first, straight->second, visible});
      return;
    }
    // The sampler keeps the middle of each chord within its limit; half leaves room for the rest.
    const GCPnts_QuasiUniformDeflection samples(curve, kChordError / 2);
    Sampled sampled{{}, visible};
    for (int i = 1; samples.IsDone() && i <= samples.NbPoints(); ++i) {
      sampled.points.push_back(flat(samples.Value(i)));
    }
    if (sampled.points.size() < 2) sampled.points = {at(from), at(to)};
    view_.others.push_back(std::move(sampled));
  }

  [[nodiscard]] Point2 flat(const gp_Pnt& p) const {
    return {p.X() + offset_.x, p.Y() + offset_.y};
  }

  RawView& view_;
  Point2 offset_;
};

bool isGood(const Viewpoint& view) {
  return std::fabs(view.right.norm() - 1) < kUnit && std::fabs(view.up.norm() - 1) < kUnit &&
         std::fabs(view.right.dot(view.up)) < kUnit;
}

}  // namespace

Result<std::vector<ViewLine>> hiddenLines(std::span<const Solid> solids, const Viewpoint& view) {
  if (!isGood(view)) {
    return fail(ErrorCode::badDimension, "the view's right and up are not of length 1 and square");
  }
  if (solids.empty()) return std::vector<ViewLine>{};
  return guarded("projecting a view", [&]() -> Result<std::vector<ViewLine>> {
    Box3 bounds = solids.front().bounds();
    for (const Solid& solid : solids) bounds = bounds.united(solid.bounds());
    // The library's tolerances grow with the distance from the projection's origin.
    const Point3 centre = bounds.centre();
    const Vec3 toEye = view.right.cross(view.up);
    const gp_Ax2 axes(toLibrary(centre), toDirection(toEye), toDirection(view.right));

    const Handle(HLRBRep_Algo) algorithm = new HLRBRep_Algo();
    for (const Solid& solid : solids) {
      // Solids are shared between threads, and the library does not promise to leave the topology
      // it is given alone, so it gets a copy of that (the surfaces and curves stay shared). What
      // else its views share are counters that it never reads.
      algorithm->Add(
          BRepBuilderAPI_Copy(solid.impl().shape(), /*copyGeom=*/false, /*copyMesh=*/false)
              .Shape());
    }
    algorithm->Projector(HLRAlgo_Projector(axes));
    algorithm->Update();
    algorithm->Hide();

    HLRBRep_HLRToShape found(algorithm);
    const Vec3 from = centre - Point3{};
    RawView raw;
    Reader reader(raw, {from.dot(view.right), from.dot(view.up)});
    reader.read(found.VCompound(), true);
    reader.read(found.OutLineVCompound(), true);
    reader.read(found.HCompound(), false);
    reader.read(found.OutLineHCompound(), false);
    return cleaned(raw);
  });
}

}  // namespace dryfit::kernel
