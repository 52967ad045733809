#include "joinery/file/taper_reader.h"

#include <algorithm>
#include <string>
#include <vector>

#include "joinery/base/plain_text.h"
#include "joinery/file/reader_names.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

Face readFace(const JsonPlace& place) {
  return static_cast<Face>(place.wordOf({"left", "right", "front", "back", "bottom", "top"}));
}

void readParts(const JsonPlace& place, const std::vector<std::string>& known, Taper& taper) {
  if (!place.node().is(Type::list) || place.node().members.empty()) {
    place.wrong("a list of parts is needed here", "write it as [\"left_leg\", \"right_leg\"]");
    return;
  }
  for (const auto& [key, entry] : place.members()) {
    const std::string part = entry.text();
    if (std::ranges::find(known, part) == known.end()) {
      entry.unknown("there is no part " + inQuotes(part), part, known);
    }
    if (std::ranges::find(taper.parts, part) != taper.parts.end()) {
      entry.wrong("the part " + inQuotes(part) + " is named twice", "name it once");
    }
    taper.parts.push_back(part);
  }
}

Taper readTaper(const std::string& name, const JsonPlace& place,
                const std::vector<std::string>& parts) {
  Taper taper;
  taper.name = name;
  checkName(name, place);
  if (!place.isObject({"parts", "size", "face", "narrow_end", "by", "from", "measured", "note"})) {
    return taper;
  }
  if (const auto list = place.need("parts")) readParts(*list, parts, taper);
  if (const auto size = place.need("size")) {
    taper.size = size->wordOf({"width", "thickness"}) == 0 ? SizeName::width : SizeName::thickness;
  }
  if (const auto face = place.find("face")) taper.face = readFace(*face);
  if (const auto end = place.need("narrow_end")) taper.narrowEnd = readFace(*end);
  if (const auto by = place.need("by")) taper.by = by->expression();
  if (const auto from = place.find("from")) taper.from = from->expression();
  if (const auto measured = place.find("measured")) {
    if (!measured->node().is(Type::boolean)) measured->wrong("true or false is needed here");
    taper.measured = measured->node().truth;
  }
  if (const auto note = place.find("note")) (void)note->text();
  return taper;
}

}  // namespace

void readTapers(const JsonPlace& root, Model& model) {
  const auto tapers = root.find("tapers");
  if (!tapers || !tapers->isObject()) return;
  const std::vector<std::string> parts = namesOf(model.parts);
  for (const auto& [name, place] : tapers->members()) {
    if (place.failed()) return;
    model.tapers.push_back(readTaper(name, place, parts));
  }
}

}  // namespace dryfit::joinery
