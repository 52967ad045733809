#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace dryfit::exporting {

/// How many columns of a terminal a UTF-8 text takes, one a code point.
[[nodiscard]] std::size_t columnsOf(std::string_view text);

/// A table in plain text. Numbers stand flush right, words flush left; every column is as wide as
/// its widest cell and two blanks part the columns. No line ends in a blank.
class TextTable {
 public:
  enum class Side { left, right };
  struct Column {
    std::string head;
    Side side = Side::left;
  };

  explicit TextTable(std::vector<Column> columns);
  /// REQUIRES: one cell a column.
  void add(std::vector<std::string> cells);
  [[nodiscard]] bool empty() const { return rows_.empty(); }
  /// Head, a rule, and the rows, each line ending in a line feed.
  [[nodiscard]] std::string text() const;

 private:
  std::vector<Column> columns_;
  std::vector<std::vector<std::string>> rows_;
};

}  // namespace dryfit::exporting
