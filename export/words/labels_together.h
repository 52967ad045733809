#pragma once

#include <string>
#include <vector>

#include "joinery/piece/part_list.h"

namespace dryfit::exporting {

/// Labels as one text, those that differ only in their numbers told together: "drawer 1 front",
/// "drawer 2 front", "drawer 3 front" and "top" become "drawer 1–3 front, top"; numbers that are
/// not in a row are joined by +. Equal labels are told once, in the order in which they first
/// stand.
[[nodiscard]] std::string labelsTogether(const std::vector<std::string>& labels);

/// The labels of all parts of a group together; where that is longer than a line of a title, the
/// first and how many more.
[[nodiscard]] std::string groupTitle(const joinery::Piece& piece, const joinery::PartGroup& group);

}  // namespace dryfit::exporting
