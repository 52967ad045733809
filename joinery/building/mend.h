#pragma once

#include <string>
#include <vector>

#include "joinery/file/model_file.h"
#include "joinery/fit/dry_fit.h"

namespace dryfit::joinery {

/// A change of one number that would put one finding right, or several alike.
struct Mend {
  MendingNumber change;
  std::string joint;                   ///< its name
  std::vector<std::string> putsRight;  ///< sentences of the findings
};

/// The changes that the findings of a dry fit propose, each proved by the check, those of the worst
/// findings first; one that is proposed by several findings is named once.
[[nodiscard]] std::vector<Mend> mendsOf(const DryFit& fit);

/// Makes the change. Where its joint is one of copies, all of them get it. Errors: as
/// ModelFile::setJointParameter.
[[nodiscard]] Result<void> applyMend(ModelFile& file, const Mend& mend);

}  // namespace dryfit::joinery
