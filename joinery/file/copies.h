#pragma once

#include <string>
#include <vector>

#include "joinery/file/json_document.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// How often one part is there, and under which names.
struct Copies {
  bool repeated = false;
  int count = 1;  ///< 0: left out

  [[nodiscard]] std::vector<std::string> names(const std::string& part) const;
};

/// Puts numbers for `copy` and `copies` into all texts below a node, notes and labels left aside.
void numberCopies(JsonNode& node, int copy, int copies);

/// Places a part's copies as the `spread` of its `repeat` says: evenly between two faces, so that
/// what is clear between them, and beside the outer ones, is all the same. The place is an
/// expression in `copy` and `copies`. Error: badModel; `place` is that of the `repeat`.
[[nodiscard]] Result<void> spreadCopies(JsonNode& part, const JsonNode& repeat,
                                        const std::string& place);

}  // namespace dryfit::joinery
