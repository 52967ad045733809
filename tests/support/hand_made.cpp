#include "tests/support/hand_made.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "joinery/checks/checks.h"
#include "joinery/fit/dry_fit.h"

namespace dryfit::test {

using joinery::Axis;
using joinery::Face;
using joinery::Feature;
using joinery::JointId;
using joinery::PartId;
using joinery::Purpose;
using joinery::Stage;
using kernel::Box3;
using kernel::Vec3;

namespace {

Vec3 unitAlong(Axis axis) {
  Vec3 v;
  v.set(static_cast<int>(axis), 1);
  return v;
}

}  // namespace

HandMade::HandMade() {
  piece.model.name = "Hand-made";
  piece.model.materials.push_back(
      {"oak", joinery::MaterialKind::solid, "white oak", {"20", true}, {}, {}});
  piece.model.materials.push_back(
      {"ply", joinery::MaterialKind::sheet, "birch plywood", {"18", true}, {}, {}});
}

PartId HandMade::part(const std::string& name, Box3 box, Axis length, Axis width,
                      const std::string& material) {
  joinery::PlacedPart placed;
  placed.id = PartId(piece.parts.size());
  const Axis thickness = static_cast<Axis>(3 - static_cast<int>(length) - static_cast<int>(width));
  placed.along = {length, width, thickness};
  placed.frame.x = unitAlong(length);
  placed.frame.y = unitAlong(width);
  placed.frame.z = placed.frame.x.cross(placed.frame.y);
  placed.frame.origin = box.min;
  if (placed.frame.z[static_cast<int>(thickness)] < 0) {
    placed.frame.origin.set(static_cast<int>(thickness), box.max[static_cast<int>(thickness)]);
  }
  placed.closed = placed.frame;
  for (int i = 0; i < 3; ++i) placed.size.set(i, box.size()[static_cast<int>(placed.along[i])]);
  placed.asked = placed.size;
  placed.span = box;
  piece.parts.push_back(placed);
  joinery::Part part;
  part.name = name;
  part.material = material;
  piece.model.parts.push_back(part);
  return placed.id;
}

JointId HandMade::joint(const std::string& name, std::vector<PartId> mates) {
  joinery::PlacedJoint placed;
  placed.id = JointId(piece.joints.size());
  placed.mates = std::move(mates);
  placed.gapTo = placed.mates.back();
  piece.joints.push_back(placed);
  joinery::Joint joint;
  joint.name = name;
  joint.kind = "hand-made";
  piece.model.joints.push_back(joint);
  return placed.id;
}

Feature HandMade::feature(JointId joint, PartId part, Purpose purpose, Stage stage, Box3 box,
                          Face face) const {
  const joinery::PlacedPart& placed = piece.parts[part.index()];
  Feature f;
  f.part = part;
  f.joint = joint;
  f.purpose = purpose;
  f.stage = stage;
  f.face = placed.local(face);
  f.extent = kernel::boundsOf(placed.frame.inverse(), box);
  f.tool = kernel::Block{f.extent, {}};
  return f;
}

void HandMade::add(Feature f) {
  std::vector<Feature>& features = piece.parts[f.part.index()].features;
  features.insert(std::ranges::upper_bound(features, f.joint, {}, &Feature::joint), std::move(f));
}

void HandMade::insert(JointId joint, PartId part, Purpose purpose, Box3 box, Face face) {
  add(feature(joint, part, purpose, Stage::insert, box, face));
}

void HandMade::cut(JointId joint, PartId part, Purpose purpose, Box3 box, Face face, bool through) {
  Feature f = feature(joint, part, purpose, Stage::cut, box, face);
  f.through = through;
  Box3 tool = f.extent;
  if (f.face.far) {
    tool.max.set(f.face.axis, tool.max[f.face.axis] + 1);
  } else {
    tool.min.set(f.face.axis, tool.min[f.face.axis] - 1);
  }
  f.tool = kernel::Block{tool, {}};
  add(std::move(f));
}

void HandMade::bore(JointId joint, PartId part, Box3 box, Face face) {
  Feature f = feature(joint, part, Purpose::dowelHole, Stage::cut, box, face);
  const int axis = f.face.axis;
  kernel::Cylinder hole;
  hole.base = f.extent.centre();
  hole.base.set(axis, f.extent.min[axis] - (f.face.far ? 0 : 1));
  hole.axis = joinery::LocalFace{axis, true}.outward();
  hole.radius = f.extent.size()[(axis + 1) % 3] / 2;
  hole.height = f.extent.size()[axis] + 1;
  f.tool = hole;
  add(std::move(f));
}

JointId HandMade::mortiseAndTenon(const std::string& name, PartId rail, PartId stile, Box3 box,
                                  Face railEnd, double bottom, double play) {
  const JointId id = joint(name, {rail, stile});
  Box3 tenon = box;
  const int along = static_cast<int>(axisOf(railEnd));
  if (isFarFace(railEnd)) {
    tenon.max.set(along, tenon.max[along] - bottom);
  } else {
    tenon.min.set(along, tenon.min[along] + bottom);
  }
  const int u = (along + 1) % 3;
  const int v = (along + 2) % 3;
  const int thin = box.size()[u] <= box.size()[v] ? u : v;
  tenon.min.set(thin, tenon.min[thin] + play / 2);
  tenon.max.set(thin, tenon.max[thin] - play / 2);
  insert(id, rail, Purpose::tenon, tenon, railEnd);
  cut(id, stile, Purpose::mortise, box, joinery::faceOf(axisOf(railEnd), !isFarFace(railEnd)));
  joinery::PlacedJoint& placed = piece.joints[id.index()];
  placed.at = box.centre();
  placed.fit = play;
  placed.fitMin = 0.05;
  placed.fitMax = 0.15;
  placed.fitSource = "a fit chosen for the test";
  return id;
}

void HandMade::turnAll(kernel::Point3 at, Vec3 about, Angle angle) {
  const kernel::Frame turn = kernel::Frame::rotation(at, about, angle);
  for (joinery::PlacedPart& part : piece.parts) {
    part.frame = turn.after(part.frame);
    part.closed = part.frame;
  }
  for (joinery::PlacedJoint& joint : piece.joints) joint.at = turn.place(joint.at);
}

int count(const std::vector<joinery::Finding>& findings, joinery::FindingKind kind) {
  return static_cast<int>(
      std::count_if(findings.begin(), findings.end(),
                    [&](const joinery::Finding& finding) { return finding.kind == kind; }));
}

std::vector<joinery::Finding> findingsOf(const joinery::Piece& piece, const std::string& check) {
  const auto solids = joinery::buildSolids(piece);
  if (!solids) {
    ADD_FAILURE() << solids.error().line();
    return {};
  }
  std::vector<joinery::Finding> findings;
  for (const joinery::CheckRow& row : joinery::checks()) {
    if (row.name != check) continue;
    const auto ran = row.run({piece, *solids}, findings);
    if (!ran) ADD_FAILURE() << ran.error().line();
    return findings;
  }
  ADD_FAILURE() << "no check is called " << check;
  return findings;
}

}  // namespace dryfit::test
