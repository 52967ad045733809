#pragma once

#include <functional>
#include <string>
#include <vector>

#include "tests/support/joint_bench.h"

namespace dryfit::test {

/// Stock and widths of two mates, mm.
struct MeetingSizes {
  double stock = 20, width = 60;            ///< of the part that goes in
  double otherStock = 20, otherWidth = 60;  ///< of the part that takes it
};

/// One way in which parts meet, and the kinds of joint that are meant for it.
struct MeetingWay {
  std::string name;
  std::vector<std::string> kinds;
  /// The parts alone. `kind` fills the joint "made" between them.
  std::function<ModelText(const MeetingSizes& sizes)> parts;
  std::string first, second;           ///< the parts that fill the kind's two roles
  std::vector<std::string> more = {};  ///< further parts of the second role
};

/// All ways in which the kinds of joint are meant to be used.
[[nodiscard]] const std::vector<MeetingWay>& meetingWays();

/// The parts of a way, joined by a kind with all its numbers left to the rules.
[[nodiscard]] ModelText meeting(const MeetingWay& way, const std::string& kind,
                                const MeetingSizes& sizes);

}  // namespace dryfit::test
