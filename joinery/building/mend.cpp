#include "joinery/building/mend.h"

#include <algorithm>

#include "joinery/base/plain_text.h"

namespace dryfit::joinery {

std::vector<Mend> mendsOf(const DryFit& fit) {
  std::vector<Mend> mends;
  for (const Finding& finding : fit.findings) {
    for (const MendingNumber& change : finding.changes) {
      const auto same =
          std::ranges::find_if(mends, [&](const Mend& known) { return known.change == change; });
      if (same != mends.end()) {
        same->putsRight.push_back(finding.text);
      } else {
        mends.push_back({change, fit.piece.joint(change.joint).name, {finding.text}});
      }
    }
  }
  return mends;
}

Result<void> applyMend(ModelFile& file, const Mend& mend) {
  const Unit unit = file.model().unit;
  const std::string value =
      mend.change.value ? numberText(*mend.change.value / millimetresIn(unit)) : std::string();
  return file.setJointParameter(mend.joint, mend.change.parameter, value);
}

}  // namespace dryfit::joinery
