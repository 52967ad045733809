#pragma once

#include "joinery/file/assemblies.h"
#include "joinery/file/flat_document.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// Writes the `uses` of a document out: every dimension, group, part, joint, taper and piece of
/// hardware of each copy, under the copy's name and a dot, in the names and coordinates of the
/// piece. Hidden dimensions "COPY.opening.left" and "COPY.reflected.x" hold where a copy stands.
/// Errors: badModel, badExpression, unknownName, cycle, countUnfit.
[[nodiscard]] Result<FlatDocument> writeOutUses(const JsonNode& document,
                                                const AssemblyTable& descriptions);

/// True for a hidden dimension: "drawer_2.opening.left".
[[nodiscard]] bool isOfPlace(const std::string& dimension);

/// What all sub-assemblies together may come to, in parts.
inline constexpr int kMostParts = 20000;

}  // namespace dryfit::joinery
