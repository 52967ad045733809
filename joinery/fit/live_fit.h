#pragma once

#include <memory>

#include "joinery/fit/dry_fit.h"
#include "joinery/fit/solid_store.h"
#include "joinery/joints/cut_memory.h"
#include "joinery/joints/evaluate.h"

namespace dryfit::joinery {

/// What one update had to do anew; all else was taken over.
struct LiveWork {
  int numbers = 0;  ///< worked out: dimensions, faces and sizes
  int joints = 0;   ///< cut
  int solids = 0;   ///< built
  int pairs = 0;    ///< of parts, held against each other
};

/// The dry fit of a design that is being worked on. Each update redoes only what depends on what
/// changed since earlier ones.
///
/// Results are taken over by content: a number where its formula and all it reads are equal, a
/// joint where everything that its cut can read is equal, a solid where the recipes are equal, an
/// answer of the kernel where the solids and their places are equal. So nothing can go stale,
/// whatever the order of edits, even from one model to another.
///
/// Law: update(m, b, p, u) equals dryFit(m, b, p, u) in every number, recipe and finding, and in
/// its errors. After an error, or when cancelled, later updates go on as if that one had not been
/// asked for. One thread at a time; solids and pairs are worked on by all cores.
class LiveFit {
 public:
  [[nodiscard]] Result<std::shared_ptr<const DryFit>> update(const Model& model, Basis basis,
                                                             const Progress& progress = {},
                                                             Unit unit = Unit::mm);
  /// Work of the last update; of a failed one, what it did until it failed.
  [[nodiscard]] const LiveWork& work() const { return work_; }

 private:
  NumberMemory numbers_;
  SolidStore solids_;
  CheckMemory checks_;
  LiveWork work_;
};

}  // namespace dryfit::joinery
