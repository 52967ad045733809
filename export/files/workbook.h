#pragma once

#include <functional>
#include <string>

#include "joinery/model/model.h"
#include "kernel/result.h"

struct lxw_workbook;
struct lxw_worksheet;
struct lxw_format;

namespace dryfit::exporting {

/// The bytes of a workbook (Office Open XML) that `fill` has put sheets into. `what` names it in
/// errors. Error: fileNotWritten.
[[nodiscard]] Result<std::string> makeWorkbook(const std::string& what,
                                               const std::function<void(lxw_workbook*)>& fill);

/// How a cell that holds a length in `unit` shows it; inches as fractions.
[[nodiscard]] const char* lengthFormat(joinery::Unit unit);
/// Bold with a rule below.
[[nodiscard]] lxw_format* headFormat(lxw_workbook* book);
/// The head stays in sight and is printed on every page; pages lie across, as wide as the sheet.
void setUpTable(lxw_worksheet* sheet);

}  // namespace dryfit::exporting
