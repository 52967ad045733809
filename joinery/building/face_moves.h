#pragma once

#include <string>

#include "joinery/file/model_file.h"
#include "joinery/piece/part_face.h"

namespace dryfit::joinery {

/// What holds a face of a part where it is.
struct FaceHold {
  std::string span;        ///< "length", "width" or "thickness"
  std::string key;         ///< "from" or "to": what says where this face stands
  std::string expression;  ///< what is written there; empty where the face follows from the rest
  double at = 0;           ///< mm along its axis, as drawn
};

/// What holds the face; `piece` is the file's own, at its drawn sizes.
[[nodiscard]] FaceHold holdOf(const ModelFile& file, const Piece& piece, PartFace face);

/// Lets the face stand where an expression says; in a sub-assembly or of a repeated part that is
/// written once for all. The face opposite stays where it is, but for the thickness, which the
/// wood has: then the part goes along. Errors: unknownName, badExpression, badModel. Whether
/// the numbers can be worked out then, and wood is left between the faces, evaluate() tells.
[[nodiscard]] Result<void> moveFace(ModelFile& file, const Piece& piece, PartFace face,
                                    const std::string& expression);

/// What is written for a face that stood as `hold` says and is moved by so many mm: a plain number
/// where it was one, else the expression and a number.
[[nodiscard]] std::string movedBy(const FaceHold& hold, double by, Unit unit);

}  // namespace dryfit::joinery
