#pragma once

#include <string>
#include <vector>

#include "joinery/piece/finding.h"
#include "joinery/piece/piece.h"

namespace dryfit::test {

/// A piece put together by hand, number by number, so that a check can be held against closed
/// forms without the rules, the joint kinds and the model file between them. All boxes are in the
/// axes of the piece.
class HandMade {
 public:
  HandMade();

  /// A part that fills `box`; its grain runs along `length`. Material "oak" is solid timber,
  /// "ply" sheet goods.
  joinery::PartId part(const std::string& name, kernel::Box3 box, joinery::Axis length,
                       joinery::Axis width, const std::string& material = "oak");
  /// A joint of well-fitting faces, glued, with nothing cut yet.
  joinery::JointId joint(const std::string& name, std::vector<joinery::PartId> mates);
  /// Wood left standing on `part` beyond `face`.
  void insert(joinery::JointId joint, joinery::PartId part, joinery::Purpose purpose,
              kernel::Box3 box, joinery::Face face);
  /// Wood taken out of `part`, entering by `face`; the tool over-runs that face by 1 mm.
  void cut(joinery::JointId joint, joinery::PartId part, joinery::Purpose purpose, kernel::Box3 box,
           joinery::Face face, bool through = false);
  /// A round hole of the box's size across, entering by `face`.
  void bore(joinery::JointId joint, joinery::PartId part, kernel::Box3 box, joinery::Face face);
  /// A tenon that fills `box` but for its clearances and the mortise that is `box`. The tenon is
  /// `bottom` shorter and `play` thinner than its mortise. Returns the joint.
  joinery::JointId mortiseAndTenon(const std::string& name, joinery::PartId rail,
                                   joinery::PartId stile, kernel::Box3 box, joinery::Face railEnd,
                                   double bottom = 2, double play = 0.1);
  /// Turns all parts about an axis through a point.
  void turnAll(kernel::Point3 at, kernel::Vec3 about, Angle angle);

  joinery::Piece piece;

 private:
  joinery::Feature feature(joinery::JointId joint, joinery::PartId part, joinery::Purpose purpose,
                           joinery::Stage stage, kernel::Box3 box, joinery::Face face) const;
  void add(joinery::Feature feature);
};

/// How many findings of one kind there are.
[[nodiscard]] int count(const std::vector<joinery::Finding>& findings, joinery::FindingKind kind);

/// The findings of one check by its name in the table, with solids built for it. Fails the test on
/// an error.
[[nodiscard]] std::vector<joinery::Finding> findingsOf(const joinery::Piece& piece,
                                                       const std::string& check);

}  // namespace dryfit::test
