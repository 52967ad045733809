#include "export/lists/slant_note.h"

#include <fmt/format.h>

#include <cmath>

#include "joinery/base/plain_text.h"
#include "joinery/formula/length_text.h"
#include "kernel/tolerance.h"

namespace dryfit::exporting {
namespace {

/// The two edges that bound one face.
std::string edgesText(const std::array<Length, 2>& along, joinery::Unit unit) {
  std::string edge = joinery::lengthText(along[0], unit);
  if (std::fabs(along[0].mm() - along[1].mm()) <= kernel::kDrawnAlike) return edge;
  return fmt::format("{} at the face edge, {} at the opposite edge", edge,
                     joinery::lengthText(along[1], unit));
}

/// Angles that are said at all: a hundredth of a degree is 0.2 mm in a metre.
bool isSaid(double degrees) {
  return std::fabs(degrees) >= 0.005;
}

std::string endText(const joinery::EndSlope& slope, const SlantNote& note,
                    const std::string& name) {
  std::vector<std::string> angles;
  const auto add = [&](double degrees, bool markFar, const char* face, const char* mark,
                       const char* opposite) {
    if (!isSaid(degrees)) return;
    angles.push_back(fmt::format("{} off square on the {}, longer at {}", degreesText(degrees),
                                 face, (degrees > 0) == markFar ? mark : opposite));
  };
  add(slope.acrossWidth, note.faceEdgeFar, "face side", "the face edge", "the opposite edge");
  add(slope.acrossThickness, note.faceSideFar, "face edge", "the face side", "the back");
  return angles.empty() ? std::string() : name + " " + joinery::listed(angles);
}

}  // namespace

std::string degreesText(double degrees) {
  std::string text = fmt::format("{:.2f}", std::fabs(degrees));
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text + "°";
}

std::optional<SlantNote> slantNote(const joinery::PlacedPart& part) {
  const joinery::ShoulderLines lines = joinery::shoulderLines(part);
  if (lines.isSquare()) return std::nullopt;
  SlantNote note;
  for (const bool behind : {false, true}) {
    for (const bool opposite : {false, true}) {
      const auto& edge = lines.at(part.faceEdge.far != opposite, part.faceSide.far != behind);
      note.along[behind ? 1 : 0][opposite ? 1 : 0] = Length::mm(edge.length());
    }
  }
  note.ends = lines.ends;
  note.faceEdgeFar = part.faceEdge.far;
  note.faceSideFar = part.faceSide.far;
  for (const bool far : {false, true}) {
    note.endNames[far ? 1 : 0] = std::string(joinery::nameOf(part.named({0, far}))) + " end";
  }
  return note;
}

std::vector<std::string> slantTexts(const SlantNote& note, joinery::Unit unit) {
  const std::string front = edgesText(note.along[0], unit);
  const std::string back = edgesText(note.along[1], unit);
  std::vector<std::string> texts;
  texts.push_back(
      front == back
          ? "shoulder to shoulder " + front
          : fmt::format("shoulder to shoulder, on the face side {}; behind it {}", front, back));
  std::string ends = endText(note.ends[0], note, note.endNames[0]);
  const std::string far = endText(note.ends[1], note, note.endNames[1]);
  if (!far.empty()) ends += (ends.empty() ? "" : "; ") + far;
  if (!ends.empty()) texts.push_back(std::move(ends));
  return texts;
}

}  // namespace dryfit::exporting
