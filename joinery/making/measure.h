#pragma once

#include <optional>
#include <string>
#include <vector>

#include "joinery/piece/piece.h"

namespace dryfit::joinery {

/// How a design is looked at where nobody says: as measured, once anything of it is measured or
/// made.
[[nodiscard]] Basis usualBasis(const Model& model);

/// How wet the wood of a part was when it was measured, in per cent: the part's own record, else
/// its batch's, else its material's.
[[nodiscard]] std::optional<double> moistureOf(const Model& model, PartId part);

/// One size of one part before and after.
struct SizeChange {
  PartId part;
  std::string size;  ///< "shoulder length", "overall length", "width", "thickness"
  Length before, after;
};

/// A joint number before and after ("tenon length", "groove depth").
struct JointChange {
  JointId joint;
  std::string value;
  Length before, after;
};

/// What differs between two states of one design. Parts in their own order; differences below
/// 0.005 mm do not count.
struct ChangeReport {
  std::vector<SizeChange> sizes;
  std::vector<JointChange> joints;
};

/// REQUIRES: both pieces come from models with the same parts and joints.
[[nodiscard]] ChangeReport compare(const Piece& before, const Piece& after);

}  // namespace dryfit::joinery
