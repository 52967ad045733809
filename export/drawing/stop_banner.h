#pragma once

#include <string>
#include <vector>

#include "export/drawing/sheet.h"
#include "joinery/piece/finding.h"

namespace dryfit::exporting {

/// The sentences of all findings at error level that name one of these parts, in their order.
[[nodiscard]] std::vector<std::string> errorsOf(const std::vector<joinery::Finding>& findings,
                                                const std::vector<joinery::PartId>& parts);
/// The same of all parts.
[[nodiscard]] std::vector<std::string> errorsOf(const std::vector<joinery::Finding>& findings);

/// The width of a band across the sheet, mm.
[[nodiscard]] double bannerWidth(const Sheet& sheet);
/// A framed band across a sheet, `width` mm wide, that says not to cut from it and why: no more
/// than a few of the errors, and how many others there are. Nothing where there is no error.
[[nodiscard]] Ink stopBanner(const std::vector<std::string>& errors, double width);

}  // namespace dryfit::exporting
