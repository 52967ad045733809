#include "joinery/checks/words.h"

#include <fmt/format.h>

#include <cctype>
#include <cmath>

#include "joinery/length_text.h"

namespace dryfit::joinery::checking {
namespace {

// Keeps a number that is a tenth already from being pushed to the next one.
constexpr double kRounding = 1e-6;

}  // namespace

std::string mmText(double mm) {
  if (std::fabs(mm) >= 1 || mm == 0) return lengthText(Length::mm(mm), Unit::mm) + " mm";
  return fmt::format("{:.2g} mm", mm);
}

std::string atMostText(double mm) {
  return mmText(std::floor(mm * 10 + kRounding) / 10);
}
std::string atLeastText(double mm) {
  return mmText(std::ceil(mm * 10 - kRounding) / 10);
}

std::string volumeText(double mm3) {
  return mm3 >= 100 ? fmt::format("{:.0f} mm³", mm3) : fmt::format("{:.3g} mm³", mm3);
}

std::string sizeText(kernel::Vec3 size) {
  const auto text = [](double mm) {
    const std::string words = mmText(mm);
    return words.substr(0, words.size() - std::string(" mm").size());
  };
  return fmt::format("{} x {} x {} mm", text(size.x), text(size.y), text(size.z));
}

std::string nameOf(const Piece& piece, JointId joint) {
  return "joint " + piece.joint(joint).name;
}

std::string nameOf(const Piece& piece, const Feature& feature) {
  return fmt::format("the {} of {}", joinery::nameOf(feature.purpose),
                     nameOf(piece, feature.joint));
}

std::string sentence(std::string words) {
  if (words.empty()) return words;
  words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
  if (words.back() != '.') words += '.';
  return words;
}

}  // namespace dryfit::joinery::checking
