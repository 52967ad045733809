#pragma once

#include <string>
#include <vector>

#include "joinery/file/assembly_edits.h"
#include "joinery/piece/part_face.h"

namespace dryfit::joinery {

/// How a sub-assembly would stand between faces that are pointed at. Along an axis with no face it
/// reaches to what is met first from the middle between the faces, or lies as its first use in the
/// piece does where that has a size of its own there; neighbours and values are as in that use, but
/// for a neighbour that bounded the old opening, in whose place the part that bounds the new one
/// comes. `piece` is that of drawn sizes.
[[nodiscard]] NewUse proposeUse(const ModelFile& file, const Piece& piece, const std::string& of,
                                const std::vector<PartFace>& faces);

}  // namespace dryfit::joinery
