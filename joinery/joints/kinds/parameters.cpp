#include "joinery/joints/kinds/parameters.h"

#include <array>

namespace dryfit::joinery {
namespace {

constexpr std::array<std::string_view, 6> kFaces{"left", "right", "front", "back", "bottom", "top"};

}  // namespace

Parameter lengthParameter(std::string_view name, std::string_view meaning) {
  return {name, Parameter::Type::length, meaning, {}};
}

Parameter faceParameter(std::string_view name, std::string_view meaning) {
  return {name, Parameter::Type::word, meaning, {kFaces.begin(), kFaces.end()}};
}

Parameter meetingFace() {
  return faceParameter("face", "face of the first part that meets the second");
}

Parameter fitParameter() {
  return lengthParameter("fit", "play across both cheeks");
}

Parameter bottomClearanceParameter() {
  return lengthParameter("bottom_clearance",
                         "how much deeper the mortise or groove is than what goes in");
}

std::vector<Parameter> tenonParameters() {
  return {
      meetingFace(),
      lengthParameter("tenon_thickness", "width of the mortise and of its cutter"),
      lengthParameter("tenon_width", "length of the mortise along its face"),
      lengthParameter("tenon_length", "length of the tenon from its shoulder"),
      lengthParameter("offset",
                      "of the tenon from the middle of the thickness, toward the far side"),
      lengthParameter("shoulder_left", "shoulder of the tenon on the left"),
      lengthParameter("shoulder_right", "shoulder of the tenon on the right"),
      lengthParameter("shoulder_front", "shoulder of the tenon at the front"),
      lengthParameter("shoulder_back", "shoulder of the tenon at the back"),
      lengthParameter("shoulder_bottom", "shoulder of the tenon at the bottom"),
      lengthParameter("shoulder_top", "shoulder of the tenon at the top"),
      fitParameter(),
      bottomClearanceParameter(),
  };
}

std::vector<Parameter> joined(std::vector<Parameter> list, std::initializer_list<Parameter> more) {
  list.insert(list.end(), more.begin(), more.end());
  return list;
}

}  // namespace dryfit::joinery
