#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "export/words/head_text.h"

namespace dryfit::exporting {

/// A report as text. Bad bytes in a name are replaced, never thrown about.
[[nodiscard]] inline std::string dumped(const nlohmann::ordered_json& json) {
  return json.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

/// The keys that every report about a piece begins with.
[[nodiscard]] inline nlohmann::ordered_json headJson(const char* report, const std::string& piece,
                                                     joinery::Basis basis) {
  return {{"report", report}, {"version", 1}, {"piece", piece}, {"basis", nameOf(basis)}};
}

}  // namespace dryfit::exporting
