#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <set>
#include <string_view>

#include "joinery/base/box_tree.h"
#include "joinery/checks/all.h"
#include "joinery/checks/severity.h"
#include "joinery/checks/wood.h"
#include "joinery/checks/words.h"
#include "joinery/joints/insert.h"
#include "joinery/trade/rules.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery::checking {
namespace {

using kernel::Box3;

/// Parts that their joints hold together, as sets that can be united.
class Assemblies {
 public:
  explicit Assemblies(std::size_t parts) : parent_(parts) {
    std::iota(parent_.begin(), parent_.end(), 0);
  }
  [[nodiscard]] std::size_t of(PartId part) {
    std::size_t i = part.index();
    while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
    return i;
  }
  void unite(PartId a, PartId b) {
    const std::size_t first = of(a), second = of(b);
    parent_[std::max(first, second)] = std::min(first, second);
  }

 private:
  std::vector<std::size_t> parent_;
};

/// Unites what joints hold. A joint holds nothing across a gap.
Assemblies joined(const Piece& piece) {
  Assemblies assemblies(piece.parts.size());
  for (const PlacedJoint& joint : piece.joints) {
    if (joint.notCut) continue;
    for (const PartId mate : joint.mates) {
      if (mate == joint.gapTo && joint.gap > lengthBy(RuleId::restingMost).mm()) continue;
      assemblies.unite(joint.mates.front(), mate);
    }
  }
  return assemblies;
}

/// True where `above` lies on `below`: one of its faces looks down at a face of the other, with no
/// more than a shaving between.
bool liesOn(const PlacedPart& above, const PlacedPart& below) {
  const double most = lengthBy(RuleId::restingMost).mm();
  for (int axis = 0; axis < 3; ++axis) {
    for (const bool far : {false, true}) {
      const LocalFace face{axis, far};
      if (above.frame.turn(face.outward()).z > -kernel::kLooksDown) continue;
      const auto contact = findContact(above, below, above.named(face));
      if (contact && std::fabs(contact->apart) <= most && std::fabs(contact->gap) <= most) {
        return true;
      }
    }
  }
  return false;
}

/// Which assemblies stand: on the floor, by hardware, or on others that stand.
class Standing {
 public:
  explicit Standing(const Piece& piece)
      : piece_(piece), assemblies_(joined(piece)), stands_(piece.parts.size()) {
    for (const PlacedPart& part : piece.parts) {
      boxes_.push_back(kernel::boundsOf(part.closed, part.overall()));
      // As it stands with what opens closed, without what its joints do: faces are all that is
      // asked.
      PlacedPart bare;
      bare.id = part.id;
      bare.size = part.size;
      bare.along = part.along;
      bare.frame = part.closed;
      bare_.push_back(std::move(bare));
    }
    onTheFloor();
    byHardware();
    onOthers();
  }

  [[nodiscard]] bool stands(PartId part) { return stands_[assemblies_.of(part)]; }
  [[nodiscard]] std::size_t assembly(PartId part) { return assemblies_.of(part); }
  [[nodiscard]] const Box3& box(PartId part) const { return boxes_[part.index()]; }

 private:
  void onTheFloor() {
    double floor = std::numeric_limits<double>::infinity();
    for (const Box3& box : boxes_) floor = std::fmin(floor, box.min.z);
    for (const PlacedPart& part : piece_.parts) {
      const double above = box(part.id).min.z - floor;
      if (above <= lengthBy(RuleId::restingMost).mm()) stands_[assemblies_.of(part.id)] = true;
    }
  }
  void byHardware() {
    std::set<std::string_view> held;
    for (const HardwareGoods& goods : piece_.model.hardware) {
      held.insert(goods.holds.begin(), goods.holds.end());
    }
    for (const PlacedPart& part : piece_.parts) {
      if (held.contains(piece_.part(part.id).name)) stands_[assemblies_.of(part.id)] = true;
    }
  }
  /// Until nothing new stands: what lies on a drawer lies on what the drawer lies on.
  void onOthers() {
    const double most = lengthBy(RuleId::restingMost).mm();
    const auto pairs = BoxTree(boxes_).pairs(most + kernel::kContact);
    for (bool more = true; more;) {
      more = false;
      for (const auto& [i, j] : pairs) more = tryPair(i, j) || tryPair(j, i) || more;
    }
  }
  bool tryPair(std::size_t above, std::size_t below) {
    const PlacedPart& upper = bare_[above];
    const PlacedPart& lower = bare_[below];
    if (stands(upper.id) || !stands(lower.id) || !liesOn(upper, lower)) return false;
    return stands_[assemblies_.of(upper.id)] = true;
  }

  const Piece& piece_;
  Assemblies assemblies_;
  std::vector<bool> stands_;  ///< by the assembly's first part
  std::vector<Box3> boxes_;   ///< of the parts, in the piece
  std::vector<PlacedPart> bare_;
};

/// One finding for all parts that hold together and that nothing else holds.
Finding findingOf(const Piece& piece, const std::vector<PartId>& parts, const Box3& box) {
  const bool joined = std::ranges::any_of(piece.joints, [&](const PlacedJoint& joint) {
    return std::ranges::find_first_of(joint.mates, parts) != joint.mates.end() &&
           std::ranges::any_of(joint.mates, [&](PartId mate) {
             return std::ranges::find(parts, mate) == parts.end();
           });
  });
  Finding f;
  f.kind = FindingKind::unsupported;
  f.severity = severityOf(f.kind);
  f.parts = parts;
  f.box = box;
  f.at = box.centre();
  f.source = "every part is held, or lies on one that is (common practice)";
  const std::string first = piece.label(parts.front());
  const std::string what = parts.size() == 1 ? first
                                             : fmt::format("{} and what is joined to it ({} parts)",
                                                           first, parts.size());
  f.text = sentence(fmt::format("nothing holds {}: no {}, no hardware, no part under it", what,
                                joined ? "joint that meets" : "joint"));
  f.mend = fmt::format(
      "Join {} to the rest, lay it on a part, or name it under \"holds\" of the hardware that "
      "carries it.",
      first);
  return f;
}

}  // namespace

Result<void> unsupported(const CheckInput& input, std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  if (piece.parts.size() < 2) return {};
  if (auto stop = input.stopIfAsked(); !stop) return stop;
  Standing standing(piece);
  std::vector<bool> told(piece.parts.size());
  for (const PlacedPart& part : piece.parts) {
    const std::size_t assembly = standing.assembly(part.id);
    if (standing.stands(part.id) || told[assembly]) continue;
    told[assembly] = true;
    std::vector<PartId> parts;
    Box3 box = standing.box(part.id);
    for (const PlacedPart& other : piece.parts) {
      if (standing.assembly(other.id) != assembly) continue;
      parts.push_back(other.id);
      box = box.united(standing.box(other.id));
    }
    findings.push_back(findingOf(piece, parts, box));
  }
  return {};
}

}  // namespace dryfit::joinery::checking
