#include "export/words/head_text.h"

#include <fmt/format.h>

#include "joinery/base/unit.h"

namespace dryfit::exporting {

using joinery::Unit;

std::string counted(std::size_t count, std::string_view noun) {
  return fmt::format("{} {}{}", count, noun, count == 1 ? "" : "s");
}

std::string_view nameOfGrain(joinery::Grain grain) {
  return grain == joinery::Grain::length  ? "length"
         : grain == joinery::Grain::width ? "width"
                                          : "none";
}

std::string_view nameOf(joinery::Basis basis) {
  return basis == joinery::Basis::drawn ? "drawn" : "measured";
}

std::string headText(std::string_view what, const std::string& piece, joinery::Basis basis,
                     Unit unit) {
  const std::string_view unitWord = unit == Unit::inch ? "inches" : joinery::nameOf(unit);
  return fmt::format("{} of {}, sizes as {}, in {}\n", what, piece, nameOf(basis), unitWord);
}

}  // namespace dryfit::exporting
