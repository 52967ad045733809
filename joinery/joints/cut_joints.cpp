#include "joinery/joints/cut_joints.h"

#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include "joinery/joints/evaluate.h"
#include "joinery/joints/joint_table.h"
#include "joinery/piece/face_marks.h"
#include "joinery/piece/one_line.h"
#include "joinery/piece/place_parts.h"

namespace dryfit::joinery {
namespace {

/// Where two boxes come nearest to each other, or the middle of what they share.
kernel::Point3 between(const kernel::Box3& a, const kernel::Box3& b) {
  kernel::Point3 middle;
  for (int axis = 0; axis < 3; ++axis) {
    const double lo = std::fmax(a.min[axis], b.min[axis]);
    const double hi = std::fmin(a.max[axis], b.max[axis]);
    middle.set(axis, (lo + hi) / 2);
  }
  return middle;
}

/// A joint of which nothing could be cut: the piece stands without it, and the check tells of it.
JointCut notCut(const JointContext& context, Error why) {
  JointCut cut;
  cut.joint.id = context.id();
  cut.joint.glued = false;
  for (const auto& role : context.roles) {
    for (const Mate& mate : role) cut.joint.mates.push_back(mate.part.id);
  }
  const auto boxOf = [](const PlacedPart& part) {
    return kernel::boundsOf(part.frame, part.blank());
  };
  const PlacedPart& first = context.mate(0);
  const PlacedPart* second = context.roles.size() > 1 ? &context.mate(1) : &first;
  for (const auto& role : context.roles) {
    for (const Mate& mate : role) {
      if (mate.name == why.where) second = &mate.part;  // of several, the one that does not fit
    }
  }
  cut.joint.at = between(boxOf(first), boxOf(*second));
  cut.joint.gapTo = second->id;
  cut.joint.notCut = std::move(why);
  return cut;
}

/// Cuts the joints of one state, or takes them over from `memory` where they are cut from the same.
/// All joints see the bare blanks, so that none depends on the order in which they are listed; the
/// grooves of panels are cut first and shown to all others.
class Cutter {
 public:
  Cutter(std::vector<JointRecord> joints, NumberMemory& memory)
      : joints_(std::move(joints)), made_(joints_.size()), memory_(memory) {}

  /// Leaves all cuts in the memory; on error, those of the state before.
  Result<void> run(const Piece& piece) {
    for (std::size_t i = 0; i < joints_.size(); ++i) {
      if (joints_[i].kind->leadsOthers()) cut(i);
    }
    showGrooves(piece.parts.size());
    for (std::size_t i = 0; i < joints_.size(); ++i) {
      if (!joints_[i].kind->leadsOthers()) cut(i);
      if (made_[i] && !*made_[i]) {
        return tl::unexpected(
            Error(made_[i]->error()).within("joints." + piece.joint(JointId(i)).name));
      }
    }
    keep();
    return {};
  }

 private:
  void cut(std::size_t i) {
    if (memory_.cut.knows(i, joints_[i])) return;
    made_[i] = joints_[i].kind->cut(joints_[i].context);
    if (!*made_[i] && isJointError(made_[i]->error().code)) {
      made_[i] = notCut(joints_[i].context, made_[i]->error());
    }
    if (*made_[i]) ++memory_.jointsCut;
  }

  /// Null where the joint could not be cut.
  [[nodiscard]] const JointCut* outcome(std::size_t i) const {
    if (!made_[i]) return &memory_.cut.cuts[i];
    return *made_[i] ? &**made_[i] : nullptr;
  }

  void showGrooves(std::size_t parts) {
    std::vector<std::vector<Feature>> grooves(parts);
    for (std::size_t i = 0; i < joints_.size(); ++i) {
      if (!joints_[i].kind->leadsOthers()) continue;
      const JointCut* cut = outcome(i);
      if (cut == nullptr) continue;
      for (const Feature& feature : cut->features) {
        if (traitsOf(feature.purpose).leads) grooves[feature.part.index()].push_back(feature);
      }
    }
    for (JointRecord& joint : joints_) {
      if (joint.kind->leadsOthers()) continue;
      for (auto& role : joint.context.roles) {
        for (Mate& mate : role) mate.grooves = grooves[mate.part.id.index()];
      }
    }
  }

  /// Nothing can fail any more: the state before may be used up.
  void keep() {
    std::vector<JointCut> cuts(joints_.size());
    for (std::size_t i = 0; i < cuts.size(); ++i) {
      cuts[i] = std::move(made_[i] ? **made_[i] : memory_.cut.cuts[i]);
    }
    memory_.cut = {std::move(joints_), std::move(cuts)};
  }

  std::vector<JointRecord> joints_;
  std::vector<std::optional<Result<JointCut>>> made_;  ///< none where taken over
  NumberMemory& memory_;
};

Result<void> cutAll(const Piece& piece, NumberMemory& memory) {
  auto table = jointTable(piece, memory.expressions);
  if (!table) return tl::unexpected(table.error());
  return Cutter(std::move(*table), memory).run(piece);
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
  chooseFaceMarks(piece);
  setOutFromOneLine(piece);
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
