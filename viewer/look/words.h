#pragma once

#include <QString>

#include "joinery/formula/length_text.h"
#include "joinery/piece/finding.h"
#include "joinery/piece/piece.h"

namespace dryfit::viewer {

/// A length in the shown unit, without the unit's name.
[[nodiscard]] QString lengthWords(double mm, joinery::Unit unit);
/// A small length such as a clearance, finer than a rule reads: mm to 0.01, cm to 0.001, inches to
/// 0.001, with the unit's name.
[[nodiscard]] QString fineLengthWords(double mm, joinery::Unit unit);
/// A finding's measure or limit in its own unit, lengths in the shown one.
[[nodiscard]] QString measureWords(double value, const std::string& ownUnit, joinery::Unit unit);
/// What a page says that waits for a piece.
[[nodiscard]] QString noPieceWords();
/// "mm", "cm", "in".
[[nodiscard]] QString unitWords(joinery::Unit unit);
/// "blind_mortise-tenon" -> "blind mortise tenon"; the first letter as it is.
[[nodiscard]] QString spaced(std::string_view name);
/// The same with a capital first letter.
[[nodiscard]] QString titled(QString words);
/// "Top rail into left stile".
[[nodiscard]] QString mateWords(const joinery::Model& model, const joinery::Joint& joint);
/// The first names of a list, and how many more there are.
[[nodiscard]] QString listWords(const std::vector<std::string>& names);
/// A part's label as Piece::label gives it, from the model alone.
[[nodiscard]] QString labelWords(const joinery::Part& part);

}  // namespace dryfit::viewer
