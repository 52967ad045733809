#pragma once

#include <optional>
#include <string>
#include <vector>

#include "export/drawing/part_context.h"
#include "export/drawing/projection.h"

namespace dryfit::exporting {

/// An enlarged end view or section that shows the joints' sizes across the part.
struct Detail {
  Projection view;
  std::optional<Box2> window;  ///< what of it is shown, true mm; none: all
  bool section = false;
  int axis = 0;   ///< the part's axis along which it is seen
  double at = 0;  ///< of a section: the place of its plane along the axis
  std::string title;
  std::string note;                   ///< which way it lies
  std::vector<std::size_t> features;  ///< dimensioned in it; indices into PlacedPart::features

  /// Size of what is shown, true mm.
  [[nodiscard]] Box2 shown() const { return window.value_or(view.bounds()); }
};

/// The box of a feature as the detail shows it: of a sloped cut, what the section's plane meets.
[[nodiscard]] kernel::Box3 shownExtent(const Detail& detail, const joinery::Feature& feature);

/// The details that together show each row of the table once, most telling first.
/// Error: libraryFailure.
[[nodiscard]] Result<std::vector<Detail>> detailsOf(const PartContext& context);

/// A detail on paper, with its dimensions and title.
[[nodiscard]] Ink drawDetail(const PartContext& context, const Detail& detail, double scale);

/// "1:2", "1:1", "2:1".
[[nodiscard]] std::string scaleText(double scale);

}  // namespace dryfit::exporting
