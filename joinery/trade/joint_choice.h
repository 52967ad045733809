#pragma once

#include <span>
#include <string_view>

namespace dryfit::joinery {

/// How two parts meet: by which side of the first and which of the second. An end shows end grain,
/// an edge is a narrow long side, a face a wide one; parts that pass through each other cross.
enum class MeetingWay { endToEdge, endToFace, endToEnd, edgeToEdge, edgeToFace, faceToFace, cross };
/// "an end on an edge", ...
[[nodiscard]] std::string_view nameOf(MeetingWay way);

/// A kind of joint for a way of meeting.
struct JointChoice {
  MeetingWay way;
  std::string_view kind;
  std::string_view first, second;  ///< roles of the first and the second part
  std::string_view why;            ///< what speaks for it
};

/// What the trade would think of, the usual before the rest.
[[nodiscard]] std::span<const JointChoice> jointChoices();

/// The same for a panel within the thickness of its frame, the frame's members in one role.
[[nodiscard]] std::span<const JointChoice> panelChoices();

}  // namespace dryfit::joinery
