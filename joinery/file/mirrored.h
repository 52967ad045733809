#pragma once

#include <array>
#include <optional>
#include <string>

#include "joinery/base/face.h"
#include "joinery/file/json_document.h"
#include "joinery/joints/joint_kind.h"

namespace dryfit::joinery {

/// Where the coordinates of a description lie in the piece, along one axis: as they are described,
/// or mirrored, and moved. Coordinates are texts of expressions.
struct AxisPlacing {
  bool flipped = false;
  std::string offset;  ///< an expression; empty: none. Never empty where flipped.

  [[nodiscard]] bool plain() const { return !flipped && offset.empty(); }
  /// Of the piece, for one of the description.
  [[nodiscard]] std::string placed(const std::string& described) const;
  /// Of the description, for one of the piece.
  [[nodiscard]] std::string described(const std::string& placed) const;
  /// This one, of what was mirrored about the plane at `plane` (of the description) before.
  [[nodiscard]] AxisPlacing afterMirrorAt(const std::string& plane) const;
};

/// The same along all three axes: a mirror image across none, one or more of them.
struct MirrorPlacing {
  std::array<AxisPlacing, 3> axes;

  [[nodiscard]] bool plain() const;
  [[nodiscard]] const AxisPlacing& along(Axis axis) const {
    return axes[static_cast<std::size_t>(axis)];
  }
  /// The face of the image that is the image of this face.
  [[nodiscard]] Face image(Face face) const;

  // The image of an entry of a model file, whose expressions are already those of the piece but
  // for coordinates, which are still the description's. What is not of the right form is left for
  // the reader of the model.
  void placePart(JsonNode& part) const;
  void placeTurn(JsonNode& turn) const;
  void placeTaper(JsonNode& taper) const;
  /// `thickness` is the axis of the thickness of the part in the kind's first role.
  void placeJoint(JsonNode& joint, const JointKind& kind, std::optional<Axis> thickness) const;
  /// A joint's parameter as it is written for the image: its key, and its value in place.
  [[nodiscard]] std::string placeParameter(const std::string& key, JsonNode& value,
                                           const JointKind& kind,
                                           std::optional<Axis> thickness) const;
};

/// "x", "y" or "z"; none for other texts.
[[nodiscard]] std::optional<Axis> axisNamed(const std::string& word);

}  // namespace dryfit::joinery
