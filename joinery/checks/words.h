#pragma once

#include <string>
#include <string_view>

#include "joinery/piece/piece.h"

/// Words of findings: plain, short, sizes in the reader's unit.
namespace dryfit::joinery::checking {

/// As `fineLengthText`: "12.5 mm", "1 3/8 in"; small ones finely: "0.05 mm", "0.059 in".
[[nodiscard]] std::string lengthWords(double mm, Unit unit);
/// Always to the hundredth of a millimetre, or as fine in the other units: "12.50 mm", "0.004 in".
[[nodiscard]] std::string fitWords(double mm, Unit unit);
/// A number to type in, with its unit: "400.25 mm".
[[nodiscard]] std::string typedWords(double mm, Unit unit);
/// Rounded to what is told of the unit, towards less: safe behind "at most".
[[nodiscard]] std::string atMostWords(double mm, Unit unit);
/// The same towards more: safe behind "at least" and "by".
[[nodiscard]] std::string atLeastWords(double mm, Unit unit);
/// "1200 mm³", "0.0732 in³".
[[nodiscard]] std::string volumeWords(double mm3, Unit unit);
/// "12 x 20 x 5 mm".
[[nodiscard]] std::string sizeWords(kernel::Vec3 size, Unit unit);
/// "joint top_left".
[[nodiscard]] std::string nameOf(const Piece& piece, JointId joint);
/// "the tenon of joint top_left".
[[nodiscard]] std::string nameOf(const Piece& piece, const Feature& feature);
/// What a part becomes when wood is added at a face: "longer", "wider" or "thicker".
[[nodiscard]] std::string_view longerWord(LocalFace face);
/// The same sentence with a capital and a full stop.
[[nodiscard]] std::string sentence(std::string words);

}  // namespace dryfit::joinery::checking
