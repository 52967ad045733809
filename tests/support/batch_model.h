#pragma once

#include <cstddef>

#include "joinery/model.h"

namespace dryfit::test {

/// A batch of frame-and-panel doors, five parts and five joints each, laid out in rows that touch
/// nothing: `parts` / 5 doors, rounded up. Sizes are invented and differ from door to door, so that
/// hardly two parts are alike; the same `parts` always give the same batch.
[[nodiscard]] joinery::Model batchOfDoors(std::size_t parts);

}  // namespace dryfit::test
