#include "joinery/piece/piece_bounds.h"

namespace dryfit::joinery {

kernel::Box3 boundsOf(const Piece& piece) {
  kernel::Box3 all;
  bool first = true;
  for (const PlacedPart& part : piece.parts) {
    const kernel::Box3 box = kernel::boundsOf(part.frame, part.overall());
    all = first ? box : all.united(box);
    first = false;
  }
  return all;
}

}  // namespace dryfit::joinery
