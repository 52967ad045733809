#include "joinery/joints/insert.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

using kernel::Block;
using kernel::Box3;
using kernel::Frame;
using kernel::Point3;
using kernel::Vec3;

constexpr double kFarthest = 50;  // mm between faces that may still meet

/// The four corners of a box on one of its six sides.
std::array<Point3, 4> cornersOn(const Box3& box, int axis, bool far) {
  std::array<Point3, 4> corners;
  const int u = (axis + 1) % 3;
  const int v = (axis + 2) % 3;
  for (std::size_t i = 0; i < 4; ++i) {
    corners[i].set(axis, far ? box.max[axis] : box.min[axis]);
    corners[i].set(u, (i & 1) != 0 ? box.max[u] : box.min[u]);
    corners[i].set(v, (i & 2) != 0 ? box.max[v] : box.min[v]);
  }
  return corners;
}

Box3 boxRound(const std::array<Point3, 4>& points) {
  Box3 box{points[0], points[0]};
  for (const Point3& p : points) box = box.united({p, p});
  return box;
}

/// The contact of one pair of faces, or none where they do not look at each other.
std::optional<Contact> contactOf(const PlacedPart& first, const PlacedPart& second,
                                 const Frame& toFirst, LocalFace face, LocalFace otherFace) {
  const Vec3 outward = face.outward();
  const double cosine = -outward.dot(toFirst.turn(otherFace.outward()));
  if (cosine < kernel::kFacing) return std::nullopt;
  Contact contact{face, otherFace, face.far ? first.size[face.axis] : 0, {}, 0, 0, true};
  contact.square = outward.cross(toFirst.turn(otherFace.outward())).norm() < kernel::kParallel;

  std::array<Point3, 4> corners = cornersOn(second.blank(), otherFace.axis, otherFace.far);
  for (Point3& corner : corners) corner = toFirst.place(corner);
  const Point3 onPlane = corners[0];
  contact.area = boxRound(corners).common(first.blank());
  for (int axis = 0; axis < 3; ++axis) {
    if (axis != face.axis && contact.area.size()[axis] <= kernel::kContact) return std::nullopt;
  }
  contact.area.min.set(face.axis, contact.plane);
  contact.area.max.set(face.axis, contact.plane);

  const Vec3 normal = -toFirst.turn(otherFace.outward());
  const auto reachFrom = [&](Point3 p) { return (onPlane - p).dot(normal) / cosine; };
  contact.gap = reachFrom(contact.area.centre());
  if (std::fabs(contact.gap) > kFarthest) return std::nullopt;
  // Faces that pass each other by a whole part do not meet: the parts lie side by side.
  const double least = std::fmin(first.size[face.axis], second.size[otherFace.axis]);
  if (contact.gap <= -least + kernel::kContact) return std::nullopt;
  Stretch reach{contact.gap, contact.gap};
  for (const Point3& corner : cornersOn(contact.area, face.axis, face.far)) {
    reach = {std::fmin(reach.lo, reachFrom(corner)), std::fmax(reach.hi, reachFrom(corner))};
  }
  contact.apart = std::fmax(0, std::fmax(reach.lo, -reach.hi));
  return contact;
}

double areaOf(const Contact& contact) {
  double area = 1;
  for (int axis = 0; axis < 3; ++axis) {
    if (axis != contact.face.axis) area *= contact.area.size()[axis];
  }
  return area;
}

/// Nearer faces first, by their nearest points and then by their middles, so that a leaning part
/// meets by the end that touches; of two equally near, the greater shared rectangle.
bool better(const Contact& a, const Contact& b) {
  for (const double nearer : {b.apart - a.apart, std::fabs(b.gap) - std::fabs(a.gap)}) {
    if (std::fabs(nearer) > kernel::kContact) return nearer > 0;
  }
  return areaOf(a) > areaOf(b);
}

}  // namespace

Result<Contact> findContact(const PlacedPart& first, const PlacedPart& second,
                            std::optional<Face> firstFace) {
  const Frame toFirst = first.frame.inverse().after(second.frame);
  std::optional<Contact> best;
  for (int i = 0; i < 6; ++i) {
    const LocalFace face{i / 2, i % 2 != 0};
    if (firstFace && face != first.local(*firstFace)) continue;
    for (int j = 0; j < 6; ++j) {
      const auto found = contactOf(first, second, toFirst, face, {j / 2, j % 2 != 0});
      if (found && (!best || better(*found, *best))) best = found;
    }
  }
  if (best) return *best;
  return fail(ErrorCode::matesApart, "the parts have no two faces opposite each other within 50 mm",
              {}, "end the first part at a face of the second");
}

Mating::Mating(const PlacedPart& first, const PlacedPart& second, Contact contact)
    : first_(&first),
      second_(&second),
      contact_(contact),
      toFirst_(first.frame.inverse().after(second.frame)),
      toSecond_(second.frame.inverse().after(first.frame)) {}

Result<Mating> Mating::of(const PlacedPart& first, const PlacedPart& second,
                          std::optional<Face> firstFace) {
  const auto contact = findContact(first, second, firstFace);
  if (!contact) return tl::unexpected(contact.error());
  return Mating(first, second, *contact);
}

double Mating::cosine() const {
  if (contact_.square) return 1;
  return -contact_.face.outward().dot(toFirst_.turn(contact_.otherFace.outward()));
}

Stretch Mating::reachOf(const std::array<Stretch, 3>& section) const {
  if (contact_.square) return {contact_.gap, contact_.gap};
  const Vec3 normal = -toFirst_.turn(contact_.otherFace.outward());
  Point3 onPlane;
  if (contact_.otherFace.far) {
    onPlane.set(contact_.otherFace.axis, second_->size[contact_.otherFace.axis]);
  }
  onPlane = toFirst_.place(onPlane);
  Stretch reach{std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};
  for (const Point3& corner :
       cornersOn(box(section, 0, 0), contact_.face.axis, contact_.face.far)) {
    const double here = (onPlane - corner).dot(normal) / cosine();
    reach = {std::fmin(reach.lo, here), std::fmax(reach.hi, here)};
  }
  return reach;
}

int Mating::axisOfSecond(int axisOfFirst) const {
  Vec3 unit;
  unit.set(axisOfFirst, 1);
  const Vec3 along = toSecond_.turn(unit);
  int best = 0;
  for (int axis = 1; axis < 3; ++axis) {
    if (std::fabs(along[axis]) > std::fabs(along[best])) best = axis;
  }
  return best;
}

Point3 Mating::middle() const {
  return first_->frame.place(contact_.area.centre() + contact_.face.outward() * (contact_.gap / 2));
}

Vec3 Mating::homeDirection() const {
  return first_->frame.turn(contact_.face.outward());
}

Box3 Mating::box(const std::array<Stretch, 3>& section, double from, double to) const {
  Box3 made;
  for (int axis = 0; axis < 3; ++axis) {
    made.min.set(axis, section[axis].lo);
    made.max.set(axis, section[axis].hi);
  }
  const int axis = contact_.face.axis;
  const int sign = contact_.face.sign();
  made.min.set(axis, contact_.plane + (sign > 0 ? from : -to));
  made.max.set(axis, contact_.plane + (sign > 0 ? to : -from));
  return made;
}

std::vector<Feature> Mating::shoulderFit(JointId joint) const {
  if (contact_.square) return {};
  const std::array<Stretch, 3> section{blank(0), blank(1), blank(2)};
  const Stretch reach = reachOf(section);
  std::vector<Feature> features;
  const double beyond = std::fmax(reach.hi, 0);
  if (reach.hi > 0) {
    features.push_back({first_->id, joint, Purpose::shoulderFit, Stage::extend,
                        Block{box(section, 0, reach.hi + kOverRun), {}}, box(section, 0, reach.hi),
                        contact_.face});
  }
  const Box3 end = box(section, std::fmin(reach.lo, 0), beyond);
  Box3 waste =
      boundsOf(toSecond_, box(section, std::fmin(reach.lo, 0), beyond + kOverRun)).grown(kOverRun);
  const LocalFace other = contact_.otherFace;
  if (other.far) {
    waste.max.set(other.axis, second_->size[other.axis]);
  } else {
    waste.min.set(other.axis, 0);
  }
  features.push_back({first_->id, joint, Purpose::shoulderFit, Stage::shape,
                      placed(Block{waste, {}}, toFirst_), boundsOf(toFirst_, waste).common(end),
                      contact_.face});
  return features;
}

Feature Mating::standing(JointId joint, Purpose purpose, const Insert& insert) const {
  // On a slanting shoulder the root starts inside the wood, so that no gap opens at its high side.
  const double root =
      contact_.square ? insert.from : std::fmin(reachOf(insert.section).lo, 0) - kOverRun;
  const double shoulder = contact_.square ? insert.from : reachOf(insert.section).lo;
  return {first_->id,
          joint,
          purpose,
          Stage::insert,
          Block{box(insert.section, root, insert.reach), {}},
          box(insert.section, shoulder, insert.reach),
          contact_.face};
}

double Mating::throughReach(const std::array<Stretch, 3>& section) const {
  return reachOf(section).hi + depthOfSecond() / cosine();
}

void Mating::open(Box3& made, int axis, bool far) const {
  Vec3 outward;
  outward.set(axis, far ? 1 : -1);
  outward = toSecond_.turn(outward);
  const int across = axisOfSecond(axis);
  double needed = 0;
  for (const Point3& corner : cornersOn(made, axis, far)) {
    const double at = toSecond_.place(corner)[across];
    const double left = outward[across] > 0 ? second_->size[across] - at : at;
    needed = std::fmax(needed, left / std::fabs(outward[across]));
  }
  needed += kOverRun;
  if (far) {
    made.max.set(axis, made.max[axis] + needed);
  } else {
    made.min.set(axis, made.min[axis] - needed);
  }
}

Feature Mating::pocket(JointId joint, Purpose purpose, const Insert& room,
                       const Openings& openings) const {
  const Stretch entry = reachOf(room.section);
  const double end = openings.through ? throughReach(room.section) : room.reach;
  const Box3 finished = box(room.section, entry.lo, std::fmax(end, entry.lo));
  // What does not reach the mate cuts the air before it: a gap to be told of, no tool inside out.
  const double toolEnd = openings.through ? std::fmax(end, room.reach) + kOverRun
                         : end > entry.lo ? end
                                          : entry.lo - kOverRun / 2;
  Box3 tool = box(room.section, entry.lo - kOverRun, toolEnd);
  Box3 extent = finished;
  for (int axis = 0; axis < 3; ++axis) {
    for (const bool far : {false, true}) {
      if (axis == contact_.face.axis || !openings.side[axis][far ? 1 : 0]) continue;
      open(tool, axis, far);
      open(extent, axis, far);
    }
  }
  Feature feature{second_->id,
                  joint,
                  purpose,
                  Stage::cut,
                  placed(Block{tool, {}}, toSecond_),
                  boundsOf(placed(Block{extent, {}}, toSecond_)).common(second_->blank()),
                  contact_.otherFace,
                  openings.through};
  Block& block = std::get<Block>(feature.tool);
  if (block.frame == Frame{}) block.box = overRun(block.box, second_->blank());
  return feature;
}

Feature Mating::trimmed(JointId joint, const Insert& insert, double protrusion) const {
  const Box3 tenon = box(insert.section, reachOf(insert.section).lo, insert.reach + kOverRun);
  Box3 waste = boundsOf(toSecond_, tenon).grown(kOverRun);
  const LocalFace other = contact_.otherFace;
  if (other.far) {
    waste.max.set(other.axis, -protrusion);
  } else {
    waste.min.set(other.axis, second_->size[other.axis] + protrusion);
  }
  return {first_->id,
          joint,
          Purpose::shoulderFit,
          Stage::cut,
          placed(Block{waste, {}}, toFirst_),
          boundsOf(toFirst_, waste).common(tenon),
          contact_.face};
}

}  // namespace dryfit::joinery
