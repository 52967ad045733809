#pragma once

#include <string>

#include "joinery/piece.h"

/// Words of findings: plain, short, lengths in mm.
namespace dryfit::joinery::checking {

/// "12.5 mm"; below 1 mm as fine as needed: "0.05 mm".
[[nodiscard]] std::string mmText(double mm);
/// Rounded to 0.1 mm towards less: safe behind "at most".
[[nodiscard]] std::string atMostText(double mm);
/// Rounded to 0.1 mm towards more: safe behind "at least" and "by".
[[nodiscard]] std::string atLeastText(double mm);
/// "1200 mm³".
[[nodiscard]] std::string volumeText(double mm3);
/// "12 x 20 x 5 mm".
[[nodiscard]] std::string sizeText(kernel::Vec3 size);
/// "joint top_left".
[[nodiscard]] std::string nameOf(const Piece& piece, JointId joint);
/// "the tenon of joint top_left".
[[nodiscard]] std::string nameOf(const Piece& piece, const Feature& feature);
/// The same sentence with a capital and a full stop.
[[nodiscard]] std::string sentence(std::string words);

}  // namespace dryfit::joinery::checking
