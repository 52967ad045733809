#include "joinery/fit/solid_store.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "joinery/base/parallel.h"

namespace dryfit::joinery {
namespace {

constexpr int kStatesKept = 8;

/// A recipe that must still be built, and the lowest part made by it.
struct Missing {
  std::uint64_t key;
  kernel::Recipe recipe;
  PartId first;
};

}  // namespace

/// Keys of unequal recipes may meet, so the recipes themselves decide.
SolidStore::Made* SolidStore::find(std::uint64_t key, const kernel::Recipe& recipe) {
  const auto [from, to] = solids_.equal_range(key);
  const auto found =
      std::find_if(from, to, [&](const auto& entry) { return entry.second.recipe == recipe; });
  return found == to ? nullptr : &found->second;
}

void SolidStore::dropOld() {
  std::erase_if(solids_,
                [&](const auto& entry) { return entry.second.lastAsked + kStatesKept <= state_; });
}

Result<std::vector<kernel::Solid>> SolidStore::solidsOf(const Piece& piece,
                                                        const Progress& progress) {
  ++state_;
  built_ = 0;
  std::vector<std::pair<std::uint64_t, kernel::Recipe>> wanted;
  std::vector<Missing> missing;
  std::unordered_multimap<std::uint64_t, std::size_t> listed;  // places in `missing`
  for (const PlacedPart& part : piece.parts) {
    kernel::Recipe recipe = part.recipe();
    const std::uint64_t key = kernel::contentKey(recipe);
    const auto [from, to] = listed.equal_range(key);
    const bool known =
        find(key, recipe) != nullptr || std::any_of(from, to, [&](const auto& entry) {
          return missing[entry.second].recipe == recipe;
        });
    if (!known) {
      listed.emplace(key, missing.size());
      missing.push_back({key, recipe, part.id});
    }
    wanted.emplace_back(key, std::move(recipe));
  }
  std::vector<std::optional<kernel::Solid>> built(missing.size());
  const auto build = [&](std::size_t i) -> Result<void> {
    Result<kernel::Solid> solid = kernel::build(missing[i].recipe);
    if (!solid && solid.error().code == ErrorCode::emptyResult) {
      // The check tells of it; all else goes on with the part as it is before its joints.
      solid = kernel::makeBox(piece.parts[missing[i].first.index()].blank());
    }
    if (!solid) return tl::unexpected(solid.error().within(piece.part(missing[i].first).name));
    built[i] = std::move(*solid);
    return {};
  };
  if (const auto done = inParallel(missing.size(), build, progress); !done) {
    return tl::unexpected(done.error());
  }
  for (std::size_t i = 0; i < missing.size(); ++i) {
    solids_.emplace(missing[i].key, Made{std::move(missing[i].recipe), *built[i], state_});
  }
  built_ = static_cast<int>(missing.size());
  std::vector<kernel::Solid> solids;
  solids.reserve(wanted.size());
  for (const auto& [key, recipe] : wanted) {
    Made* made = find(key, recipe);
    made->lastAsked = state_;
    solids.push_back(made->solid);
  }
  dropOld();
  return solids;
}

}  // namespace dryfit::joinery
