#include "joinery/joints/kinds/panel_edges.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "joinery/joints/joint_numbers.h"
#include "joinery/piece/over_run.h"

namespace dryfit::joinery {

Result<PanelEdges> PanelEdges::of(const JointContext& context) {
  PanelEdges edges(context.mate(0));
  for (const auto& [part, name, grooves] : context.mates(1)) {
    const auto mating = Mating::of(edges.panel(), part);
    if (!mating) return tl::unexpected(mating.error().within(name));
    const Contact& contact = mating->contact();
    if (contact.face.axis == 2) {
      return fail(ErrorCode::matesApart, "this part does not meet an edge of the panel", name,
                  "end the panel at the part's face");
    }
    if (!contact.square) {
      return fail(ErrorCode::matesAskew, "the panel's edge is not parallel to this part's face",
                  name, "turn both together");
    }
    edges.side_[static_cast<std::size_t>(contact.face.axis)][contact.face.far ? 1 : 0] = true;
    edges.members_.push_back(*mating);
  }
  return edges;
}

double PanelEdges::leastDepth() const {
  double least = std::numeric_limits<double>::infinity();
  for (const Mating& member : members_) least = std::fmin(least, member.depthOfSecond());
  return least;
}

double PanelEdges::leastThickness() const {
  double least = std::numeric_limits<double>::infinity();
  for (const Mating& member : members_) {
    least = std::fmin(least, member.second().size[member.axisOfSecond(2)]);
  }
  return least;
}

/// What is taken off the panel along one of its sides, as wide as its field is set back there.
Feature PanelEdges::strip(JointId joint, LocalFace face, double width) const {
  kernel::Box3 waste = panel_->blank();
  if (face.far) {
    waste.min.set(face.axis, waste.max[face.axis] - width);
  } else {
    waste.max.set(face.axis, waste.min[face.axis] + width);
  }
  return {panel_->id,
          joint,
          Purpose::shoulderFit,
          Stage::shape,
          kernel::Block{overRun(waste, panel_->blank()), {}},
          waste,
          face};
}

std::vector<Feature> PanelEdges::standing(JointId joint, Stretch thickness, double reach,
                                          double setBack) const {
  std::vector<Feature> strips, edges;
  for (const Mating& member : members_) {
    const LocalFace face = member.contact().face;
    if (std::ranges::any_of(edges, [&](const Feature& f) { return f.face == face; })) continue;
    Insert edge = room(member, thickness, reach, 0);
    edge.from = -setBack;
    // The corners belong to the ends of the panel, so that no wood is added twice.
    if (face.axis == 1) {
      edge.section[0] = {side_[0][0] ? setBack : 0, panel_->size.x - (side_[0][1] ? setBack : 0)};
    }
    edges.push_back(member.standing(joint, Purpose::tongue, edge));
    if (setBack > 0) strips.push_back(strip(joint, face, setBack));
  }
  strips.insert(strips.end(), edges.begin(), edges.end());
  return strips;
}

Insert PanelEdges::room(const Mating& member, Stretch thickness, double reach, double gap) const {
  const int along = member.alongAxis();
  Insert insert;
  insert.section[2] = thickness;
  insert.section[along] = {side_[along][0] ? -reach - gap : 0,
                           panel_->size[along] + (side_[along][1] ? reach + gap : 0)};
  insert.reach = reach + gap;
  return insert;
}

PlacedJoint PanelEdges::placed(const JointContext& context) const {
  PlacedJoint joint = placedJoint(context, members_.front(), FitClass::none, 0);
  joint.mates.resize(1);
  for (const Mating& member : members_) {
    joint.mates.push_back(member.second().id);
    const double gap = member.contact().gap;
    if (std::fabs(gap) <= std::fabs(joint.gap)) continue;
    joint.gap = gap;
    joint.gapTo = member.second().id;
    joint.gapFace = member.contact().face;
  }
  joint.at = panel_->frame.place(panel_->blank().centre());
  return joint;
}

}  // namespace dryfit::joinery
