#pragma once

#include <array>
#include <optional>
#include <vector>

#include "joinery/piece/over_run.h"
#include "joinery/piece/piece.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// Where one mate's face meets the other's. Stated in the frame of the first mate, the one that
/// carries the tenon, tongue or panel edge.
struct Contact {
  LocalFace face;       ///< of the first mate
  LocalFace otherFace;  ///< of the second mate, in the second mate's frame
  double plane = 0;     ///< coordinate of the first mate's face along face.axis
  kernel::Box3 area;    ///< the shared rectangle, flat along face.axis
  double gap = 0;       ///< mm from face to face along the outward direction; < 0: they overlap
  double apart = 0;     ///< mm between the faces where they come nearest, 0 where they cross
  bool square = true;   ///< the faces are parallel within kernel::kParallel
};

/// The faces by which two parts meet: nearest, or as named. Faces up to 45° out of
/// parallel are looked at too. Error: matesApart when no two faces look at each other within 50 mm.
[[nodiscard]] Result<Contact> findContact(const PlacedPart& first, const PlacedPart& second,
                                          std::optional<Face> firstFace = std::nullopt);

/// A stretch along one axis of a part, mm.
struct Stretch {
  double lo = 0, hi = 0;
  [[nodiscard]] constexpr double size() const { return hi - lo; }
  [[nodiscard]] constexpr double mid() const { return (lo + hi) / 2; }
};

/// What goes into the second mate, as a box on the first mate's face: its section across the two
/// axes of that face, and how far it stands out.
struct Insert {
  std::array<Stretch, 3> section;  ///< in the first mate's frame; the face's own axis is not read
  double reach = 0;                ///< mm out of the first mate's face
  /// Of its root, mm out of that face: below 0 where its own shoulder is set back into the part.
  /// Read on square faces only.
  double from = 0;
};

/// Which ends of a pocket run out of the second mate, by axis of the first mate: [axis][far].
struct Openings {
  std::array<std::array<bool, 2>, 3> side{};
  bool through = false;  ///< out of the face behind the one it enters by
};

/// The part's axis across the thickness of a tenon or tongue that stands on `face`: the part's
/// thickness, or its width where the face is one of its thickness.
[[nodiscard]] constexpr int thicknessAxis(LocalFace face) {
  return face.axis == 2 ? 1 : 2;
}

/// Two mates, the faces by which they meet, and the way from one frame to the other. Tenons,
/// tongues and their pockets are made here, so both halves always come from one box.
///
/// The mates may be turned against each other; both must outlive the Mating.
class Mating {
 public:
  [[nodiscard]] static Result<Mating> of(const PlacedPart& first, const PlacedPart& second,
                                         std::optional<Face> firstFace = std::nullopt);

  [[nodiscard]] const PlacedPart& first() const { return *first_; }
  [[nodiscard]] const PlacedPart& second() const { return *second_; }
  [[nodiscard]] const Contact& contact() const { return contact_; }
  [[nodiscard]] const kernel::Frame& toFirst() const { return toFirst_; }
  [[nodiscard]] const kernel::Frame& toSecond() const { return toSecond_; }

  /// Axis of the first mate across the thickness of what it carries: its thickness, or its width
  /// where it meets by a face of its thickness.
  [[nodiscard]] int thicknessAxis() const { return joinery::thicknessAxis(contact_.face); }
  /// The remaining axis of the face.
  [[nodiscard]] int alongAxis() const { return 3 - contact_.face.axis - thicknessAxis(); }
  /// The first mate's blank along one of its axes.
  [[nodiscard]] Stretch blank(int axis) const { return {0, first_->size[axis]}; }
  /// The shared rectangle along one of the first mate's axes.
  [[nodiscard]] Stretch area(int axis) const {
    return {contact_.area.min[axis], contact_.area.max[axis]};
  }
  /// Wood of the second mate behind its face, at right angles to it.
  [[nodiscard]] double depthOfSecond() const { return second_->size[contact_.otherFace.axis]; }
  /// The cosine of the angle between the faces.
  [[nodiscard]] double cosine() const;
  /// From the first mate's face outward to the second's, least and most over a section. Both are
  /// the gap where the faces are parallel.
  [[nodiscard]] Stretch reachOf(const std::array<Stretch, 3>& section) const;
  /// The second mate's axis that runs most nearly along an axis of the first.
  [[nodiscard]] int axisOfSecond(int axisOfFirst) const;

  /// The middle of the contact, in the piece.
  [[nodiscard]] kernel::Point3 middle() const;
  /// In which the first mate slides home, in the piece.
  [[nodiscard]] kernel::Vec3 homeDirection() const;

  /// What the first mate's blank needs so that its shoulder lies on a face that is not parallel:
  /// wood past the face, then a cut along it. Nothing where the faces are parallel.
  [[nodiscard]] std::vector<Feature> shoulderFit(JointId joint) const;
  /// The insert as wood added to the first mate.
  [[nodiscard]] Feature standing(JointId joint, Purpose purpose, const Insert& insert) const;
  /// The pocket: what `room` (insert and clearances) takes from the second mate.
  [[nodiscard]] Feature pocket(JointId joint, Purpose purpose, const Insert& room,
                               const Openings& openings = {}) const;
  /// Wood of a slanting through tenon that would stand out past `protrusion` behind the second
  /// mate. REQUIRES: the tenon reaches that far all round.
  [[nodiscard]] Feature trimmed(JointId joint, const Insert& insert, double protrusion) const;
  /// How far a section must reach to be out of the second mate's far side all round.
  [[nodiscard]] double throughReach(const std::array<Stretch, 3>& section) const;

 private:
  Mating(const PlacedPart& first, const PlacedPart& second, Contact contact);
  [[nodiscard]] kernel::Box3 box(const std::array<Stretch, 3>& section, double from,
                                 double to) const;
  void open(kernel::Box3& box, int axis, bool far) const;

  const PlacedPart* first_;
  const PlacedPart* second_;
  Contact contact_;
  kernel::Frame toFirst_, toSecond_;
};

}  // namespace dryfit::joinery
