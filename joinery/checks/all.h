#pragma once

#include <vector>

#include "joinery/checks/checks.h"

/// One function a check; each appends its findings. Rows of the table in checks.cpp.
namespace dryfit::joinery::checking {

/// Two finished parts share wood.
[[nodiscard]] Result<void> interference(const CheckInput& input, std::vector<Finding>& findings);
/// Cuts of two joints meet inside one part, or cut a tenon away.
[[nodiscard]] Result<void> clash(const CheckInput& input, std::vector<Finding>& findings);
/// A cut leaves too thin a wall, or none.
[[nodiscard]] Result<void> breakout(const CheckInput& input, std::vector<Finding>& findings);
/// Mates do not touch where they should.
[[nodiscard]] Result<void> gap(const CheckInput& input, std::vector<Finding>& findings);
/// A joint of which nothing can be cut, and a part of which nothing is left.
[[nodiscard]] Result<void> notCut(const CheckInput& input, std::vector<Finding>& findings);
/// Parts that no joint, no hardware and no part below holds.
[[nodiscard]] Result<void> unsupported(const CheckInput& input, std::vector<Finding>& findings);
/// Mates that share too little of their faces to carry each other.
[[nodiscard]] Result<void> meeting(const CheckInput& input, std::vector<Finding>& findings);
/// Doors and lids without room to turn.
[[nodiscard]] Result<void> swing(const CheckInput& input, std::vector<Finding>& findings);
/// Loose and tight joints.
[[nodiscard]] Result<void> fit(const CheckInput& input, std::vector<Finding>& findings);
/// Short grain, and glued restraint across the grain.
[[nodiscard]] Result<void> grain(const CheckInput& input, std::vector<Finding>& findings);
/// The piece against what the client asked for.
[[nodiscard]] Result<void> envelope(const CheckInput& input, std::vector<Finding>& findings);
/// Proportions outside the trade's range.
[[nodiscard]] Result<void> proportion(const CheckInput& input, std::vector<Finding>& findings);
/// Tapers that run under joints.
[[nodiscard]] Result<void> taper(const CheckInput& input, std::vector<Finding>& findings);
/// Parts that are made, and no longer what the design asks for.
[[nodiscard]] Result<void> locked(const CheckInput& input, std::vector<Finding>& findings);
/// Copies that are measured or marked, of which there are not so many.
[[nodiscard]] Result<void> setAside(const CheckInput& input, std::vector<Finding>& findings);
/// What each kind of joint alone can know.
[[nodiscard]] Result<void> jointKinds(const CheckInput& input, std::vector<Finding>& findings);
/// Takes all that was found of a joint whose numbers are left to the rules together: its wood does
/// not suit its kind. REQUIRES: the checks above are done.
[[nodiscard]] Result<void> unsuited(const CheckInput& input, std::vector<Finding>& findings);
/// Leaves of the mends found so far those that make no other finding, and says what else would do.
[[nodiscard]] Result<void> mends(const CheckInput& input, std::vector<Finding>& findings);

}  // namespace dryfit::joinery::checking
