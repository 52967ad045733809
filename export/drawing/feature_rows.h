#pragma once

#include <optional>
#include <string>
#include <vector>

#include "export/drawing/feature_places.h"
#include "joinery/piece/piece.h"

namespace dryfit::exporting {

/// How a part is turned toward the reader: face side in front, face edge up.
struct PartPose {
  joinery::LocalFace faceSide, faceEdge;  ///< square to different axes, neither of them length
  kernel::Vec3 right, up, out;            ///< of the front view, in the part's frame
};
[[nodiscard]] PartPose poseOf(const joinery::PlacedPart& part);

/// Equal features of a part: one letter, one row of the table of joints. All that the row says is
/// true of each of them; of places along the part it lists every one.
struct FeatureRow {
  std::string letter;                 ///< "A", "B", ...
  std::vector<std::size_t> features;  ///< indices into PlacedPart::features, at least one
  joinery::Purpose purpose = joinery::Purpose::mortise;
  // Words for the table, in the drawing's unit.
  std::string name;      ///< "Mortise in face edge"
  std::string size;      ///< across the face it stands on or enters by
  std::string depth;     ///< depth of a cut, length of what stands out
  std::string start;     ///< from the datum, one value a feature
  std::string fromEdge;  ///< face edge to its nearer side
  std::string fromSide;  ///< face side to its nearer side
  std::string mate;
};

/// All other features of a part, each in exactly one row, in the order of the joints.
[[nodiscard]] std::vector<FeatureRow> featureRows(const joinery::Piece& piece,
                                                  const joinery::PlacedPart& part,
                                                  joinery::Unit unit);

/// How many cuts or tenons a row stands for: what several joints share counts once.
[[nodiscard]] int countOf(const joinery::PlacedPart& part, const FeatureRow& row);

/// The words with a capital letter first.
[[nodiscard]] std::string sentenceCase(std::string words);

}  // namespace dryfit::exporting
