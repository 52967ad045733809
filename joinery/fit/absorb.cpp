#include "joinery/fit/absorb.h"

#include <algorithm>
#include <optional>
#include <set>
#include <string>
#include <tuple>

#include "joinery/fit/dry_fit.h"
#include "joinery/making/marks.h"
#include "joinery/making/measure.h"

namespace dryfit::joinery {
namespace {

/// What makes two findings the same one in two states of a design.
auto identityOf(const Piece& piece, const Finding& f) {
  std::vector<std::string> parts;
  for (const PartId id : f.parts) parts.push_back(piece.part(id).name);
  return std::tuple(f.kind, f.severity, parts, f.joint ? piece.joint(*f.joint).name : "");
}

using Identities = std::multiset<decltype(identityOf(std::declval<const Piece&>(),
                                                     std::declval<const Finding&>()))>;

Identities identitiesOf(const DryFit& fit) {
  Identities all;
  for (const Finding& f : fit.findings) all.insert(identityOf(fit.piece, f));
  return all;
}

/// The change dry-fitted; none where a made part is still out or an error is new.
Result<std::optional<Absorption>> tried(const NumberChange& change, const DryFit& before,
                                        const Progress& progress, Unit unit) {
  const auto after = dryFit(with(before.piece.model, change), before.piece.basis, progress, unit);
  if (!after && after.error().code == ErrorCode::cancelled) return tl::unexpected(after.error());
  if (!after) return std::optional<Absorption>();
  Absorption absorption{change.what, change.before, change.after, change.text, {}, {}};
  Identities known = identitiesOf(before);
  for (const Finding& f : after->findings) {
    if (f.kind == FindingKind::locked) return std::optional<Absorption>();
    if (const auto old = known.find(identityOf(after->piece, f)); old != known.end()) {
      known.erase(old);
      continue;
    }
    if (f.severity == Severity::error) return std::optional<Absorption>();
    absorption.resultingFindings.push_back(f);
  }
  for (const SizeChange& size : compare(before.piece, after->piece).sizes) {
    const std::string& name = after->piece.part(size.part).name;
    auto& parts = absorption.partsChanged;
    if (parts.empty() || parts.back() != name) parts.push_back(name);
  }
  std::erase_if(absorption.partsChanged, [&](const std::string& name) {
    return markOf(before.piece.model, name) != nullptr;
  });
  return std::optional(std::move(absorption));
}

}  // namespace

Result<std::vector<Absorption>> absorptions(const Model& model, Basis basis,
                                            const Progress& progress, Unit unit) {
  const auto before = dryFit(model, basis, progress);
  if (!before) return tl::unexpected(before.error());
  std::vector<Absorption> all;
  const auto changes = changesThatFit(before->piece, progress);
  if (!changes) return tl::unexpected(changes.error());
  for (const NumberChange& change : *changes) {
    auto one = tried(change, *before, progress, unit);
    if (!one) return tl::unexpected(one.error());
    if (*one) all.push_back(std::move(**one));
  }
  return all;
}

}  // namespace dryfit::joinery
