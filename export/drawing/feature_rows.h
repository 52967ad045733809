#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

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

/// All features of a part, each in exactly one row, in the order of the joints.
[[nodiscard]] std::vector<FeatureRow> featureRows(const joinery::Piece& piece,
                                                  const joinery::PlacedPart& part,
                                                  joinery::Unit unit);

/// The words with a capital letter first.
[[nodiscard]] std::string sentenceCase(std::string words);

/// The feature's finished size, and where a cut runs on past a shoulder into what stands out there,
/// as far as it does, in the part's frame.
[[nodiscard]] kernel::Box3 workedExtent(const joinery::PlacedPart& part,
                                        const joinery::Feature& feature);

/// True where the feature reaches both ends of the wood along an axis. A cut may stop at a
/// shoulder, or go through what stands out beyond it; one that ends within that wood does not reach
/// the end.
[[nodiscard]] bool reachesBothEnds(const joinery::PlacedPart& part, const joinery::Feature& feature,
                                   int axis);
/// True where the feature is a round hole or dowel.
[[nodiscard]] bool isRound(const joinery::Feature& feature);

/// How a cut out of square lies on the face by which it enters.
struct Slope {
  double width = 0;    ///< across its run, mm
  double degrees = 0;  ///< between its run and square across the part
  int across = 1;      ///< the part's axis across the face
  double middle = 0;   ///< where its middle line crosses across = 0, along the part
  double lean = 0;     ///< mm along the part for each mm across

  /// Where its two long sides cross a line along the part, the lesser first.
  [[nodiscard]] std::array<double, 2> sidesAt(double across) const;
};
/// None for a cut that is square, round or not a plain block, or that is not sloped within its
/// face.
[[nodiscard]] std::optional<Slope> slopeOf(const joinery::Feature& feature);

}  // namespace dryfit::exporting
