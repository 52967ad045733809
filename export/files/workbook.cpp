#include "export/files/workbook.h"

#include <fmt/format.h>
#include <xlsxwriter.h>

#include <filesystem>
#include <fstream>
#include <iterator>

#include "export/files/scratch_folder.h"

namespace dryfit::exporting {

Result<std::string> makeWorkbook(const std::string& what,
                                 const std::function<void(lxw_workbook*)>& fill) {
  // The library writes only to a named file: it gets a scratch one, and the bytes are read back.
  const auto scratch = ScratchFolder::in(std::filesystem::temp_directory_path());
  if (!scratch) return tl::unexpected(scratch.error());
  const std::string file = (scratch->path() / "book.xlsx").string();
  std::string folder = scratch->path().string();
  lxw_workbook_options options{};
  options.tmpdir = folder.data();
  lxw_workbook* book = workbook_new_opt(file.c_str(), &options);
  if (book == nullptr) {
    return fail(ErrorCode::fileNotWritten, "there is not enough memory for the workbook", what);
  }
  fill(book);
  const lxw_error error = workbook_close(book);  // frees the book, whatever it returns
  if (error != LXW_NO_ERROR) {
    return fail(ErrorCode::fileNotWritten, fmt::format("workbook: {}", lxw_strerror(error)), file);
  }
  std::ifstream in(file, std::ios::binary);
  return std::string(std::istreambuf_iterator<char>(in), {});
}

const char* lengthFormat(joinery::Unit unit) {
  return unit == joinery::Unit::mm ? "0.0" : unit == joinery::Unit::cm ? "0.00" : "# ?\?/?\?";
}

lxw_format* headFormat(lxw_workbook* book) {
  lxw_format* bold = workbook_add_format(book);
  format_set_bold(bold);
  format_set_bottom(bold, LXW_BORDER_THIN);
  return bold;
}

void setUpTable(lxw_worksheet* sheet) {
  worksheet_freeze_panes(sheet, 1, 0);
  worksheet_repeat_rows(sheet, 0, 0);
  worksheet_set_landscape(sheet);
  worksheet_fit_to_pages(sheet, 1, 0);
}

}  // namespace dryfit::exporting
