#include "joinery/file/coordinates.h"

#include "joinery/file/mirrored.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

void ofSpan(JsonNode& span, Axis axis, const CoordinateVisitor& visit) {
  for (const char* end : {"from", "to", "centre"}) {
    JsonNode* text = span.find(end);
    if (text != nullptr) visit(*text, axis, end == std::string("centre") ? "" : end);
  }
}

/// A span that says itself along which axis it lies.
void ofNamedSpan(JsonNode* span, const CoordinateVisitor& visit) {
  const JsonNode* along = span == nullptr ? nullptr : span->find("along");
  if (along == nullptr) return;
  if (const auto axis = axisNamed(along->text)) ofSpan(*span, axis.value(), visit);
}

void ofPlanes(JsonNode* planes, const CoordinateVisitor& visit) {
  if (planes == nullptr || !planes->is(Type::object)) return;
  for (JsonMember& plane : planes->members) {
    if (const auto axis = axisNamed(plane.key)) visit(plane.value, axis.value(), "");
  }
}

void ofOpening(JsonNode& opening, const CoordinateVisitor& visit) {
  for (JsonMember& member : opening.members) {
    if (opening.is(Type::list)) {
      ofOpening(member.value, visit);
    } else if (const auto axis = axisNamed(member.key)) {
      ofSpan(member.value, axis.value(), visit);
    }
  }
}

}  // namespace

void visitCoordinates(JsonNode& entry, const CoordinateVisitor& visit) {
  for (const char* key : {"length", "width", "thickness"}) ofNamedSpan(entry.find(key), visit);
  if (JsonNode* opening = entry.find("opening")) ofOpening(*opening, visit);
  ofPlanes(entry.find("mirror"), visit);
  if (JsonNode* repeat = entry.find("repeat")) {
    ofPlanes(repeat->find("mirrored"), visit);
    ofNamedSpan(repeat->find("spread"), visit);
  }
  JsonNode* turn = entry.find("turn");
  JsonNode* at = turn == nullptr ? nullptr : turn->find("at");
  if (at == nullptr || !at->is(Type::list) || at->members.size() != 3) return;
  for (std::size_t i = 0; i < 3; ++i) visit(at->members[i].value, static_cast<Axis>(i), "");
}

}  // namespace dryfit::joinery
