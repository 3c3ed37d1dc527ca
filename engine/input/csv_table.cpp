#include "engine/input/csv_table.hpp"

#include <algorithm>
#include <array>

#include "engine/base/plain_text.hpp"
#include "engine/input/letters.hpp"
#include "engine/input/located_yaml.hpp"

namespace dullcast::input {
namespace {

constexpr std::string_view byte_order_mark = "\xef\xbb\xbf";

/// Thrown to end the reading of a table of which no more is wanted; what is wrong has been told.
struct TableStopped {};

/// The separator that stands most often in the first line, outside quotes.
char separator_of(std::string_view text) {
  constexpr std::array<char, 3> separators{',', ';', '\t'};
  std::array<std::size_t, 3> counts{};
  bool quoted = false;
  for (const char c : text) {
    if (c == '"') quoted = !quoted;
    if ((c == '\n' || c == '\r') && !quoted) break;
    for (std::size_t k = 0; k < separators.size(); ++k) counts[k] += !quoted && c == separators[k] ? 1 : 0;
  }
  return separators[static_cast<std::size_t>(std::max_element(counts.begin(), counts.end()) -
                                             counts.begin())];
}

/// Goes through a table's text byte by byte.
class CsvReader {
 public:
  CsvReader(const std::string& text, const std::string& file, Problems& problems)
      : text_(text), file_(file), problems_(problems) {}

  CsvTable read() {
    CsvTable table;
    if (text_.starts_with(byte_order_mark)) at_ = byte_order_mark.size();
    const std::string_view rest = std::string_view(text_).substr(at_);
    const bool told = rest.starts_with("sep=") && rest.size() > 4 && !blank(rest[4]);
    separator_ = table.separator = told ? rest[4] : separator_of(rest);
    if (told) {
      at_ += 5;
      if (here() == '\r') ++at_;
      if (here() == '\n') end_line();
    }
    try {
      table.header = row();
      table.header_end = line_stop_;
      while (at_ < text_.size()) add(table, row());
    } catch (const TableStopped&) {
      table.header.clear();  // what was read until here may belong elsewhere
      table.rows.clear();
    }
    return table;
  }

 private:
  char here() const { return at_ < text_.size() ? text_[at_] : '\0'; }

  [[noreturn]] void stop(const scenario::Location& place, const std::string& words) {
    problems_.error(place, "", words);
    throw TableStopped{};
  }

  scenario::Location place() const { return {file_, line_, column_}; }
  scenario::Location place(const CsvCell& cell) const { return {file_, cell.line, cell.column}; }

  void step() {
    ++at_;
    if (!base::inside_character(text_, at_)) ++column_;
  }

  void end_line() {
    ++at_;
    ++line_;
    column_ = 1;
  }

  void add(CsvTable& table, std::vector<CsvCell> cells) {
    const auto empty = [](const CsvCell& cell) { return cell.text.empty(); };
    if (std::all_of(cells.begin(), cells.end(), empty)) return;
    if (table.rows.size() == most_csv_rows)
      stop(place(cells.front()),
           "makes more than " + std::to_string(most_csv_rows) + " rows; divide the table into several files");
    while (cells.size() > table.header.size()) {
      if (!cells.back().text.empty())
        problems_.error(place(cells.back()), "",
                        quoted_text(cells.back().text) +
                            " stands past the last heading; give its column a "
                            "heading, or put a cell that holds a separator in "
                            "quotes");
      cells.pop_back();
    }
    table.rows.push_back(std::move(cells));
  }

  std::vector<CsvCell> row() {
    std::vector<CsvCell> cells;
    for (;;) {
      if (cells.size() == most_csv_columns)
        stop(place(), "makes more than " + std::to_string(most_csv_columns) +
                          " cells in one row; check the ends of lines and the quotes");
      cells.push_back(cell());
      if (here() == separator_ && at_ < text_.size()) {
        step();
        continue;
      }
      line_stop_ = at_;
      if (here() == '\r') {
        ++at_;
        if (here() != '\n') --at_;  // an end of line by itself, as some old programs write it
      }
      if (at_ < text_.size()) end_line();
      return cells;
    }
  }

  bool at_line_end() const { return at_ >= text_.size() || text_[at_] == '\n' || text_[at_] == '\r'; }

  void take(CsvCell& cell, char letter) {
    if (cell.text.size() == most_csv_cell)
      stop(place(cell), "is longer than " + std::to_string(most_csv_cell) +
                            " bytes; no cell is: check that each quote has its partner");
    cell.text += letter;
  }

  CsvCell cell() {
    while (here() == ' ') step();
    CsvCell cell{"", line_, column_};
    if (here() == '"') {
      quoted(cell);
    } else {
      while (!at_line_end() && here() != separator_) {
        if (here() == '"')
          stop(place(),
               "has a quote inside a cell; put the whole cell in quotes and write each quote in it "
               "twice");
        take(cell, here());
        step();
      }
    }
    while (!cell.text.empty() && blank(cell.text.back())) cell.text.pop_back();
    return cell;
  }

  void quoted(CsvCell& cell) {
    step();
    for (;;) {
      if (at_ >= text_.size()) stop(place(cell), "opens a quote that is never closed");
      if (here() == '"') {
        step();
        if (here() != '"') break;
      }
      if (here() == '\n') {
        take(cell, '\n');
        end_line();
      } else if (here() == '\r' && at_ + 1 < text_.size() && text_[at_ + 1] == '\n') {
        step();
      } else {
        take(cell, here());
        step();
      }
    }
    while (here() == ' ') step();
    if (!at_line_end() && here() != separator_)
      stop(place(), "stands behind a closed quote; write a quote within a cell twice");
  }

  const std::string& text_;
  const std::string& file_;
  Problems& problems_;
  char separator_ = ',';
  std::size_t at_ = 0, line_stop_ = 0;
  int line_ = 1, column_ = 1;
};

}  // namespace

CsvTable read_csv(const std::string& text, const std::string& file, Problems& problems) {
  if (text.find('\0') != std::string::npos) {
    problems.error({file, 1, 1}, "", "is no text file: it holds zero bytes; save the table as CSV, UTF-8");
    return {};
  }
  if (!check_utf8(text, file, problems)) return {};
  return CsvReader(text, file, problems).read();
}

}  // namespace dullcast::input
