#pragma once

#include <initializer_list>
#include <string_view>
#include <vector>

#include "joinery/joints/joint_kind.h"

namespace dryfit::joinery {

/// A length that an author may set.
[[nodiscard]] Parameter lengthParameter(std::string_view name, std::string_view meaning);
/// A word for one of the six faces.
[[nodiscard]] Parameter faceParameter(std::string_view name, std::string_view meaning);

/// `face`: which face of the first mate meets the second.
[[nodiscard]] Parameter meetingFace();
/// `fit`: play across both cheeks.
[[nodiscard]] Parameter fitParameter();
/// `bottom_clearance`: how much deeper the pocket is than what goes into it.
[[nodiscard]] Parameter bottomClearanceParameter();
/// What every tenon shares: face, its three sizes, offset, six shoulders, fit, bottom_clearance.
[[nodiscard]] std::vector<Parameter> tenonParameters();
/// `list` with `more` behind it.
[[nodiscard]] std::vector<Parameter> joined(std::vector<Parameter> list,
                                            std::initializer_list<Parameter> more);

}  // namespace dryfit::joinery
