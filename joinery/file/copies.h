#pragma once

#include <string>
#include <vector>

#include "joinery/base/face.h"
#include "joinery/file/fixed_numbers.h"
#include "joinery/file/json_document.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// How often one part is there, and under which names.
struct Copies {
  bool repeated = false;
  int count = 1;  ///< 0: left out

  [[nodiscard]] std::vector<std::string> names(const std::string& part) const;
};

/// Puts numbers for `copy` and `copies` into all texts below a node, and into names that end in
/// "_copy" (the copy of this number) and "_next" (of the one behind it). Notes and labels are left
/// aside.
void numberCopies(JsonNode& node, int copy, int copies);

/// A plane that something is mirrored about: across an axis, at an expression.
struct MirrorPlane {
  Axis across = Axis::x;
  std::string at;
};

/// Reads planes of mirrors: {"x": "width / 2"}. Where there is an opening (its hidden names start
/// with `opening`, none where that is empty), "x" or ["x", "y"] stands for the planes through its
/// middle. Error: badModel.
[[nodiscard]] Result<std::vector<MirrorPlane>> mirrorPlanes(const JsonNode& node,
                                                            const std::string& opening,
                                                            const std::string& place);

/// The planes that mirror copy number `copy` (from 1), where each plane doubles the copies: the
/// first is as it is described.
[[nodiscard]] std::vector<MirrorPlane> planesOfCopy(const std::vector<MirrorPlane>& planes,
                                                    int copy);

/// How often `repeat` lets something be there, and its spread and mirrors where it has them. Checks
/// its form. Error: badModel, and those of the count.
struct Repeat {
  int count = 1;
  const JsonNode* spread = nullptr;
  const JsonNode* mirrored = nullptr;  ///< each of its planes doubles the copies
};
[[nodiscard]] Result<Repeat> repeatIn(const JsonNode& node, FixedNumbers& numbers,
                                      const std::string& place);

/// Places a part's copies as a `spread` says: evenly between two faces, so that what is clear
/// between them, and beside the outer ones, is all the same. The place is an expression in `copy`
/// and `copies`. Error: badModel; `place` is that of the `spread`.
[[nodiscard]] Result<void> spreadCopies(JsonNode& part, const JsonNode& spread,
                                        const std::string& place);

/// The same of a use: the space between two faces becomes as many openings as there are copies,
/// with `between` left free between them.
[[nodiscard]] Result<void> spreadOpenings(JsonNode& use, const JsonNode& spread,
                                          const std::string& place);

/// Nothing is there more often than this.
inline constexpr int kMostCopies = 1000;

}  // namespace dryfit::joinery
