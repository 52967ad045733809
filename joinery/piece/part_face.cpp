#include "joinery/piece/part_face.h"

namespace dryfit::joinery {

std::string writtenName(const Piece& piece, PartFace at) {
  return piece.part(at.part).name + "." + std::string(nameOf(at.face));
}

double standsAt(const Piece& piece, PartFace at) {
  const kernel::Box3& span = piece.parts[at.part.index()].span;
  const int axis = static_cast<int>(axisOf(at.face));
  return isFarFace(at.face) ? span.max[axis] : span.min[axis];
}

}  // namespace dryfit::joinery
