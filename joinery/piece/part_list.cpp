#include "joinery/piece/part_list.h"

#include "joinery/piece/shape_match.h"
#include "joinery/piece/true_lengths.h"

namespace dryfit::joinery {
namespace {

bool sameWood(const Part& a, const Part& b) {
  return a.material == b.material && a.grain == b.grain;
}

std::vector<LocalFace> edgedFaces(const Piece& piece, const PlacedPart& part) {
  std::vector<LocalFace> faces;
  for (const Face face : piece.part(part.id).edging) faces.push_back(part.local(face));
  return faces;
}

PartGroup groupFor(const PlacedPart& part, int number) {
  const kernel::Vec3 overall = part.overall().size();
  PartGroup group;
  group.number = number;
  group.parts = {part.id};
  group.length = Length::mm(overall.x);
  group.width = Length::mm(overall.y);
  group.thickness = Length::mm(overall.z);
  const ShoulderLines shoulders = shoulderLines(part);
  group.shoulderLength = Length::mm(shoulders.longest());
  group.shoulderShortest = Length::mm(shoulders.shortest());
  return group;
}

}  // namespace

std::vector<PartGroup> groupParts(const Piece& piece) {
  std::vector<PartGroup> groups;
  std::vector<ShapeOutline> shapes;  // of each group's first part
  for (const PlacedPart& part : piece.parts) {
    const ShapeOutline shape(part, edgedFaces(piece, part));
    const auto fits = [&](std::size_t i, bool mirrored) {
      const bool wood = sameWood(piece.part(groups[i].parts.front()), piece.part(part.id));
      return wood && (mirrored ? shape.mirrors(shapes[i]) : shape.sameAs(shapes[i]));
    };
    std::size_t i = 0;
    while (i < groups.size() && !fits(i, false)) ++i;
    if (i < groups.size()) {
      groups[i].parts.push_back(part.id);
      continue;
    }
    groups.push_back(groupFor(part, static_cast<int>(groups.size()) + 1));
    shapes.push_back(shape);
    for (std::size_t k = 0; k + 1 < groups.size(); ++k) {
      if (!fits(k, true)) continue;
      groups.back().mirrorOf = groups[k].number;
      break;
    }
  }
  return groups;
}

}  // namespace dryfit::joinery
