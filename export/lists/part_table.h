#pragma once

#include <string>

#include "export/lists/cut_list.h"
#include "export/words/text_table.h"

namespace dryfit::exporting {

/// An empty table of parts; with columns for the material and the rough size where asked for.
[[nodiscard]] TextTable partTable(bool withMaterial);
void addPart(TextTable& table, const CutRow& row, joinery::Unit unit,
             const std::string& material = {}, const std::string& rough = {});

}  // namespace dryfit::exporting
