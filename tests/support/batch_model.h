#pragma once

#include <cstddef>

#include "joinery/model/model.h"

namespace dryfit::test {

/// A batch of frame-and-panel doors, five parts and five joints each, laid out in rows that touch
/// nothing: `parts` / 5 doors, rounded up. Sizes are invented and differ from door to door, so that
/// hardly two parts are alike; the same `parts` always give the same batch.
[[nodiscard]] joinery::Model batchOfDoors(std::size_t parts);

/// A dowelled bookcase: two sides and `shelves` shelves between them, each dowelled at both ends.
[[nodiscard]] joinery::Model dowelledShelves(int shelves);

}  // namespace dryfit::test
