#include "joinery/model/model.h"

#include <algorithm>

namespace dryfit::joinery {

std::size_t ownDimensions(const Model& model) {
  const auto copied = std::ranges::find_if(model.dimensions, [](const Dimension& dimension) {
    return dimension.name.find('.') != std::string::npos;
  });
  return static_cast<std::size_t>(copied - model.dimensions.begin());
}

}  // namespace dryfit::joinery
