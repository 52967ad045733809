#pragma once

#include <filesystem>
#include <span>
#include <string>

#include "export/drawing/sheet.h"
#include "kernel/result.h"

namespace dryfit::exporting {

/// What a PDF says about itself.
struct PdfInfo {
  std::string title;
  /// ISO 8601 date and time. DEFAULT: fixed, so that equal sheets give equal files.
  std::string created = "2000-01-01T00:00:00Z";
};

/// A PDF with a page a sheet, at true size; text can be searched and copied.
/// Error: libraryFailure.
[[nodiscard]] Result<std::string> pdfBytes(std::span<const Sheet> sheets, const PdfInfo& info);

/// The same, written to a file. Errors: libraryFailure, fileNotWritten.
[[nodiscard]] Result<void> writePdf(const std::filesystem::path& path,
                                    std::span<const Sheet> sheets, const PdfInfo& info);

}  // namespace dryfit::exporting
