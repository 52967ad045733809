#include "joinery/joints/cut_joints.h"

#include <utility>

#include "joinery/joints/evaluate.h"
#include "joinery/joints/joint_table.h"
#include "joinery/piece/place_parts.h"

namespace dryfit::joinery {
namespace {

/// Cuts the joints that are not in `memory`, and leaves all cuts there.
/// All joints see the bare blanks, so that none depends on the order in which they are listed.
Result<void> cutAll(const Piece& piece, NumberMemory& memory) {
  const auto table = JointTable::of(piece, memory.expressions);
  if (!table) return tl::unexpected(table.error());
  CutMemory now = recordsOf(piece, **table);
  const std::vector<bool> ready = unchanged(now, memory.cut);
  now.cuts.resize(ready.size());
  for (std::size_t i = 0; i < ready.size(); ++i) {
    if (ready[i]) continue;
    const JointId id(i);
    const auto& cut = (*table)->cut(id);
    if (!cut) return tl::unexpected(Error(cut.error()).within("joints." + piece.joint(id).name));
    ++memory.jointsCut;
    now.cuts[i] = *cut;
  }
  // Nothing can fail any more: the state before may be used up.
  for (std::size_t i = 0; i < ready.size(); ++i) {
    if (ready[i]) now.cuts[i] = std::move(memory.cut.cuts[i]);
  }
  memory.cut = std::move(now);
  return {};
}

}  // namespace

Result<Piece> cutJoints(Piece piece) {
  NumberMemory memory;
  return cutJoints(std::move(piece), memory);
}

Result<Piece> cutJoints(Piece piece, NumberMemory& memory) {
  if (const auto done = cutAll(piece, memory); !done) return tl::unexpected(done.error());
  for (const JointCut& cut : memory.cut.cuts) {
    for (const Feature& feature : cut.features) {
      piece.parts[feature.part.index()].features.push_back(feature);
    }
    piece.joints.push_back(cut.joint);
  }
  return piece;
}

Result<Piece> evaluate(const Model& model, Basis basis) {
  NumberMemory memory;
  return evaluate(model, basis, memory);
}

Result<Piece> evaluate(const Model& model, Basis basis, NumberMemory& memory) {
  memory.jointsCut = 0;
  auto piece = placeParts(model, basis, memory);
  if (!piece) return piece;
  return cutJoints(std::move(*piece), memory);
}

}  // namespace dryfit::joinery
