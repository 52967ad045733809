#include "joinery/file/part_reader.h"

#include <algorithm>
#include <array>

#include "joinery/base/plain_text.h"
#include "joinery/file/reader_names.h"

namespace dryfit::joinery {
namespace {

constexpr std::array kAxes{Axis::x, Axis::y, Axis::z};
constexpr std::array kGrains{Grain::length, Grain::width, Grain::none};

Axis readAxis(const JsonPlace& place) {
  return kAxes[place.wordOf({"x", "y", "z"})];
}

Face readFace(const JsonPlace& place) {
  return static_cast<Face>(place.wordOf({"left", "right", "front", "back", "bottom", "top"}));
}

Span readSpan(const JsonPlace& place) {
  Span span;
  if (!place.isObject({"along", "from", "to", "size", "centre"})) return span;
  if (const auto along = place.need("along")) span.along = readAxis(*along);
  if (const auto from = place.find("from")) span.from = from->expression();
  if (const auto to = place.find("to")) span.to = to->expression();
  if (const auto size = place.find("size")) span.size = size->expression();
  if (const auto centre = place.find("centre")) span.centre = centre->expression();
  return span;
}

void readSpans(const JsonPlace& place, Part& part) {
  if (const auto length = place.need("length")) part.length = readSpan(*length);
  if (const auto width = place.need("width")) part.width = readSpan(*width);
  if (const auto thickness = place.need("thickness")) part.thickness = readSpan(*thickness);
}

void readLooks(const JsonPlace& place, Part& part) {
  if (const auto grain = place.find("grain")) {
    part.grain = kGrains[grain->wordOf({"length", "width", "none"})];
  }
  if (const auto side = place.find("face_side")) part.faceSide = readFace(*side);
  if (const auto edge = place.find("face_edge")) part.faceEdge = readFace(*edge);
  if (const auto turn = place.find("turn")) part.turn = readTurn(*turn);
}

}  // namespace

Turn readTurn(const JsonPlace& place) {
  Turn turn;
  if (!place.isObject({"about", "at", "angle"})) return turn;
  if (const auto about = place.need("about")) turn.about = readAxis(*about);
  if (const auto angle = place.need("angle")) turn.angle = angle->expression();
  const auto at = place.need("at");
  if (!at) return turn;
  const auto coordinates = at->members();
  if (!at->node().is(JsonNode::Type::list) || coordinates.size() != 3) {
    at->wrong("a point is needed here", "write it as [x, y, z]");
    return turn;
  }
  for (std::size_t i = 0; i < 3; ++i) turn.at[i] = coordinates[i].second.expression();
  return turn;
}

PartReader::PartReader(const Model& model)
    : materials_(namesOf(model.materials)), groups_(namesOf(model.groups)) {}

Part PartReader::read(const std::string& name, const JsonPlace& place) const {
  Part part;
  part.name = name;
  if (!place.isObject({"label", "material", "group", "batch", "length", "width", "thickness",
                       "grain", "face_side", "face_edge", "turn", "match", "spare", "edging",
                       "when", "repeat", "mirror", "note"})) {
    return part;
  }
  readReferences(place, part);
  readSpans(place, part);
  readLooks(place, part);
  return part;
}

void PartReader::readReferences(const JsonPlace& place, Part& part) const {
  const auto has = [](const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
  };
  if (const auto label = place.find("label")) part.label = label->line();
  if (const auto note = place.find("note")) (void)note->text();
  if (const auto material = place.need("material")) {
    part.material = material->text();
    if (!has(materials_, part.material)) {
      material->unknown("there is no material " + inQuotes(part.material), part.material,
                        materials_);
    }
  }
  if (const auto group = place.find("group")) {
    part.group = group->text();
    if (!has(groups_, part.group)) {
      group->unknown("there is no group " + inQuotes(part.group), part.group, groups_);
    }
  }
  if (const auto batch = place.find("batch")) {
    part.batch = batch->text();
    checkName(part.batch, *batch);
  }
}

}  // namespace dryfit::joinery
