#include "joinery/checks/trial.h"

#include <algorithm>
#include <array>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>

#include "joinery/checks/all.h"
#include "joinery/joints/joint_kinds.h"
#include "joinery/piece/one_line.h"

namespace dryfit::joinery::checking {
namespace {

/// Kinds that hold an end or edge to another part by long grain or a shoulder, the stronger first
/// (common practice). Plain contacts hold too little to be named in place of them.
constexpr std::array<std::string_view, 7> kStandIns{"blind-mortise-tenon",
                                                    "haunched-mortise-tenon",
                                                    "through-mortise-tenon",
                                                    "stub-tenon-groove",
                                                    "tongue-groove",
                                                    "through-housing",
                                                    "dowels"};

Piece withoutJoints(const Piece& piece) {
  Piece bare = piece;
  for (PlacedPart& part : bare.parts) part.features.clear();
  for (PlacedJoint& joint : bare.joints) {
    PlacedJoint plain;
    plain.id = joint.id;
    plain.mates = joint.mates;
    plain.glued = false;
    joint = std::move(plain);
  }
  return bare;
}

}  // namespace

Trials::Trials(const CheckInput& input) : input_(input), bare_(withoutJoints(input.piece)) {}

namespace {

/// Puts a cut joint into a piece that has none of it.
void place(Piece& piece, const JointRecord& record, JointCut cut) {
  const std::size_t joint = record.context.id().index();
  piece.joints[joint] = std::move(cut.joint);
  piece.model.joints[joint].kind = std::string(record.kind->name());
  for (Feature& feature : cut.features) {
    auto& features = piece.parts[feature.part.index()].features;
    const auto at = std::ranges::upper_bound(features, feature.joint, {}, &Feature::joint);
    features.insert(at, std::move(feature));
  }
}

Result<std::optional<std::vector<Finding>>> foundIn(const CheckInput& input,
                                                    std::initializer_list<Check> checks) {
  std::vector<Finding> found;
  for (const Check check : checks) {
    if (auto done = check(input, found); !done) return tl::unexpected(done.error());
  }
  return std::optional(std::move(found));
}

}  // namespace

Result<std::optional<std::vector<Finding>>> Trials::of(const JointRecord& record) {
  auto cut = record.kind->cut(record.context);
  if (!cut) return std::optional<std::vector<Finding>>{};
  Piece trial = bare_;
  place(trial, record, std::move(*cut));
  setOutFromOneLine(trial);
  auto found = foundIn({trial, input_.solids, nullptr, input_.unit, input_.goOn},
                       {breakout, fit, grain, proportion});
  if (found) {
    std::erase_if(**found, [&](const Finding& f) { return f.joint != record.context.id(); });
  }
  return found;
}

Result<std::optional<std::vector<Finding>>> Trials::inPiece(const JointRecord& record) {
  auto cut = record.kind->cut(record.context);
  if (!cut) return std::optional<std::vector<Finding>>{};
  const JointId id = record.context.id();
  Piece trial = input_.piece;
  for (const PartId mate : trial.joints[id.index()].mates) {
    std::erase_if(trial.parts[mate.index()].features,
                  [&](const Feature& f) { return f.joint == id; });
  }
  for (PlacedJoint& joint : trial.joints) {
    if (joint.id != id) joint.sharedPlay.reset();  // taken to one cheek already
  }
  place(trial, record, std::move(*cut));
  setOutFromOneLine(trial);
  return foundIn({trial, input_.solids, input_.memory, input_.unit, input_.goOn},
                 {clash, breakout, fit, grain, proportion});
}

std::optional<JointRecord> Trials::asKind(const JointRecord& record, const JointKind& kind) {
  if (kind.roles().size() != record.context.roles.size()) return std::nullopt;
  JointRecord other = record;
  other.kind = &kind;
  other.context.numbers.clear();
  other.context.words.clear();
  if (kind.leadsOthers()) return std::nullopt;
  return other;
}

Result<Trials::StandIn> Trials::kindFor(const JointRecord& record) {
  const auto one = [](const auto& role) { return role.size() == 1; };
  if (!std::ranges::all_of(record.context.roles, one)) return StandIn{};
  StandIn twice;
  for (const std::string_view name : kStandIns) {
    const JointKind* kind = jointKindNamed(name);
    if (kind == nullptr || kind == record.kind) continue;
    const auto other = asKind(record, *kind);
    if (!other) continue;
    const auto found = of(*other);
    if (!found) return tl::unexpected(found.error());
    if (!*found) continue;
    if ((*found)->empty()) return StandIn{kind, false};
    if (twice.kind == nullptr && std::ranges::all_of(**found, isOfWidth)) twice = {kind, true};
  }
  return twice;
}

std::string nameOf(const Trials::StandIn& standIn) {
  const std::string name(standIn.kind->name());
  return standIn.twice ? "two " + name + " joints in line" : name;
}

}  // namespace dryfit::joinery::checking
