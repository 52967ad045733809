#pragma once

#include <QString>

#include "joinery/fit/live_fit.h"
#include "viewer/document/bench_document.h"

namespace dryfit::viewer {

/// What the dry fit would find that it does not find now, if this edit were done; empty where that
/// cannot be said.
[[nodiscard]] QString dryFitWords(const BenchDocument& document, joinery::LiveFit& trials,
                                  const BenchDocument::Edit& edit);

}  // namespace dryfit::viewer
