#include "engine/input/shelf_writer.hpp"

#include <algorithm>

#include "engine/base/plain_text.hpp"
#include "engine/input/letters.hpp"
#include "engine/input/shelf_reader.hpp"
#include "engine/input/shelf_table.hpp"

namespace dullcast::input {
namespace {

constexpr std::size_t nowhere = std::string::npos;

[[noreturn]] void cannot_add(const std::string& file, const std::string& why) {
  throw ScenarioErrors({file + ": " + why});
}

/// A cell that reads back as the text.
std::string cell_text(const std::string& text, char separator) {
  const std::string cell = base::csv_cell(text);
  const bool quoted = !cell.empty() && cell.front() == '"';
  return !quoted && cell.find(separator) != nowhere ? '"' + cell + '"' : cell;
}

/// The row that a record makes in a table, and the headings that the table lacks for it.
class NewRow {
 public:
  NewRow(const CsvTable& table, const std::string& file, Problems& problems)
      : columns_(shelf_columns(table, file, problems)), cells_(columns_.size()) {}

  void put(const RecordAnswer& answer) {
    YamlValue value;
    value.kind = YamlValue::Kind::scalar;
    value.text = answer.text;
    if (answer.key == "cutters" && one_each("cutter_")) {
      const std::vector<YamlValue> parts = parts_of(value);
      for (std::size_t i = 0; i < parts.size(); ++i) {
        const std::string key = cutter_key(static_cast<int>(i) + 1);
        cells_[place(key, "", key)] = parts[i].text;
      }
    } else if (answer.key == "drilled" && !has("drilled", "")) {
      put_rocks(value, answer);
    } else {
      cells_[place(answer.key, "", answer.key)] = answer.text;
    }
  }

  std::string row(char separator) const {
    std::string text;
    for (std::size_t c = 0; c < cells_.size(); ++c)
      text += (c > 0 ? std::string(1, separator) : "") + cell_text(cells_[c], separator);
    return text;
  }

  const std::vector<std::string>& new_headings() const { return new_headings_; }

 private:
  bool has(const std::string& key, const std::string& rock) const {
    return std::any_of(columns_.begin(), columns_.end(),
                       [&](const TableColumn& column) { return column.key == key && column.rock == rock; });
  }

  bool one_each(std::string_view start) const {
    return std::any_of(columns_.begin(), columns_.end(),
                       [&](const TableColumn& column) { return column.key.starts_with(start); });
  }

  std::size_t place(const std::string& key, const std::string& rock, const std::string& heading) {
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      if (columns_[c].key == key && columns_[c].rock == rock) return c;
    }
    columns_.push_back({key, rock, ""});
    cells_.emplace_back();
    new_headings_.push_back(heading);
    return columns_.size() - 1;
  }

  /// "sandstone 120 m; shale 40 m" into columns of one rock each, where the table has such.
  void put_rocks(const YamlValue& value, const RecordAnswer& answer) {
    const bool single = std::any_of(columns_.begin(), columns_.end(),
                                    [](const TableColumn& column) { return !column.rock.empty(); });
    if (!single) {
      cells_[place("drilled", "", "drilled")] = answer.text;
      return;
    }
    for (const YamlValue& part : parts_of(value)) {
      const std::size_t number = std::min(part.text.find_first_of("0123456789."), part.text.size());
      std::string rock = part.text.substr(0, number);
      while (!rock.empty() && blank(rock.back())) rock.pop_back();
      std::replace(rock.begin(), rock.end(), ' ', '_');
      cells_[place("drilled", rock, "drilled " + rock)] = part.text.substr(number);
    }
  }

  std::vector<TableColumn> columns_;
  std::vector<std::string> cells_, new_headings_;
};

std::string with_row(const std::string& text, const std::string& file,
                     const std::vector<RecordAnswer>& record) {
  Problems problems;
  const CsvTable table = read_csv(text, file, problems);
  NewRow row(table, file, problems);
  problems.throw_if_any();
  for (const RecordAnswer& answer : record) row.put(answer);
  std::string headings;
  for (const std::string& heading : row.new_headings())
    headings += table.separator + cell_text(heading, table.separator);
  std::string line_end = text.substr(table.header_end, 2);
  if (line_end != "\r\n") line_end = line_end.starts_with('\r') ? "\r" : "\n";
  std::string result = text;
  result.insert(table.header_end, headings);
  if (result.back() != '\n' && result.back() != '\r') result += line_end;
  result += row.row(table.separator) + line_end;

  const CsvTable after = read_csv(result, file, problems);
  bool same = after.rows.size() == table.rows.size() + 1;
  for (std::size_t r = 0; same && r < table.rows.size(); ++r)
    same = std::equal(table.rows[r].begin(), table.rows[r].end(), after.rows[r].begin(), after.rows[r].end(),
                      [](const CsvCell& one, const CsvCell& other) { return one.text == other.text; });
  if (!same || problems.any_error()) cannot_add(file, "a row cannot be added to this table; add it by hand");
  return result;
}

bool same_tree(const YamlValue& one, const YamlValue& other) {
  if (one.kind != other.kind || one.text != other.text) return false;
  return std::equal(one.items.begin(), one.items.end(), other.items.begin(), other.items.end(), same_tree) &&
         std::equal(one.entries.begin(), one.entries.end(), other.entries.begin(), other.entries.end(),
                    [](const YamlEntry& a, const YamlEntry& b) {
                      return a.key == b.key && same_tree(a.value, b.value);
                    });
}

/// Where each line of a text begins, and the end.
std::vector<std::size_t> line_starts(const std::string& text) {
  std::vector<std::size_t> starts{0};
  for (std::size_t at = text.find('\n'); at != nowhere; at = text.find('\n', at + 1))
    starts.push_back(at + 1);
  if (starts.back() != text.size()) starts.push_back(text.size());
  return starts;
}

/// Where a list of YAML is gone on with, and how far its dashes stand in.
struct ListEnd {
  std::size_t at = 0;
  std::size_t indent = 2;
};

ListEnd end_of_list(const std::string& text, const std::string& file, const YamlValue& root) {
  const YamlEntry* shelf = root.find("shelf");
  if (!shelf) cannot_add(file, "has no shelf: to add a record to; write shelf: on a line of its own");
  const std::vector<std::size_t> starts = line_starts(text);
  const auto line_of = [&](std::size_t line) {
    return std::string_view(text).substr(starts[line], starts[line + 1] - starts[line]);
  };
  const auto first_of = [&](std::size_t line) { return line_of(line).find_first_not_of(" \t\r\n"); };
  ListEnd end;
  auto from = static_cast<std::size_t>(shelf->location.line) - 1;
  if (!shelf->value.items.empty()) {
    from = static_cast<std::size_t>(shelf->value.items.back().location.line) - 1;
    while (from > 0 && (first_of(from) == nowhere || line_of(from)[first_of(from)] != '-')) --from;
    end.indent = first_of(from);
    if (from + 1 <= static_cast<std::size_t>(shelf->location.line))
      cannot_add(file, "has its records between brackets; write each on lines of its own, after a \"- \"");
  } else if (!shelf->value.is_nothing()) {
    cannot_add(file, "has something else than records under shelf:; write one \"- \" to a record");
  }
  std::size_t to = starts.size() - 1;  // the line at which the next key of the file begins
  for (const YamlEntry& entry : root.entries) {
    const auto line = static_cast<std::size_t>(entry.location.line) - 1;
    if (line > from) to = std::min(to, line);
  }
  while (to > from + 1 && (first_of(to - 1) == nowhere || line_of(to - 1)[first_of(to - 1)] == '#')) --to;
  end.at = starts[to];
  return end;
}

std::string with_item(const std::string& text, const std::string& file,
                      const std::vector<RecordAnswer>& record) {
  Problems problems;
  const YamlValue root = parse_yaml(text, file, problems);
  problems.throw_if_any();
  const ListEnd end = end_of_list(text, file, root);
  const std::string line_end = text.find("\r\n") != nowhere ? "\r\n" : "\n";
  std::string item = end.at > 0 && text[end.at - 1] != '\n' ? line_end : "";
  for (std::size_t k = 0; k < record.size(); ++k) {
    item += std::string(end.indent, ' ') + (k == 0 ? "- " : "  ") + record[k].key + ": " +
            yaml_quoted(record[k].text) + line_end;
  }
  std::string result = text;
  result.insert(end.at, item);

  YamlValue after = parse_yaml(result, file, problems);
  YamlEntry* shelf = after.find("shelf");
  bool same = shelf && !shelf->value.items.empty();
  if (same) {
    shelf->value.items.pop_back();
    if (shelf->value.items.empty()) shelf->value.kind = YamlValue::Kind::nothing;
    same = same_tree(root, after);
  }
  if (!same || problems.any_error())
    cannot_add(file, "a record cannot be added to this list; add it by hand");
  return result;
}

}  // namespace

std::string with_record(const std::string& text, const std::string& file,
                        const std::vector<RecordAnswer>& record) {
  return is_table_name(file) ? with_row(text, file, record) : with_item(text, file, record);
}

std::string empty_shelf(const std::string& file) {
  if (!is_table_name(file))
    return "# Bits that came back: what each drilled, and what was found on it.\nshelf:\n";
  std::string headings;
  for (const std::string& key : record_keys()) headings += (headings.empty() ? "" : ",") + key;
  return headings + "\n";
}

}  // namespace dullcast::input
