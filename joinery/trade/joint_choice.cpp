#include "joinery/trade/joint_choice.h"

#include <array>

namespace dryfit::joinery {
namespace {

using enum MeetingWay;

// Which joint is usual where: common practice, from memory. Whether it suits the wood at hand is
// for the dry fit to say.
constexpr std::array kRows{
    JointChoice{endToEdge, "blind-mortise-tenon", "tenon", "mortise",
                "long grain glued to long grain, and nothing shows"},
    JointChoice{endToEdge, "haunched-mortise-tenon", "tenon", "mortise",
                "at the end of a stile: the haunch keeps the rail from twisting"},
    JointChoice{endToEdge, "stub-tenon-groove", "tenon", "groove",
                "where a groove for a panel runs along the edge anyway"},
    JointChoice{endToEdge, "through-mortise-tenon", "tenon", "mortise",
                "the strongest; it shows, and may be wedged"},
    JointChoice{endToEdge, "dowels", "end", "face", "quick to bore; weaker than a tenon"},
    JointChoice{endToEdge, "butt", "first", "second", "held by screws or other hardware"},
    JointChoice{endToFace, "stopped-housing", "shelf", "side",
                "carries the whole width of a shelf, and does not show in front"},
    JointChoice{endToFace, "through-housing", "shelf", "side",
                "carries the whole width of a shelf; easy to saw or rout"},
    JointChoice{endToFace, "blind-mortise-tenon", "tenon", "mortise",
                "for rails and legs: long grain glued to long grain"},
    JointChoice{endToFace, "dowels", "end", "face", "quick to bore, in boards of any width"},
    JointChoice{endToFace, "rebate", "inset", "rebated", "for drawer corners and backs"},
    JointChoice{endToFace, "butt", "first", "second", "held by screws or other hardware"},
    JointChoice{endToEnd, "dowels", "end", "face", "end grain takes no glue: dowels carry it"},
    JointChoice{endToEnd, "butt", "first", "second", "held by hardware"},
    JointChoice{edgeToEdge, "edge-joint", "first", "second",
                "glued, long grain to long grain: as strong as the wood"},
    JointChoice{edgeToEdge, "tongue-groove", "tongue", "groove",
                "lines the boards up, or lets them move unglued"},
    JointChoice{edgeToFace, "edge-joint", "first", "second", "glued along the grain"},
    JointChoice{edgeToFace, "tongue-groove", "tongue", "groove", "lines the edge up in its groove"},
    JointChoice{edgeToFace, "through-housing", "shelf", "side", "carries a board along its edge"},
    JointChoice{edgeToFace, "rebate", "inset", "rebated", "for backs: the edge is covered"},
    JointChoice{edgeToFace, "butt", "first", "second", "screwed: wide wood can move in slots"},
    JointChoice{faceToFace, "butt", "first", "second", "screwed: wide wood can move in slots"},
    JointChoice{faceToFace, "edge-joint", "first", "second", "glued where the grain runs alike"},
    JointChoice{cross, "half-lap", "over", "under", "both run through, flush"},
};

constexpr std::array kPanelRows{
    JointChoice{edgeToEdge, "panel-groove", "panel", "frame",
                "the panel lies loose in grooves, and can move"},
    JointChoice{edgeToEdge, "rebate", "inset", "rebated",
                "put in from one side, and held by strips"},
};

}  // namespace

std::string_view nameOf(MeetingWay way) {
  constexpr std::array<std::string_view, 7> kNames{
      "an end on an edge", "an end on a face", "an end on an end",     "an edge on an edge",
      "an edge on a face", "a face on a face", "one through the other"};
  return kNames[static_cast<std::size_t>(way)];
}

std::span<const JointChoice> panelChoices() {
  return kPanelRows;
}

std::span<const JointChoice> jointChoices() {
  return kRows;
}

}  // namespace dryfit::joinery
