#pragma once

#include <array>
#include <vector>

#include "joinery/joints/insert.h"
#include "joinery/joints/joint_kind.h"

namespace dryfit::joinery {

/// A panel (role 0) with members (role 1) along some of its edges: what stands out beyond its sight
/// size, corners included, and the cut each member needs for it. The context must outlive it.
class PanelEdges {
 public:
  /// Errors: matesApart, matesAskew when a member does not meet an edge of the panel, or not
  /// squarely.
  [[nodiscard]] static Result<PanelEdges> of(const JointContext& context);

  [[nodiscard]] const PlacedPart& panel() const { return *panel_; }
  [[nodiscard]] const std::vector<Mating>& members() const { return members_; }
  /// The least wood of any member behind its edge, and across the panel's thickness.
  [[nodiscard]] double leastDepth() const;
  [[nodiscard]] double leastThickness() const;

  /// The edges as wood added to the panel, `reach` mm out on every side that has a member. With a
  /// `setBack` the panel's field ends that much short of each member, and only the edges go on.
  [[nodiscard]] std::vector<Feature> standing(JointId joint, Stretch thickness, double reach,
                                              double setBack = 0) const;
  /// What a member gives way to: the edge along it, with `gap` beyond it and at its ends.
  [[nodiscard]] Insert room(const Mating& member, Stretch thickness, double reach,
                            double gap) const;
  /// True where the panel lies between two members, so that both of its edges are held.
  [[nodiscard]] bool liesBetween() const {
    return (side_[0][0] && side_[0][1]) || (side_[1][0] && side_[1][1]);
  }
  /// Numbers that follow from where the parts lie: all mates, the worst gap, the middle.
  [[nodiscard]] PlacedJoint placed(const JointContext& context) const;

 private:
  explicit PanelEdges(const PlacedPart& panel) : panel_(&panel) {}
  [[nodiscard]] Feature strip(JointId joint, LocalFace face, double width) const;

  const PlacedPart* panel_;
  std::vector<Mating> members_;
  std::array<std::array<bool, 2>, 2> side_{};  ///< has a member: [axis][far]
};

}  // namespace dryfit::joinery
