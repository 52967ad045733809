#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "joinery/file/part_edits.h"
#include "joinery/fit/live_fit.h"
#include "joinery/trade/joint_choice.h"

namespace dryfit::joinery {

/// A joint that two parts could have.
struct JointProposal {
  NewJoint joint;
  std::string why;                ///< what speaks for its kind here
  std::vector<Finding> findings;  ///< what the dry fit would find with it that it does not find now
  std::vector<std::string> mends;   ///< findings of now that would be gone: their sentences
  std::vector<JointValue> numbers;  ///< of the joint, as the rules would have them
  int errors = 0, warnings = 0;
};

/// How two parts meet in a piece, and which of them is the first of that way; none where no sides
/// of theirs touch.
struct PartsMeeting {
  MeetingWay way = MeetingWay::cross;
  PartId first, second;
};
[[nodiscard]] std::optional<PartsMeeting> meetingOf(const Piece& piece, PartId a, PartId b);

/// The kinds that could join two parts, each tried in the piece: those with the fewest errors, then
/// warnings, first, else as usual in the trade. Kinds that cannot be cut there are left out. Empty
/// where the parts do not meet. Errors: those of the dry fit of the model as it is.
[[nodiscard]] Result<std::vector<JointProposal>> proposeJoints(const ModelFile& file, PartId a,
                                                               PartId b, LiveFit& live);

/// Pairs of parts that meet and have no joint, in the order of their numbers. A thin panel in a
/// frame is one meeting with all its members.
struct OpenMeeting {
  std::vector<PartId> parts;  ///< two; or a panel and its frame
};
[[nodiscard]] std::vector<OpenMeeting> openMeetings(const Piece& piece);

/// The best proposal for every open meeting, each tried with those before it in place. `progress`
/// counts meetings. Errors: those of the dry fit; cancelled.
[[nodiscard]] Result<std::vector<JointProposal>> joinAllThatMeet(const ModelFile& file,
                                                                 LiveFit& live,
                                                                 const Progress& progress = {});

}  // namespace dryfit::joinery
