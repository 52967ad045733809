#pragma once

#include <optional>
#include <span>
#include <vector>

#include "kernel/recipe.h"
#include "kernel/square_work.h"

namespace dryfit::kernel {

/// A round hole square to the part, before it is known where it meets the wood.
struct RoundHole {
  int axis = 0;
  bool up = true;  ///< bored towards +axis
  double low = 0, high = 0;
  Point3 at;  ///< a point of its middle line
  double radius = 0;
};

/// A recipe taken apart into its boxes and its round holes.
struct BoredRecipe {
  Recipe square;
  std::vector<RoundHole> holes;
};

/// Nothing where a tool is neither a box nor a round hole along an axis of the part, or where wood
/// is added later that a hole might have to go through.
[[nodiscard]] std::optional<BoredRecipe> takeApart(const Recipe& recipe);

/// Bores the holes into finished square work: fills `bores` and puts the measures right. Holes that
/// miss the wood, or touch it and no more, are dropped. False, with `bores` spoilt, where a hole is
/// not clear of everything: it must enter by one face, end in wood or leave by one other face of
/// the same shell, and touch no other edge, face or hole.
[[nodiscard]] bool bore(SquareWork& work, std::span<const RoundHole> holes);

/// Box round the wood that a bore takes away.
[[nodiscard]] Box3 boundsOf(const SquareWork::Bore& bore);

}  // namespace dryfit::kernel
