#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "joinery/checks/all.h"
#include "joinery/checks/severity.h"
#include "joinery/checks/words.h"
#include "joinery/formula/expression.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery::checking {
namespace {

struct Wish {
  std::string_view name;
  int axis;
  const std::optional<Expression>& size;
};

Result<double> valueOf(const Piece& piece, const Expression& expression) {
  return evaluateLength(expression, piece.model.unit,
                        [&](const std::string& name) -> std::optional<double> {
                          const auto found = piece.values.find(name);
                          if (found == piece.values.end()) return std::nullopt;
                          return found->second;
                        });
}

/// The lowest part that reaches the near end and the lowest that reaches the far one.
std::vector<PartId> partsAtEnds(const std::vector<kernel::Box3>& boxes, const kernel::Box3& whole,
                                int axis) {
  std::vector<PartId> parts;
  const auto addFirst = [&](auto reaches) {
    const auto found = std::find_if(boxes.begin(), boxes.end(), reaches);
    const PartId id(static_cast<std::size_t>(found - boxes.begin()));
    if (found != boxes.end() && std::find(parts.begin(), parts.end(), id) == parts.end()) {
      parts.push_back(id);
    }
  };
  addFirst(
      [&](const kernel::Box3& b) { return b.min[axis] <= whole.min[axis] + kernel::kContact; });
  addFirst(
      [&](const kernel::Box3& b) { return b.max[axis] >= whole.max[axis] - kernel::kContact; });
  std::sort(parts.begin(), parts.end());
  return parts;
}

/// Where the part is with what opens closed: what the client measures.
kernel::Box3 boundsOf(const CheckInput& input, const PlacedPart& part) {
  const kernel::Solid& solid = input.solids[part.id.index()];
  if (input.memory == nullptr) return solid.placed(part.closed).bounds();
  if (const auto* known = input.memory->bounds.find({solid, part.closed})) return *known;
  return input.memory->bounds.keep({solid, part.closed}, solid.placed(part.closed).bounds());
}

Finding deviation(const Brief& brief, const Wish& wish, double found, double wanted,
                  double tolerance, Unit unit) {
  const bool approved =
      std::find(brief.approved.begin(), brief.approved.end(), wish.name) != brief.approved.end();
  const double over = found - wanted;
  Finding f;
  f.kind = FindingKind::envelope;
  f.severity = severityOf(f.kind, approved ? Case::special : Case::usual);
  f.measured = found;
  f.limit = over > 0 ? wanted + tolerance : wanted - tolerance;
  f.unit = "mm";
  f.source = "the brief";
  f.text = fmt::format("The {} is {}, {} {} than the {} of the brief{}.", wish.name,
                       lengthWords(found, unit), lengthWords(over > 0 ? over : -over, unit),
                       over > 0 ? "more" : "less", lengthWords(wanted, unit),
                       approved ? "; the client approved it" : "");
  if (!approved) {
    f.mend =
        fmt::format("Bring the {} to between {} and {}, or have the client approve it.", wish.name,
                    lengthWords(wanted - tolerance, unit), lengthWords(wanted + tolerance, unit));
  }
  return f;
}

}  // namespace

Result<void> envelope(const CheckInput& input, std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  const Brief& brief = piece.model.brief;
  const std::array wishes{Wish{"width", 0, brief.width}, Wish{"depth", 1, brief.depth},
                          Wish{"height", 2, brief.height}};
  if (piece.parts.empty() || (!brief.width && !brief.depth && !brief.height)) return {};

  std::vector<kernel::Box3> boxes;
  for (const PlacedPart& part : piece.parts) {
    boxes.push_back(boundsOf(input, part));
  }
  kernel::Box3 whole = boxes.front();
  for (const kernel::Box3& box : boxes) whole = whole.united(box);

  const Result<double> tolerance = valueOf(piece, brief.tolerance);
  if (!tolerance) return tl::unexpected(tolerance.error().within("brief.tolerance"));
  for (const Wish& wish : wishes) {
    if (!wish.size) continue;
    const Result<double> wanted = valueOf(piece, *wish.size);
    if (!wanted) return tl::unexpected(wanted.error().within("brief." + std::string(wish.name)));
    const double found = whole.size()[wish.axis];
    const double over = found - *wanted;
    if (std::fabs(over) <= *tolerance + kernel::kContact) continue;
    Finding f = deviation(brief, wish, found, *wanted, *tolerance, input.unit);
    f.parts = partsAtEnds(boxes, whole, wish.axis);
    f.at = whole.centre();
    f.box = whole;
    findings.push_back(std::move(f));
  }
  return {};
}

}  // namespace dryfit::joinery::checking
