#include "export/step/step_products.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include "export/files/ascii_name.h"
#include "joinery/piece/part_list.h"

namespace dryfit::exporting {

namespace {

using joinery::PlacedPart;
using kernel::Frame;
using kernel::Solid;

// Two solids of equal volume whose shared volume differs by less than this share are one shape.
constexpr double kSameVolume = 1e-9;

/// The half turn about an axis of the part's frame (or none, for axis -1) that lays the box of
/// `from` on that of `to`.
Frame halfTurn(int axis, const kernel::Box3& from, const kernel::Box3& to) {
  Frame turn;
  if (axis >= 0) {
    turn.x = axis == 0 ? turn.x : -turn.x;
    turn.y = axis == 1 ? turn.y : -turn.y;
    turn.z = axis == 2 ? turn.z : -turn.z;
  }
  const kernel::Point3 a = from.centre();
  const kernel::Vec3 turned = turn.turn({a.x, a.y, a.z});
  turn.origin = to.centre() - turned;
  return turn;
}

Result<bool> same(const Solid& a, const Solid& b) {
  if (std::abs(a.volume() - b.volume()) > kSameVolume * a.volume()) return false;
  const auto shared = kernel::overlap(a, b);
  if (!shared) return tl::unexpected(shared.error());
  return std::abs(shared->volume - a.volume()) <= kSameVolume * a.volume();
}

/// The frame in which the solid of `original` is that of `part`; none where no half turn does it.
Result<std::optional<Frame>> layOn(const PlacedPart& original, const PlacedPart& part,
                                   const std::vector<Solid>& solids) {
  if (original.recipe() == part.recipe()) return Frame{};
  const Solid& a = solids[original.id.index()];
  const Solid& b = solids[part.id.index()];
  const kernel::Box3 from = a.bounds(), to = b.bounds();
  for (const int axis : {-1, 0, 1, 2}) {
    const Frame frame = halfTurn(axis, from, to);
    const auto equal = same(b, a.placed(frame));
    if (!equal) return tl::unexpected(equal.error());
    if (*equal) return frame;
  }
  return std::nullopt;
}

std::string instanceName(const joinery::Piece& piece, joinery::PartId id) {
  return asciiName(piece.label(id));
}

/// Adds a part to the first of the group's products that it can share, or as a new one.
Result<void> addPart(const joinery::Piece& piece, const std::vector<Solid>& solids, int number,
                     joinery::PartId id, std::size_t firstOfGroup,
                     std::vector<StepProduct>& products) {
  const PlacedPart& part = piece.parts[id.index()];
  for (std::size_t i = firstOfGroup; i < products.size(); ++i) {
    if (products[i].material != piece.part(id).material) continue;
    const auto lay = layOn(piece.parts[products[i].part.index()], part, solids);
    if (!lay) return tl::unexpected(lay.error());
    if (*lay) {
      products[i].instances.push_back({instanceName(piece, id), part.frame.after(**lay)});
      return {};
    }
  }
  products.push_back({fmt::format("{} {}", number, instanceName(piece, id)),
                      piece.part(id).material,
                      id,
                      {{instanceName(piece, id), part.frame}}});
  return {};
}

}  // namespace

Result<std::vector<StepProduct>> stepProducts(const joinery::Piece& piece,
                                              const std::vector<Solid>& solids) {
  std::vector<StepProduct> products;
  for (const auto& group : joinery::groupParts(piece)) {
    const std::size_t firstOfGroup = products.size();
    for (const joinery::PartId id : group.parts) {
      const auto added = addPart(piece, solids, group.number, id, firstOfGroup, products);
      if (!added) return tl::unexpected(added.error().within(piece.part(id).name));
    }
  }
  return products;
}

}  // namespace dryfit::exporting
