#include "joinery/cut_joints.h"

#include <utility>

#include "joinery/evaluate.h"
#include "joinery/joint_table.h"

namespace dryfit::joinery {
namespace {

/// All joints see the bare blanks, so that none depends on the order in which they are listed.
Result<std::vector<JointCut>> cutsOf(const Piece& piece) {
  const auto table = JointTable::of(piece);
  if (!table) return tl::unexpected(table.error());
  std::vector<JointCut> cuts;
  for (std::size_t i = 0; i < piece.model.joints.size(); ++i) {
    const JointId id(i);
    const auto& cut = (*table)->cut(id);
    if (!cut) return tl::unexpected(Error(cut.error()).within("joints." + piece.joint(id).name));
    cuts.push_back(*cut);
  }
  return cuts;
}

}  // namespace

Result<Piece> cutJoints(Piece piece) {
  auto cuts = cutsOf(piece);
  if (!cuts) return tl::unexpected(cuts.error());
  for (JointCut& cut : *cuts) {
    for (Feature& feature : cut.features) {
      piece.parts[feature.part.index()].features.push_back(std::move(feature));
    }
    piece.joints.push_back(std::move(cut.joint));
  }
  return piece;
}

Result<Piece> evaluate(const Model& model, Basis basis) {
  auto piece = placeParts(model, basis);
  if (!piece) return piece;
  return cutJoints(std::move(*piece));
}

}  // namespace dryfit::joinery
