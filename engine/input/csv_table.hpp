#pragma once

#include <string>
#include <vector>

#include "engine/input/problems.hpp"

namespace dullcast::input {

/// One cell of a table, without its quotes and the blanks around it, and where it begins, counted from 1.
struct CsvCell {
  std::string text;
  int line = 0, column = 0;
};

/// Values separated by commas (RFC 4180), semicolons or tabs, as spreadsheets write them.
struct CsvTable {
  char separator = ',';
  std::vector<CsvCell> header;
  std::vector<std::vector<CsvCell>> rows;  // none longer than the header; those of blanks alone left out
  std::size_t header_end = 0;              // bytes of the text before the end of the header's line
};

/// More than these no shelf needs; a text with more is refused at the first that is too many.
inline constexpr std::size_t most_csv_rows = 2000, most_csv_columns = 1000, most_csv_cell = 20'000;

/// Reads a table: cells in quotes may hold separators, ends of lines (kept as "\n") and quotes written twice;
/// lines end with LF or CRLF; a mark of byte order at the start and a first line "sep=;" are taken for what
/// they are. The separator is otherwise the one that the first line holds most of. Reports rows longer than
/// the header; and text that is not UTF-8 or holds zero bytes, quotes that are not closed or stand inside a
/// cell, and more of anything than the bounds above, after which the table is empty. Takes time and memory in
/// proportion to the text.
CsvTable read_csv(const std::string& text, const std::string& file, Problems& problems);

}  // namespace dullcast::input
