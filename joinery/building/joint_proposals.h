#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "joinery/file/part_edits.h"
#include "joinery/fit/live_fit.h"
#include "joinery/trade/joint_choice.h"

namespace dryfit::joinery {

/// One mate of a joint that is tried: its wood without the joint and with it.
struct MateHalf {
  PartId part;
  kernel::Solid before, after;  ///< in the part's frame
  kernel::Frame frame;          ///< of the part, to the piece
  kernel::Box3 place;           ///< of what the joint cuts or leaves standing, in the part's frame
  LocalFace face;               ///< of the part, that it stands on or enters by
};

/// A joint that two parts could have.
struct JointProposal {
  NewJoint joint;
  std::string why;                ///< what speaks for its kind here
  std::vector<Finding> findings;  ///< what the dry fit would find with it that it does not find now
  std::vector<std::string> mends;   ///< findings of now that would be gone: their sentences
  std::vector<JointValue> numbers;  ///< of the joint, as the rules would have them
  int errors = 0, warnings = 0;
  std::vector<MateHalf> halves = {};  ///< in the order of the mates; none of a joint that cuts none
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

/// A joint tried in the piece as it is given, numbers of its author's included. Errors: those of
/// addJoint and of the dry fit; what cannot be cut, as its kind tells it.
[[nodiscard]] Result<JointProposal> tryJoint(const ModelFile& file, const NewJoint& joint,
                                             const std::string& why, LiveFit& live);

/// Pairs of parts that meet and have no joint, in the order of their numbers. A thin panel in a
/// frame is one meeting with all its members.
struct OpenMeeting {
  std::vector<PartId> parts;  ///< two; or a panel and its frame
};
[[nodiscard]] std::vector<OpenMeeting> openMeetings(const Piece& piece);

/// A meeting and the joints that it could have, the best first; never none.
struct MeetingChoices {
  std::vector<JointProposal> choices;
};
/// All proposals for every open meeting that has any, each meeting tried with the best of those
/// before it in place. `progress` counts meetings. Errors: those of the dry fit; cancelled.
[[nodiscard]] Result<std::vector<MeetingChoices>> choicesWhereAllMeet(
    const ModelFile& file, LiveFit& live, const Progress& progress = {});

/// The best of each. Errors: the same.
[[nodiscard]] Result<std::vector<JointProposal>> joinAllThatMeet(const ModelFile& file,
                                                                 LiveFit& live,
                                                                 const Progress& progress = {});

}  // namespace dryfit::joinery
