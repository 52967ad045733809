#pragma once

#include <filesystem>
#include <string>

#include "joinery/stock/stock.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// Reads a stock list (JSON, "dryfit-stock"; models/README.md describes it): sheets and then
/// boards, each in the order of the file. Errors: fileNotRead; badStock, with the place
/// "file: boards.plank 3.width".
[[nodiscard]] Result<StockList> loadStock(const std::filesystem::path& path);
/// The same from text; `where` names the source in errors.
[[nodiscard]] Result<StockList> parseStock(const std::string& text, const std::string& where);

}  // namespace dryfit::joinery
