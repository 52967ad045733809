#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "joinery/piece/piece.h"

namespace dryfit::exporting {

/// "1 part", "3 parts".
[[nodiscard]] std::string counted(std::size_t count, std::string_view noun);

/// "length", "width" or "none".
[[nodiscard]] std::string_view nameOfGrain(joinery::Grain grain);

/// "drawn" or "measured".
[[nodiscard]] std::string_view nameOf(joinery::Basis basis);

/// The first line of a report: "Parts of Demo frame, sizes as measured, in mm".
[[nodiscard]] std::string headText(std::string_view what, const std::string& piece,
                                   joinery::Basis basis, joinery::Unit unit);

}  // namespace dryfit::exporting
