#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "export/drawing/sheet.h"
#include "export/drawing/view_memory.h"
#include "joinery/fit/dry_fit.h"
#include "joinery/model/model.h"
#include "kernel/result.h"

namespace dryfit::exporting {

/// A drawing and what its file is called, without the ending: "00-assembly", "01-left-stile".
struct NamedSheet {
  std::string name;
  Sheet sheet;
};

/// All drawings of a piece: the assembly on one sheet or two, then one a part number, on all cores.
/// With a memory only pictures of what changed since earlier calls are worked out. Same input, same
/// drawings, with or without it. Errors: as drawPart, with the part's name; cancelled.
[[nodiscard]] Result<std::vector<NamedSheet>> drawAll(const joinery::DryFit& fit,
                                                      joinery::Unit unit,
                                                      const joinery::Progress& progress = {},
                                                      ViewMemory* memory = nullptr);

/// `text` as part of a file name: small letters, digits and single dashes, at most 40 of them.
[[nodiscard]] std::string fileWord(std::string_view text);

/// All sheets as one PDF. Error: libraryFailure.
[[nodiscard]] Result<std::string> onePdf(const std::vector<NamedSheet>& sheets,
                                         const std::string& title);

}  // namespace dryfit::exporting
