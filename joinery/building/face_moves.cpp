#include "joinery/building/face_moves.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include "joinery/base/plain_text.h"
#include "joinery/base/unit.h"
#include "joinery/file/part_edits.h"

namespace dryfit::joinery {
namespace {

/// A length in mm as a plain number of the unit, without needless digits.
std::string plain(double mm, Unit unit) {
  const double value = std::round(mm / millimetresIn(unit) * 1e6) / 1e6;
  return fmt::format("{}", value == 0 ? 0.0 : value);
}

std::optional<double> numberIn(const std::string& text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return value;
}

std::string inBrackets(const std::string& text) {
  return text.find_first_of(" +-*/") == std::string::npos ? text : "(" + text + ")";
}

}  // namespace

FaceHold holdOf(const ModelFile& file, const Piece& piece, PartFace face) {
  const PlacedPart& part = piece.parts[face.part.index()];
  FaceHold hold;
  hold.span = std::string(nameOf(partAxis(part.local(face.face).axis)));
  hold.key = isFarFace(face.face) ? "to" : "from";
  hold.expression = spanText(file, piece.part(face.part).name, hold.span, hold.key);
  hold.at = standsAt(piece, face);
  return hold;
}

Result<void> moveFace(ModelFile& file, const Piece& piece, PartFace face,
                      const std::string& expression) {
  const FaceHold hold = holdOf(file, piece, face);
  const std::string name = piece.part(face.part).name;
  if (trimmed(expression).empty()) {
    return fail(ErrorCode::badExpression, "no place for the face is given",
                "parts." + name + "." + hold.span + "." + hold.key, "write a length or a face");
  }
  const std::string opposite = hold.key == "to" ? "from" : "to";
  const auto text = [&](const char* key) { return spanText(file, name, hold.span, key); };
  const std::string centre = text("centre"), size = text("size");
  std::vector<std::pair<std::string, std::string>> entries{{hold.key, expression}};
  if (hold.span == "thickness") {
    // The wood is as thick as it is: the part goes where this face is to stand.
    if (size.empty() || centre.empty()) entries.emplace_back(opposite, "");
    entries.emplace_back("centre", "");
  } else if (!centre.empty()) {
    // The face opposite stays, half a size from the middle that was.
    entries.emplace_back(opposite, fmt::format("{} {} {} / 2", centre, opposite == "to" ? "+" : "-",
                                               inBrackets(size)));
    entries.emplace_back("centre", "");
    entries.emplace_back("size", "");
  } else if (hold.expression.empty()) {
    entries.emplace_back("size", "");
  } else if (!size.empty()) {
    // Held here by its size from this face: the one opposite stays only where it is written.
    entries.emplace_back("size", "");
    entries.emplace_back(opposite, fmt::format("{} {} {}", hold.expression,
                                               opposite == "to" ? "+" : "-", inBrackets(size)));
  }
  return setPartSpan(file, name, hold.span, entries);
}

std::string movedBy(const FaceHold& hold, double by, Unit unit) {
  if (hold.expression.empty() || numberIn(hold.expression)) return plain(hold.at + by, unit);
  if (std::abs(by) < 1e-9) return hold.expression;
  // A number that was added last is taken together with what is added now.
  const std::size_t sign = hold.expression.find_last_of("+-");
  if (sign != std::string::npos && sign > 1 && hold.expression[sign - 1] == ' ' &&
      hold.expression.find_first_of("()", sign) == std::string::npos) {
    if (const auto added = numberIn(trimmed(hold.expression.substr(sign + 1)))) {
      const double all =
          (hold.expression[sign] == '+' ? *added : -*added) + by / millimetresIn(unit);
      std::string before = trimmed(hold.expression.substr(0, sign));
      if (std::abs(all) < 1e-9) return before;
      return fmt::format("{} {} {}", before, all < 0 ? "-" : "+",
                         plain(std::abs(all) * millimetresIn(unit), unit));
    }
  }
  return fmt::format("{} {} {}", hold.expression, by < 0 ? "-" : "+", plain(std::abs(by), unit));
}

}  // namespace dryfit::joinery
