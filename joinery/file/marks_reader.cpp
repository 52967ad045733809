#include "joinery/file/marks_reader.h"

#include "joinery/base/unit.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>

#include "joinery/base/plain_text.h"
#include "joinery/base/size_limits.h"
#include "joinery/file/reader_names.h"
#include "joinery/formula/length_text.h"
#include "joinery/making/marks.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

constexpr std::array<const char*, 3> kSizes{"length", "width", "thickness"};

/// A recorded length in mm: a plain number in the file's unit.
double readLength(const JsonPlace& place, Unit unit) {
  if (!place.node().is(Type::number)) {
    place.wrong("a number is needed here, not " + std::string(nameOf(place.node().type)),
                "marks record the sizes a part was made to", ErrorCode::badMark);
    return 0;
  }
  return std::strtod(place.node().text.c_str(), nullptr) * millimetresIn(unit);
}

double readSize(const JsonPlace& place, Unit unit) {
  const double mm = readLength(place, unit);
  if (place.failed()) return mm;
  if (const auto fine = checkSize(mm); !fine) {
    place.wrong(fine.error().what, fine.error().mend, ErrorCode::badMark);
  }
  return mm;
}

double readCoordinate(const JsonPlace& place, Unit unit) {
  const double mm = readLength(place, unit);
  if (const auto fine = checkCoordinate(mm); !fine) {
    place.wrong(fine.error().what, fine.error().mend, ErrorCode::badMark);
  }
  return mm;
}

/// The entries of a list of this length; reports otherwise and returns none.
std::vector<std::pair<std::string, JsonPlace>> listOf(const JsonPlace& place, std::size_t count,
                                                      const std::string& form) {
  auto entries = place.members();
  if (place.node().is(Type::list) && entries.size() == count) return entries;
  place.wrong("a list of " + std::to_string(count) + " is needed here", "write it as " + form,
              ErrorCode::badMark);
  return {};
}

/// ["mortise", 0, 7, 20, 48, 14, 60]: what it is, and its two corners.
void readFeature(const std::string& joint, const JsonPlace& place, Unit unit, Mark& mark) {
  const auto entries = listOf(place, 7, "[\"mortise\", x, y, z, x, y, z]");
  if (entries.empty()) return;
  MadeFeature feature{joint, entries[0].second.line(), {}};
  for (int axis = 0; axis < 3; ++axis) {
    const auto at = static_cast<std::size_t>(axis);
    feature.extent.min.set(axis, readCoordinate(entries[1 + at].second, unit));
    feature.extent.max.set(axis, readCoordinate(entries[4 + at].second, unit));
  }
  mark.features.push_back(std::move(feature));
}

void readBlank(const JsonPlace& place, Unit unit, Mark& mark) {
  const auto entries = listOf(place, 3, "[length, width, thickness]");
  for (std::size_t i = 0; i < entries.size(); ++i) {
    mark.blank.set(static_cast<int>(i), readSize(entries[i].second, unit));
  }
}

void readJoints(const JsonPlace& place, Unit unit, Mark& mark) {
  const auto joints = place.find("joints");
  if (!joints || !joints->isObject()) return;
  for (const auto& [joint, list] : joints->members()) {
    if (!list.node().is(Type::list)) {
      list.wrong("a list of what the joint cut is needed here", {}, ErrorCode::badMark);
      return;
    }
    for (const auto& [key, feature] : list.members()) readFeature(joint, feature, unit, mark);
  }
}

Mark readMark(const std::string& part, const JsonPlace& place, Unit unit) {
  Mark mark;
  mark.part = part;
  if (!place.isObject()) return mark;
  if (const auto state = place.need("state")) {
    mark.state = static_cast<MarkState>(state->wordOf({"rough", "machined", "cut", "jointed"}));
  }
  std::vector<std::string> keys{"state", "note"};
  if (mark.state != MarkState::rough) keys.insert(keys.end(), kSizes.begin(), kSizes.end());
  if (mark.state != MarkState::rough) keys.emplace_back("blank");
  if (mark.state == MarkState::jointed) keys.emplace_back("joints");
  if (!place.isObject(keys)) return mark;
  if (const auto note = place.find("note")) (void)note->text();
  if (mark.state == MarkState::rough) return mark;
  for (int axis = 0; axis < 3; ++axis) {
    if (const auto size = place.need(kSizes[static_cast<std::size_t>(axis)])) {
      mark.overall.set(axis, readSize(*size, unit));
    }
  }
  const bool jointed = mark.state == MarkState::jointed;
  if (const auto blank = jointed ? place.need("blank") : place.find("blank")) {
    readBlank(*blank, unit, mark);
  }
  if (jointed) readJoints(place, unit, mark);
  return mark;
}

/// A length as a number of the unit, to 1e-7 mm or finer, without trailing zeros: the part is
/// placed by it, and may not share wood with its neighbours for the rounding alone.
JsonNode lengthNode(double mm, Unit unit) {
  const int decimals = unit == Unit::mm ? 7 : unit == Unit::cm ? 8 : 9;
  std::string text = fmt::format("{:.{}f}", mm / millimetresIn(unit), decimals);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return JsonNode::ofNumber(text == "-0" ? "0" : text);
}

JsonNode listNode() {
  JsonNode node;
  node.type = Type::list;
  return node;
}

JsonNode featureNode(const MadeFeature& feature, Unit unit) {
  JsonNode node = listNode();
  node.members.push_back({"", JsonNode::ofText(feature.purpose)});
  for (const kernel::Point3& corner : {feature.extent.min, feature.extent.max}) {
    for (int axis = 0; axis < 3; ++axis) {
      node.members.push_back({"", lengthNode(corner[axis], unit)});
    }
  }
  return node;
}

}  // namespace

void readMarks(const JsonPlace& root, Model& model) {
  const auto marks = root.find("marks");
  if (!marks || !marks->isObject()) return;
  const std::vector<std::string> parts = namesOf(model.parts);
  for (const auto& [name, place] : marks->members()) {
    if (place.failed()) return;
    if (std::find(parts.begin(), parts.end(), name) == parts.end()) {
      place.unknown("there is no part " + inQuotes(name), name, parts, ErrorCode::badMark);
      return;
    }
    model.marks.push_back(readMark(name, place, model.unit));
  }
}

JsonNode markNode(const Mark& mark, Unit unit) {
  JsonNode node = JsonNode::ofObject();
  node.set("state", JsonNode::ofText(std::string(nameOf(mark.state))));
  if (mark.state == MarkState::rough) return node;
  for (int axis = 0; axis < 3; ++axis) {
    node.set(kSizes[static_cast<std::size_t>(axis)], lengthNode(mark.overall[axis], unit));
  }
  if (mark.blank.x > 0) {
    JsonNode blank = listNode();
    for (int axis = 0; axis < 3; ++axis) {
      blank.members.push_back({"", lengthNode(mark.blank[axis], unit)});
    }
    node.set("blank", std::move(blank));
  }
  for (const MadeFeature& feature : mark.features) {
    JsonNode& joints = node.objectAt("joints");
    if (joints.find(feature.joint) == nullptr) joints.set(feature.joint, listNode());
    joints.find(feature.joint)->members.push_back({"", featureNode(feature, unit)});
  }
  return node;
}

}  // namespace dryfit::joinery
