#pragma once

#include <optional>
#include <span>
#include <vector>

#include "kernel/mesh.h"
#include "kernel/solid.h"

namespace dryfit::exporting {

/// Where lines of sight meet finished wood: tenons, cuts, tapers and all, round wood to the chords
/// of its mesh.
class SightLines {
 public:
  /// Of solids in frames of their own. Error: libraryFailure.
  [[nodiscard]] static Result<SightLines> of(std::span<const kernel::Solid> solids);

  /// How far along a line, in mm, it first meets the solid; none where it misses. The line is in
  /// the solid's space, `along` has length 1, and what lies behind `from` is not met.
  [[nodiscard]] std::optional<double> meets(std::size_t solid, kernel::Point3 from,
                                            kernel::Vec3 along) const;

 private:
  std::vector<kernel::Mesh> meshes_;  ///< one a body
  std::vector<std::size_t> meshOf_;   ///< by solid
};

}  // namespace dryfit::exporting
