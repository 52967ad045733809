#include "joinery/fit/absorb.h"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>

#include "joinery/fit/dry_fit.h"
#include "joinery/fit/new_findings.h"
#include "joinery/making/marks.h"
#include "joinery/making/measure.h"

namespace dryfit::joinery {
namespace {

bool isError(const Finding& finding) {
  return finding.severity == Severity::error;
}

/// The change dry-fitted; none where a made part is still out or the piece has no solids then.
Result<std::optional<Absorption>> tried(const NumberChange& change, const DryFit& before,
                                        const Progress& progress, Unit unit) {
  const auto after = dryFit(with(before.piece.model, change), before.piece.basis, progress, unit);
  if (!after && after.error().code == ErrorCode::cancelled) return tl::unexpected(after.error());
  if (!after) return std::optional<Absorption>();
  const bool stillOut = std::ranges::any_of(
      after->findings, [](const Finding& f) { return f.kind == FindingKind::locked; });
  if (stillOut) return std::optional<Absorption>();
  Absorption absorption{change.what, change.before, change.after, change.text, {}, {}};
  absorption.resultingFindings = newFindings(before, *after);
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

Result<Absorptions> absorptions(const Model& model, Basis basis, const Progress& progress,
                                Unit unit) {
  const auto before = dryFit(model, basis, progress);
  if (!before) return tl::unexpected(before.error());
  Absorptions all;
  all.needed = std::ranges::any_of(before->findings,
                                   [](const Finding& f) { return f.kind == FindingKind::locked; });
  const auto changes = changesThatFit(before->piece, progress);
  if (!changes) return tl::unexpected(changes.error());
  for (const NumberChange& change : *changes) {
    auto one = tried(change, *before, progress, unit);
    if (!one) return tl::unexpected(one.error());
    if (!*one) continue;
    const bool sound = std::ranges::none_of((*one)->resultingFindings, isError);
    (sound ? all.sound : all.unsound).push_back(std::move(**one));
  }
  return all;
}

}  // namespace dryfit::joinery
