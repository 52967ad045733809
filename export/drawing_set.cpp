#include "export/drawing_set.h"

#include <fmt/format.h>

#include <cctype>

#include "export/ascii_name.h"
#include "export/drawing/assembly_drawing.h"
#include "export/drawing/part_drawing.h"
#include "export/drawing/pdf_writer.h"
#include "joinery/part_list.h"

namespace dryfit::exporting {

std::string fileWord(std::string_view text) {
  constexpr std::size_t kLongest = 40;
  std::string word;
  for (const char c : asciiName(text)) {
    const auto letter = static_cast<unsigned char>(c);
    if (std::isalnum(letter) != 0) {
      word += static_cast<char>(std::tolower(letter));
    } else if (!word.empty() && word.back() != '-') {
      word += '-';
    }
    if (word.size() == kLongest) break;
  }
  while (!word.empty() && word.back() == '-') word.pop_back();
  return word;
}

Result<std::vector<NamedSheet>> drawAll(const joinery::DryFit& fit, joinery::Unit unit,
                                        const joinery::Progress& progress) {
  const joinery::Piece& piece = fit.piece;
  const auto groups = joinery::groupParts(piece);
  DrawingOptions options;
  options.unit = unit;
  options.sheets = static_cast<int>(groups.size()) + 1;
  std::vector<NamedSheet> sheets;
  const auto goOn = [&] {
    return !progress || progress(static_cast<int>(sheets.size()), options.sheets);
  };
  auto assembly = drawAssembly(piece, fit.solids, groups, options);
  if (!assembly) return tl::unexpected(assembly.error().within("assembly drawing"));
  sheets.push_back({"00-assembly", std::move(*assembly)});
  for (const auto& group : groups) {
    if (!goOn()) return fail(ErrorCode::cancelled, "stopped", "drawings");
    options.sheet = static_cast<int>(sheets.size()) + 1;
    const joinery::PartId first = group.parts.front();
    auto sheet = drawPart(piece, fit.solids, group, options);
    if (!sheet) return tl::unexpected(sheet.error().within(piece.part(first).name));
    sheets.push_back(
        {fmt::format("{:02}-{}", group.number, fileWord(piece.label(first))), std::move(*sheet)});
  }
  return sheets;
}

Result<std::string> onePdf(const std::vector<NamedSheet>& sheets, const std::string& title) {
  std::vector<Sheet> pages;
  for (const NamedSheet& named : sheets) pages.push_back(named.sheet);
  return pdfBytes(pages, {.title = title});
}

}  // namespace dryfit::exporting
