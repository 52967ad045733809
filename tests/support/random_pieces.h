#pragma once

#include <cstdint>
#include <random>

#include "kernel/recipe.h"

namespace dryfit::test {

/// The seed of the random tests: the environment variable DRYFIT_SEED, else one fixed number, so
/// that a run is repeatable. Random tests print it when they fail.
[[nodiscard]] std::uint64_t seed();

/// What kinds of work a random piece may have.
struct PieceKind {
  bool turned = false;  ///< some removals out of square to the part
  bool round = false;   ///< some removals are bored holes
};

/// A random piece of furniture wood: a blank of 30 to 900 mm, up to three additions, one to five
/// removals. Sizes lie on a 0.5 mm grid with half of the tools flush with a face of the blank, so
/// that coplanar faces, touching corners and tools that miss occur as they do in joinery.
[[nodiscard]] kernel::Recipe randomPiece(std::mt19937_64& random, PieceKind kind = {});

/// A random rigid placement within a metre of the origin.
[[nodiscard]] kernel::Frame randomFrame(std::mt19937_64& random);

/// A random box that shares space with `within`, maybe reaching past it.
[[nodiscard]] kernel::Box3 randomBoxIn(std::mt19937_64& random, const kernel::Box3& within);

}  // namespace dryfit::test
