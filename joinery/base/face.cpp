#include "joinery/base/face.h"

#include <array>

namespace dryfit::joinery {
namespace {

constexpr std::array<std::string_view, 6> kFaceNames{"left", "right",  "front",
                                                     "back", "bottom", "top"};

}  // namespace

std::string_view nameOf(Face f) {
  return kFaceNames[static_cast<std::size_t>(f)];
}

std::string_view nameOf(PartAxis axis) {
  switch (axis) {
    case PartAxis::length:
      return "length";
    case PartAxis::width:
      return "width";
    case PartAxis::thickness:
      return "thickness";
  }
  return "";
}

std::optional<Face> faceNamed(std::string_view name) {
  for (std::size_t i = 0; i < kFaceNames.size(); ++i) {
    if (kFaceNames[i] == name) return static_cast<Face>(i);
  }
  return std::nullopt;
}

}  // namespace dryfit::joinery
