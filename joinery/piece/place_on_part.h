#pragma once

#include <optional>
#include <string>
#include <vector>

#include "joinery/piece/part_face.h"
#include "joinery/piece/piece.h"

namespace dryfit::joinery {

/// What of a part is pointed at: a face, an edge where two faces meet, or a corner.
enum class PlaceKind { face, edge, corner };

/// A face, an edge or a corner of a part from shoulder to shoulder, by the faces that expressions
/// can name: one of them, two that meet, or three.
struct PlaceOnPart {
  PartId part;
  std::vector<Face> faces;  ///< by axis, x before y before z
  friend bool operator==(const PlaceOnPart&, const PlaceOnPart&) = default;

  [[nodiscard]] PlaceKind kind() const {
    return faces.size() == 1   ? PlaceKind::face
           : faces.size() == 2 ? PlaceKind::edge
                               : PlaceKind::corner;
  }
};

/// "left_side.right", as expressions name it; of an edge or corner its faces joined by " + ".
[[nodiscard]] std::string writtenName(const Piece& piece, const PlaceOnPart& place);
/// The faces among places; edges and corners are left out.
[[nodiscard]] std::vector<PartFace> facesOf(const std::vector<PlaceOnPart>& places);
/// "Left side, right face"; "shelf 2, front top edge".
[[nodiscard]] std::string wordsFor(const Piece& piece, const PlaceOnPart& place);

/// Corners of the place in the piece as it stands: four of a face, in order round it; two of an
/// edge; one of a corner.
[[nodiscard]] std::vector<kernel::Point3> outlineOf(const Piece& piece, const PlaceOnPart& place);
/// Out of the wood: square to a face, halfway between the faces of an edge or corner. Length 1.
[[nodiscard]] kernel::Vec3 outwardOf(const Piece& piece, const PlaceOnPart& place);

/// The place of that kind nearest to a point on the part's surface, given which way the surface
/// looks there. In a groove that is the face that the groove is cut into.
[[nodiscard]] PlaceOnPart placeAt(const Piece& piece, PartId part, kernel::Point3 at,
                                  kernel::Vec3 outward, PlaceKind kind);

/// All places of one kind of a part, in an order to walk them.
[[nodiscard]] std::vector<PlaceOnPart> placesOf(PartId part, PlaceKind kind);

/// The faces of other parts that lie against this place's faces, flat on flat with shared area.
[[nodiscard]] std::vector<PlaceOnPart> touching(const Piece& piece, const PlaceOnPart& place);

}  // namespace dryfit::joinery
