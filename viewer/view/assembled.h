#pragma once

#include <memory>

#include "joinery/fit/dry_fit.h"

namespace dryfit::viewer {

struct PartShapes;

/// A finished dry fit with what the view needs to draw it. Never changed once made, so it may be
/// shared between the threads.
struct Assembled {
  std::shared_ptr<const joinery::DryFit> fit;  ///< never null
  std::shared_ptr<const PartShapes> shapes;
};

}  // namespace dryfit::viewer
