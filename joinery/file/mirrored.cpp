#include "joinery/file/mirrored.h"

#include <algorithm>
#include <string_view>
#include <utility>

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

constexpr std::array<const char*, 3> kSpans{"length", "width", "thickness"};

bool isExpression(const JsonNode& node) {
  return node.is(Type::number) || node.is(Type::text);
}

void placeCoordinate(JsonNode* node, const AxisPlacing& axis) {
  if (node == nullptr || !isExpression(*node) || axis.plain()) return;
  *node = JsonNode::ofText(axis.placed(node->text));
}

void placeSpan(JsonNode& span, const MirrorPlacing& placing) {
  const JsonNode* along = span.find("along");
  const auto axis = along == nullptr ? std::nullopt : axisNamed(along->text);
  if (!axis) return;
  const AxisPlacing& where = placing.along(*axis);
  for (const char* key : {"from", "to", "centre"}) placeCoordinate(span.find(key), where);
  if (!where.flipped) return;
  for (JsonMember& member : span.members) {
    if (member.key == "from") {
      member.key = "to";
    } else if (member.key == "to") {
      member.key = "from";
    }
  }
}

/// Planes of mirrors: axis, coordinate.
void placePlanes(JsonNode* planes, const MirrorPlacing& placing) {
  if (planes == nullptr || !planes->is(Type::object)) return;
  for (JsonMember& plane : planes->members) {
    if (const auto axis = axisNamed(plane.key)) {
      placeCoordinate(&plane.value, placing.along(*axis));
    }
  }
}

void placeFaceWord(JsonNode* node, const MirrorPlacing& placing) {
  if (node == nullptr || !node->is(Type::text)) return;
  if (const auto face = faceNamed(node->text)) node->text = nameOf(placing.image(*face));
}

/// The same, of the other sign. A plain number stays one.
void negate(JsonNode& node) {
  if (node.is(Type::text)) {
    node = JsonNode::ofText("-(" + node.text + ")");
  } else if (node.text.starts_with('-')) {
    node.text.erase(0, 1);
  } else {
    node.text.insert(0, "-");
  }
}

bool hasParameter(const JointKind& kind, std::string_view name) {
  return std::ranges::any_of(kind.parameters(),
                             [&](const Parameter& own) { return own.name == name; });
}

}  // namespace

std::optional<Axis> axisNamed(const std::string& word) {
  if (word == "x") return Axis::x;
  if (word == "y") return Axis::y;
  if (word == "z") return Axis::z;
  return std::nullopt;
}

std::string AxisPlacing::placed(const std::string& described) const {
  if (plain()) return described;
  return flipped ? offset + " - (" + described + ")" : "(" + described + ") + " + offset;
}

std::string AxisPlacing::described(const std::string& placed) const {
  if (plain()) return placed;
  return flipped ? "(" + offset + " - " + placed + ")" : "(" + placed + " - " + offset + ")";
}

AxisPlacing AxisPlacing::afterMirrorAt(const std::string& plane) const {
  return {!flipped, placed("2 * (" + plane + ")")};
}

bool MirrorPlacing::plain() const {
  return std::ranges::all_of(axes, [](const AxisPlacing& axis) { return axis.plain(); });
}

Face MirrorPlacing::image(Face face) const {
  const Axis axis = axisOf(face);
  return faceOf(axis, isFarFace(face) != along(axis).flipped);
}

void MirrorPlacing::placePart(JsonNode& part) const {
  if (plain()) return;
  for (const char* name : kSpans) {
    if (JsonNode* span = part.find(name)) placeSpan(*span, *this);
  }
  if (JsonNode* turn = part.find("turn")) placeTurn(*turn);
  for (const char* key : {"face_side", "face_edge"}) placeFaceWord(part.find(key), *this);
  if (JsonNode* edging = part.find("edging")) {
    for (JsonMember& face : edging->members) placeFaceWord(&face.value, *this);
  }
  placePlanes(part.find("mirror"), *this);
  if (JsonNode* repeat = part.find("repeat")) placePlanes(repeat->find("mirrored"), *this);
}

void MirrorPlacing::placeTurn(JsonNode& turn) const {
  const JsonNode* about = turn.find("about");
  const auto axis = about == nullptr ? std::nullopt : axisNamed(about->text);
  if (JsonNode* at = turn.find("at"); at != nullptr && at->members.size() == 3) {
    for (std::size_t i = 0; i < 3; ++i) placeCoordinate(&at->members[i].value, axes[i]);
  }
  if (!axis) return;
  // A mirror turns the sense of every rotation but that about its own normal.
  bool other = false;
  for (const Axis mirror : {Axis::x, Axis::y, Axis::z}) {
    if (mirror != *axis && along(mirror).flipped) other = !other;
  }
  JsonNode* angle = turn.find("angle");
  if (!other || angle == nullptr || !isExpression(*angle)) return;
  negate(*angle);
}

void MirrorPlacing::placeTaper(JsonNode& taper) const {
  for (const char* key : {"face", "narrow_end"}) placeFaceWord(taper.find(key), *this);
}

std::string MirrorPlacing::placeParameter(const std::string& key, JsonNode& value,
                                          const JointKind& kind,
                                          std::optional<Axis> thickness) const {
  for (const Parameter& parameter : kind.parameters()) {
    if (parameter.name == key && parameter.type == Parameter::Type::word) {
      placeFaceWord(&value, *this);
    }
  }
  // "offset": toward the far side of the thickness.
  const bool turned = key == "offset" && thickness && along(*thickness).flipped;
  if (turned && isExpression(value)) negate(value);
  const std::size_t cut = key.rfind('_');
  const auto face = cut == std::string::npos ? std::nullopt : faceNamed(key.substr(cut + 1));
  if (!face) return key;
  std::string image = key.substr(0, cut + 1) + std::string(nameOf(this->image(*face)));
  return hasParameter(kind, image) ? image : key;
}

void MirrorPlacing::placeJoint(JsonNode& joint, const JointKind& kind,
                               std::optional<Axis> thickness) const {
  if (plain()) return;
  for (JsonMember& member : joint.members) {
    if (!hasParameter(kind, member.key)) continue;
    member.key = placeParameter(member.key, member.value, kind, thickness);
  }
}

}  // namespace dryfit::joinery
