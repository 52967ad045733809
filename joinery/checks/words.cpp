#include "joinery/checks/words.h"

#include "joinery/base/unit.h"

#include <fmt/format.h>

#include <cctype>
#include <cmath>

#include "joinery/formula/length_text.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery::checking {
namespace {

/// A length without its unit.
std::string numberOf(double mm, Unit unit) {
  return fineLengthText(Length::mm(mm), unit);
}

}  // namespace

std::string lengthWords(double mm, Unit unit) {
  return fmt::format("{} {}", numberOf(mm, unit), joinery::nameOf(unit));
}

std::string fitWords(double mm, Unit unit) {
  return fmt::format("{:.{}f} {}", mm / millimetresIn(unit), unit == Unit::mm ? 2 : 3,
                     joinery::nameOf(unit));
}

std::string typedWords(double mm, Unit unit) {
  return fmt::format("{} {}", typedLengthText(Length::mm(mm), unit), joinery::nameOf(unit));
}

std::string atMostWords(double mm, Unit unit) {
  return lengthWords(toldAtMost(Length::mm(mm), unit).mm(), unit);
}
std::string atLeastWords(double mm, Unit unit) {
  return lengthWords(toldAtLeast(Length::mm(mm), unit).mm(), unit);
}

std::string volumeWords(double mm3, Unit unit) {
  const double volume = mm3 / std::pow(millimetresIn(unit), 3);
  return volume >= 100 ? fmt::format("{:.0f} {}³", volume, joinery::nameOf(unit))
                       : fmt::format("{:.3g} {}³", volume, joinery::nameOf(unit));
}

std::string sizeWords(kernel::Vec3 size, Unit unit) {
  return fmt::format("{} x {} x {} {}", numberOf(size.x, unit), numberOf(size.y, unit),
                     numberOf(size.z, unit), joinery::nameOf(unit));
}

std::string nameOf(const Piece& piece, JointId joint) {
  return "joint " + piece.joint(joint).name;
}

std::string nameOf(const Piece& piece, const Feature& feature) {
  return fmt::format("the {} of {}", joinery::nameOf(feature.purpose),
                     nameOf(piece, feature.joint));
}

std::string_view longerWord(LocalFace face) {
  return face.squareTo(PartAxis::length)  ? "longer"
         : face.squareTo(PartAxis::width) ? "wider"
                                          : "thicker";
}

std::string sentence(std::string words) {
  if (words.empty()) return words;
  words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
  if (words.back() != '.') words += '.';
  return words;
}

}  // namespace dryfit::joinery::checking
