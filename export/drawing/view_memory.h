#pragma once

#include <functional>
#include <mutex>
#include <optional>
#include <span>
#include <unordered_map>
#include <vector>

#include "export/drawing/projection.h"
#include "kernel/solid.h"

namespace dryfit::exporting {

/// Where a section cuts: square to an axis of the solid's space.
struct SectionPlane {
  int axis = 0;
  double at = 0;
  friend bool operator==(const SectionPlane&, const SectionPlane&) = default;
};

/// Pictures worked out before, so that a drawing made again works out only what changed.
///
/// A picture is taken over where it was made of the same bodies in the same places, seen from the
/// same side and cut in the same plane: all that it depends on. The bodies are kept, so that none
/// can be mistaken for another. May be asked from several threads at once.
class ViewMemory {
 public:
  using Work = std::function<Result<Projection>()>;
  /// The picture remembered, or what `work` gives, which is then remembered. Errors: those of
  /// `work`; they are not remembered.
  [[nodiscard]] Result<Projection> ask(std::span<const kernel::Solid> solids,
                                       const kernel::Viewpoint& eye,
                                       const std::optional<SectionPlane>& section,
                                       const Work& work);
  /// Drops what has not been asked for since this was last called.
  void forgetUnused();
  /// Pictures worked out so far, and not taken over.
  [[nodiscard]] int worked() const;

 private:
  struct Entry {
    std::vector<kernel::Solid> solids;
    kernel::Viewpoint eye;
    std::optional<SectionPlane> section;
    Projection picture;
    bool used = true;
  };
  mutable std::mutex mutex_;
  std::unordered_multimap<const void*, Entry> entries_;  // by the first body
  int worked_ = 0;
};

/// `project`, by memory where there is one.
[[nodiscard]] Result<Projection> projectOnce(ViewMemory* memory,
                                             std::span<const kernel::Solid> solids,
                                             const kernel::Viewpoint& eye);
/// `projectSection`, by memory where there is one.
[[nodiscard]] Result<Projection> projectSectionOnce(ViewMemory* memory, const kernel::Solid& solid,
                                                    const SectionPlane& plane,
                                                    const kernel::Viewpoint& eye);

}  // namespace dryfit::exporting
