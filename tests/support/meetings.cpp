#include "tests/support/meetings.h"

#include <algorithm>

#include "joinery/joints/joint_kind.h"
#include "joinery/joints/joint_kinds.h"

namespace dryfit::test {
namespace {

using nlohmann::ordered_json;

constexpr double kLong = 900;

/// A rail meeting the inner edge of a stile, well away from its ends.
ModelText railInStile(const MeetingSizes& s) {
  ModelText text;
  text.part("stile", {"z", 0, 2 * kLong}, {"x", 0, s.otherWidth}, {"y", 0, s.otherStock})
      .part("rail", {"x", "stile.right", kLong}, {"z", kLong - s.width / 2, s.width},
            {"y", 0, s.stock});
  return text;
}

/// The same with the rail's edge level with the end of the stile.
ModelText railAtEnd(const MeetingSizes& s) {
  ModelText text;
  text.part("stile", {"z", 0, 2 * kLong}, {"x", 0, s.otherWidth}, {"y", 0, s.otherStock})
      .part("rail", {"x", "stile.right", kLong}, {"z", 2 * kLong - s.width, s.width},
            {"y", 0, s.stock});
  return text;
}

/// An apron meeting a square leg below its top, set back from the outer face.
ModelText apronInLeg(const MeetingSizes& s) {
  ModelText text;
  text.part("leg", {"z", 0, kLong}, {"x", 0, s.otherStock}, {"y", 0, s.otherStock})
      .part("apron", {"x", "leg.right", kLong}, {"z", kLong - s.width, s.width},
            {"y", (s.otherStock - s.stock) / 2, s.stock});
  return text;
}

/// A shelf meeting the face of an upright side.
ModelText shelfInSide(const MeetingSizes& s) {
  ModelText text;
  text.part("side", {"z", 0, 2 * kLong}, {"y", 0, s.width}, {"x", 0, s.otherStock})
      .part("shelf", {"x", "side.right", kLong}, {"y", 0, s.width}, {"z", kLong, s.stock});
  return text;
}

/// A ledge narrower than the side that it meets.
ModelText ledgeInSide(const MeetingSizes& s) {
  ModelText text;
  text.part("side", {"z", 0, 2 * kLong}, {"y", 0, 2 * s.width}, {"x", 0, s.otherStock})
      .part("ledge", {"x", "side.right", kLong}, {"y", s.width / 2, s.width},
            {"z", kLong, s.stock});
  return text;
}

/// The corner of a case: the end of the top meets the face of a side at its end.
ModelText caseCorner(const MeetingSizes& s) {
  ModelText text;
  text.part("side", {"z", 0, kLong}, {"y", 0, s.width}, {"x", 0, s.otherStock})
      .part("top", {"x", "side.right", kLong}, {"y", 0, s.width}, {"z", kLong - s.stock, s.stock});
  return text;
}

ModelText edgeToEdge(const MeetingSizes& s) {
  ModelText text;
  text.part("one", {"x", 0, kLong}, {"y", 0, s.width}, {"z", 0, s.stock})
      .part("two", {"x", 0, kLong}, {"y", "one.back", s.otherWidth}, {"z", 0, s.stock});
  return text;
}

/// A back between the two sides of a case.
ModelText backBetweenSides(const MeetingSizes& s) {
  const double depth = std::max(s.otherWidth, 2 * s.stock);
  ModelText text;
  text.part("left", {"z", 0, kLong}, {"y", 0, depth}, {"x", -s.otherStock, s.otherStock})
      .part("right", {"z", 0, kLong}, {"y", 0, depth}, {"x", s.width, s.otherStock})
      .part("back", {"z", 0, kLong}, {"x", 0, s.width}, {"y", depth - s.stock, s.stock});
  return text;
}

ModelText crossing(const MeetingSizes& s) {
  ModelText text;
  text.part("over", {"x", 0, kLong}, {"y", 0, s.width}, {"z", 0, s.stock})
      .part("under", {"y", -kLong / 2, kLong}, {"x", kLong / 2, s.otherWidth}, {"z", 0, s.stock});
  return text;
}

ModelText corner(const MeetingSizes& s) {
  ModelText text;
  text.part("over", {"x", 0, kLong}, {"y", 0, s.width}, {"z", 0, s.stock})
      .part("under", {"y", 0, kLong}, {"x", 0, s.otherWidth}, {"z", 0, s.stock});
  return text;
}

ModelText tee(const MeetingSizes& s) {
  ModelText text;
  text.part("over", {"x", 0, kLong}, {"y", 0, s.width}, {"z", 0, s.stock})
      .part("under", {"y", -kLong / 2, kLong}, {"x", 0, s.otherWidth}, {"z", 0, s.stock});
  return text;
}

/// A panel between two stiles and two rails that only butt. The panel is as thick as `stock`, the
/// frame as `otherStock`.
ModelText panelInFrame(const MeetingSizes& s) {
  const double member = s.otherWidth, thick = s.otherStock;
  const double panel = std::min(s.stock, thick);
  ModelText text;
  text.part("left", {"z", -member, kLong + 2 * member}, {"x", -member, member}, {"y", 0, thick})
      .part("right", {"z", -member, kLong + 2 * member}, {"x", s.width, member}, {"y", 0, thick})
      .part("bottom", {"x", 0, s.width}, {"z", -member, member}, {"y", 0, thick})
      .part("top", {"x", 0, s.width}, {"z", kLong, member}, {"y", 0, thick})
      .part("panel", {"z", 0, kLong}, {"x", 0, s.width}, {"y", (thick - panel) / 2, panel});
  return text;
}

/// The same with the panel's own joint, for what stands in its groove.
ModelText groovedFrame(const MeetingSizes& s) {
  MeetingSizes frame = s;
  frame.width = std::max(s.width, 60.0);
  frame.otherStock = s.stock;
  frame.stock = std::min(6.0, s.stock / 3);
  ModelText text = panelInFrame(frame);
  text.joint("panel", {{"kind", "panel-groove"},
                       {"panel", "panel"},
                       {"frame", {"left", "right", "bottom", "top"}}});
  return text;
}

}  // namespace

const std::vector<MeetingWay>& meetingWays() {
  static const std::vector<MeetingWay> ways = {
      {"a rail in a stile",
       {"blind-mortise-tenon", "through-mortise-tenon", "dowels", "butt", "stub-tenon-groove"},
       railInStile,
       "rail",
       "stile"},
      {"a rail at the end of a stile",
       {"haunched-mortise-tenon", "dowels"},
       railAtEnd,
       "rail",
       "stile"},
      {"an apron in a leg", {"haunched-mortise-tenon", "dowels"}, apronInLeg, "apron", "leg"},
      {"a shelf in a side",
       {"through-housing", "stopped-housing", "dowels", "tongue-groove", "butt"},
       shelfInSide,
       "shelf",
       "side"},
      {"a ledge in a side",
       {"through-housing", "stopped-housing", "dowels"},
       ledgeInSide,
       "ledge",
       "side"},
      {"a case corner", {"dowels", "rebate", "butt"}, caseCorner, "top", "side"},
      {"edge to edge", {"edge-joint", "tongue-groove", "dowels", "butt"}, edgeToEdge, "one", "two"},
      {"a back between sides", {"rebate"}, backBetweenSides, "back", "left", {"right"}},
      {"a crossing", {"half-lap"}, crossing, "over", "under"},
      {"a corner", {"half-lap"}, corner, "over", "under"},
      {"a tee", {"half-lap"}, tee, "over", "under"},
      {"a panel in a frame",
       {"panel-groove"},
       panelInFrame,
       "panel",
       "left",
       {"right", "bottom", "top"}},
      {"a rail in a grooved frame",
       {"stub-tenon-groove", "haunched-mortise-tenon"},
       groovedFrame,
       "top",
       "left"},
  };
  return ways;
}

ModelText meeting(const MeetingWay& way, const std::string& kind, const MeetingSizes& sizes) {
  const joinery::JointKind* found = joinery::jointKindNamed(kind);
  ordered_json joint{{"kind", kind}, {std::string(found->roles()[0].name), way.first}};
  ordered_json others{way.second};
  for (const std::string& part : way.more) others.push_back(part);
  if (way.more.empty()) others = way.second;
  joint[std::string(found->roles()[1].name)] = others;
  ModelText text = way.parts(sizes);
  text.joint("made", joint);
  return text;
}

}  // namespace dryfit::test
