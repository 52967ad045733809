#include "export/words/text_table.h"

#include <algorithm>
#include <utility>

namespace dryfit::exporting {

namespace {

std::string padded(const std::string& cell, std::size_t width, TextTable::Side side) {
  const std::string blanks(width - std::min(width, columnsOf(cell)), ' ');
  return side == TextTable::Side::left ? cell + blanks : blanks + cell;
}

void endLine(std::string& text) {
  text.erase(text.find_last_not_of(' ') + 1);
  text += '\n';
}

}  // namespace

std::size_t columnsOf(std::string_view text) {
  // Continuation bytes of UTF-8 are 10xxxxxx; all others start a character.
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  }));
}

TextTable::TextTable(std::vector<Column> columns) : columns_(std::move(columns)) {}

void TextTable::add(std::vector<std::string> cells) {
  cells.resize(columns_.size());
  rows_.push_back(std::move(cells));
}

std::string TextTable::text() const {
  std::vector<std::size_t> widths;
  for (std::size_t i = 0; i < columns_.size(); ++i) {
    std::size_t width = columnsOf(columns_[i].head);
    for (const auto& row : rows_) width = std::max(width, columnsOf(row[i]));
    widths.push_back(width);
  }
  std::string text;
  const auto line = [&](const auto& cellOf) {
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      if (i > 0) text += "  ";
      text += padded(cellOf(i), widths[i], columns_[i].side);
    }
    endLine(text);
  };
  line([&](std::size_t i) { return columns_[i].head; });
  line([&](std::size_t i) { return std::string(widths[i], '-'); });
  for (const auto& row : rows_) line([&](std::size_t i) { return row[i]; });
  return text;
}

}  // namespace dryfit::exporting
