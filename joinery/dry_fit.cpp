#include "joinery/dry_fit.h"

#include <algorithm>
#include <optional>
#include <tuple>
#include <unordered_map>

#include "joinery/checks.h"
#include "joinery/parallel.h"
#include "kernel/recipe.h"

namespace dryfit::joinery {
namespace {

/// A recipe that one or more parts are made by.
struct Shared {
  kernel::Recipe recipe;
  PartId first;  ///< lowest part made by it
};

/// Which of the `shared` recipes each part is made by.
std::vector<std::size_t> shareRecipes(const Piece& piece, std::vector<Shared>& shared) {
  std::vector<std::size_t> recipeOfPart;
  std::unordered_multimap<std::uint64_t, std::size_t> byKey;
  for (const PlacedPart& part : piece.parts) {
    kernel::Recipe recipe = part.recipe();
    const std::uint64_t key = kernel::contentKey(recipe);
    const auto [from, to] = byKey.equal_range(key);
    // Keys of unequal recipes may meet, so the recipes themselves decide.
    const auto found = std::find_if(
        from, to, [&](const auto& entry) { return shared[entry.second].recipe == recipe; });
    if (found != to) {
      recipeOfPart.push_back(found->second);
    } else {
      recipeOfPart.push_back(shared.size());
      byKey.emplace(key, shared.size());
      shared.push_back({std::move(recipe), part.id});
    }
  }
  return recipeOfPart;
}

bool comesBefore(const Finding& a, const Finding& b) {
  const auto rank = [](const Finding& f) {
    return std::tie(f.severity, f.kind, f.parts, f.joint, f.at.x, f.at.y, f.at.z);
  };
  return rank(a) < rank(b);
}

}  // namespace

kernel::Solid DryFit::placed(PartId id) const {
  return solids[id.index()].placed(piece.parts[id.index()].frame);
}

Result<std::vector<kernel::Solid>> buildSolids(const Piece& piece, const Progress& progress) {
  std::vector<Shared> shared;
  const std::vector<std::size_t> recipeOfPart = shareRecipes(piece, shared);
  std::vector<std::optional<kernel::Solid>> built(shared.size());
  const auto build = [&](std::size_t i) -> Result<void> {
    Result<kernel::Solid> solid = kernel::build(shared[i].recipe);
    if (!solid) return tl::unexpected(solid.error().within(piece.part(shared[i].first).name));
    built[i] = std::move(*solid);
    return {};
  };
  if (const auto done = inParallel(shared.size(), build, progress); !done) {
    return tl::unexpected(done.error());
  }
  std::vector<kernel::Solid> solids;
  solids.reserve(recipeOfPart.size());
  for (const std::size_t recipe : recipeOfPart) solids.push_back(*built[recipe]);
  return solids;
}

Result<std::vector<Finding>> checkPiece(const Piece& piece,
                                        const std::vector<kernel::Solid>& solids,
                                        const Progress& progress) {
  const CheckInput input{piece, solids};
  const int all = static_cast<int>(checks().size());
  int done = 0;
  std::vector<Finding> findings;
  for (const CheckRow& row : checks()) {
    if (progress && !progress(done, all)) return fail(ErrorCode::cancelled, "stopped");
    if (const auto ran = row.run(input, findings); !ran) {
      return tl::unexpected(ran.error().within(std::string(row.name)));
    }
    ++done;
  }
  if (progress && !progress(done, all)) return fail(ErrorCode::cancelled, "stopped");
  std::stable_sort(findings.begin(), findings.end(), comesBefore);
  return findings;
}

Result<DryFit> dryFit(const Model& model, Basis basis, const Progress& progress) {
  Result<Piece> piece = evaluate(model, basis);
  if (!piece) return tl::unexpected(piece.error());
  Result<std::vector<kernel::Solid>> solids = buildSolids(*piece, progress);
  if (!solids) return tl::unexpected(solids.error());
  Result<std::vector<Finding>> findings = checkPiece(*piece, *solids, progress);
  if (!findings) return tl::unexpected(findings.error());
  return DryFit{std::move(*piece), std::move(*solids), std::move(*findings)};
}

}  // namespace dryfit::joinery
