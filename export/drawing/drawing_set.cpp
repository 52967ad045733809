#include "export/drawing/drawing_set.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <iterator>

#include "export/drawing/assembly_drawing.h"
#include "export/drawing/part_drawing.h"
#include "export/drawing/pdf_writer.h"
#include "export/drawing/stop_banner.h"
#include "export/files/ascii_name.h"
#include "joinery/base/parallel.h"
#include "joinery/piece/part_list.h"

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
                                        const joinery::Progress& progress, ViewMemory* memory) {
  const joinery::Piece& piece = fit.piece;
  const auto groups = joinery::groupParts(piece);
  DrawingOptions options;
  options.unit = unit;
  options.sheets = static_cast<int>(groups.size()) + 1;
  options.memory = memory;
  if (memory != nullptr) memory->forgetUnused();
  // A drawing may take several sheets. The first is the assembly, and takes longest.
  std::vector<std::vector<NamedSheet>> drawings(groups.size() + 1);
  const auto draw = [&](std::size_t i) -> Result<void> {
    DrawingOptions own = options;
    own.sheet = static_cast<int>(i) + 1;
    if (i == 0) {
      own.errors = errorsOf(fit.findings);
      auto assembly = drawAssembly(piece, fit.solids, groups, own);
      if (!assembly) return tl::unexpected(assembly.error().within("assembly drawing"));
      for (Sheet& sheet : *assembly) {
        const std::string name = drawings[0].empty()
                                     ? "00-assembly"
                                     : fmt::format("00-assembly-{}", drawings[0].size() + 1);
        drawings[0].push_back({name, std::move(sheet)});
      }
      return {};
    }
    const joinery::PartGroup& group = groups[i - 1];
    const joinery::PartId first = group.parts.front();
    own.errors = errorsOf(fit.findings, group.parts);
    auto sheet = drawPart(piece, fit.solids, group, own);
    if (!sheet) return tl::unexpected(sheet.error().within(piece.part(first).name));
    drawings[i].push_back(
        {fmt::format("{:02}-{}", group.number, fileWord(piece.label(first))), std::move(*sheet)});
    return {};
  };
  if (const auto done = joinery::inParallel(drawings.size(), draw, progress); !done) {
    return tl::unexpected(done.error());
  }
  std::vector<NamedSheet> sheets;
  for (auto& drawing : drawings) std::ranges::move(drawing, std::back_inserter(sheets));
  return sheets;
}

Result<std::string> onePdf(const std::vector<NamedSheet>& sheets, const std::string& title) {
  std::vector<Sheet> pages;
  pages.reserve(sheets.size());
  for (const NamedSheet& named : sheets) pages.push_back(named.sheet);
  return pdfBytes(pages, {.title = title});
}

}  // namespace dryfit::exporting
