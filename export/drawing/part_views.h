#pragma once

#include <optional>

#include "export/drawing/part_context.h"
#include "export/drawing/projection.h"

namespace dryfit::exporting {

/// The pictures of a part: what is seen of it when it is rolled over toward the reader.
struct PartPictures {
  Projection front;                              ///< face side
  Projection edge;                               ///< face edge
  Projection end;                                ///< from the left
  std::optional<Projection> oppositeEdge, back;  ///< only where a joint enters there
};
/// Error: libraryFailure.
[[nodiscard]] Result<PartPictures> picturesOf(const PartContext& context);

/// Where the back's view stands, of a part that has joints there.
enum class BackPlace {
  below,  ///< under the face edge
  beside  ///< right of the end view, level with the highest: for short, wide parts
};

/// The views at one scale, in first angle projection: face edge below the face side, left end at
/// the right. They keep their places to each other: the front view's origin is at (0, 0).
[[nodiscard]] std::vector<Ink> drawPartViews(const PartContext& context,
                                             const PartPictures& pictures, double scale,
                                             BackPlace backPlace = BackPlace::below);

}  // namespace dryfit::exporting
