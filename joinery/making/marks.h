#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "joinery/piece/piece.h"

namespace dryfit::joinery {

/// "rough", "machined", "cut", "jointed".
[[nodiscard]] std::string_view nameOf(MarkState state);
[[nodiscard]] std::optional<MarkState> markStateNamed(std::string_view name);
/// What a state fixes: "width and thickness", "length, width and thickness".
[[nodiscard]] std::string_view fixedBy(MarkState state);

/// The mark of a part, or null.
[[nodiscard]] const Mark* markOf(const Model& model, const std::string& part);

/// The part as it stands in the piece, marked.
[[nodiscard]] Mark markFor(const Piece& piece, PartId part, MarkState state);

/// Something that a part was made to and that the design now asks for otherwise.
struct MarkDifference {
  enum class What {
    size,     ///< length, width or thickness, all included
    blank,    ///< from shoulder to shoulder
    feature,  ///< of a joint, made too small, too large or in another place
    missing,  ///< the design asks for a feature that was not made
    extra,    ///< a feature was made that the design no longer has
  };
  PartId part;
  What what = What::size;
  PartAxis axis = PartAxis::length;
  std::string joint, purpose;      ///< of a feature; the joint may be gone from the design
  std::optional<JointId> jointId;  ///< where the design has it
  double made = 0, asked = 0;      ///< mm; of a feature, how far `axis` is out: 0 and by how much
  double moved = 0;                ///< mm; of a feature that lies elsewhere along `axis`, else 0
  bool workable = false;           ///< can still be brought to size: wood can be taken off
  kernel::Box3 box;                ///< in the part's frame
};

/// What differs by more than the tolerance of a made part, in the order of the marks. The drawn
/// sizes of a design with measured ones leave real wood out of account: nothing then.
[[nodiscard]] std::vector<MarkDifference> differencesFromMarks(const Piece& piece);

/// Asked less made, for every number that the marks fix, in a fixed order: all within the tolerance
/// where `differencesFromMarks` is empty. mm.
[[nodiscard]] std::vector<double> misfits(const Piece& piece);

}  // namespace dryfit::joinery
