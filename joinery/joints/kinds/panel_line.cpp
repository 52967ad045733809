#include "joinery/joints/kinds/panel_line.h"

#include "kernel/tolerance.h"

namespace dryfit::joinery {

std::optional<PanelLine> panelLine(const JointContext& context, const Mating& mating) {
  const int across = mating.thicknessAxis();
  const int along = mating.alongAxis();
  const Stretch blank = mating.blank(across);
  for (const Feature& groove : context.groovesIn(1)) {
    if (groove.face != mating.contact().otherFace) continue;
    const kernel::Box3 here = kernel::boundsOf(mating.toFirst(), groove.extent);
    const Stretch found{here.min[across], here.max[across]};
    if (found.size() > here.size()[along]) continue;  // it runs the other way
    if (found.lo < blank.lo - kernel::kContact || found.hi > blank.hi + kernel::kContact) continue;
    return PanelLine{found, groove.extent.size()[groove.face.axis]};
  }
  return std::nullopt;
}

}  // namespace dryfit::joinery
