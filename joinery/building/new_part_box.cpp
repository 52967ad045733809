#include "joinery/building/new_part_box.h"

#include <array>
#include <optional>
#include <utility>

#include "joinery/base/plain_text.h"
#include "joinery/formula/expression.h"
#include "joinery/piece/piece_bounds.h"

namespace dryfit::joinery {
namespace {

constexpr std::array kAxisNames{"x", "y", "z"};

int axisNamed(const std::string& name) {
  for (int axis = 0; axis < 3; ++axis) {
    if (name == kAxisNames[static_cast<std::size_t>(axis)]) return axis;
  }
  return -1;
}

/// Numbers of one span that are written, worked out.
struct Ends {
  std::optional<double> from, to, size, centre;
};

Result<Ends> endsOf(const NewSpan& span, Unit unit, const NameLookup& lookup) {
  Ends ends;
  const std::pair<const std::string*, std::optional<double>*> all[] = {
      {&span.from, &ends.from},
      {&span.to, &ends.to},
      {&span.size, &ends.size},
      {&span.centre, &ends.centre}};
  for (const auto& [text, value] : all) {
    if (trimmed(*text).empty()) continue;
    const Result<double> worked = evaluateLength({*text}, unit, lookup);
    if (!worked) return tl::unexpected<Error>(worked.error());
    *value = *worked;
  }
  return ends;
}

/// Beginning and end; what is not written reaches as far as `low` and `high`.
std::pair<double, double> reach(const Ends& ends, double low, double high) {
  if (ends.from && ends.to) return {*ends.from, *ends.to};
  if (ends.size) {
    if (ends.from) return {*ends.from, *ends.from + *ends.size};
    if (ends.to) return {*ends.to - *ends.size, *ends.to};
    if (ends.centre) return {*ends.centre - *ends.size / 2, *ends.centre + *ends.size / 2};
  }
  return {ends.from.value_or(low), ends.to.value_or(high)};
}

}  // namespace

Result<kernel::Box3> boxOf(const Piece& piece, const NewPart& part) {
  const NameLookup lookup = [&](const std::string& name) -> std::optional<double> {
    const auto at = piece.values.find(name);
    if (at == piece.values.end()) return std::nullopt;
    return at->second;
  };
  const kernel::Box3 all = boundsOf(piece);
  kernel::Box3 box;
  std::array<bool, 3> had{};
  for (const NewSpan* span : {&part.length, &part.width, &part.thickness}) {
    const int axis = axisNamed(span->along);
    if (axis < 0 || std::exchange(had[static_cast<std::size_t>(axis)], true)) {
      return fail(ErrorCode::spansUnfit, "two sizes run along " + span->along, part.name,
                  "let length, width and thickness run along x, y and z, each once");
    }
    Result<Ends> ends = endsOf(*span, piece.model.unit, lookup);
    if (!ends) return tl::unexpected<Error>(ends.error());
    const bool thick = span == &part.thickness && !ends->size && !(ends->from && ends->to);
    if (thick) ends->size = lookup(part.material + ".thickness");
    const auto [low, high] = reach(*ends, all.min[axis], all.max[axis]);
    if (low >= high) {
      return fail(ErrorCode::spansUnfit, "the part ends before it begins along " + span->along,
                  part.name, "take its two faces the other way round");
    }
    box.min.set(axis, low);
    box.max.set(axis, high);
  }
  return box;
}

}  // namespace dryfit::joinery
