#include "engine/input/table_maps.hpp"

#include <algorithm>
#include <charconv>
#include <set>

#include "engine/input/key_places.hpp"
#include "engine/input/letters.hpp"

namespace dullcast::input {
namespace {

/// "cutter_7" -> 7; 0 for anything else.
int cutter_of(std::string_view key) {
  constexpr std::string_view before = "cutter_";
  if (!key.starts_with(before)) return 0;
  int number = 0;
  const char* end = key.data() + key.size();
  const auto [stop, failure] = std::from_chars(key.data() + before.size(), end, number);
  const bool whole = failure == std::errc() && stop == end && key == cutter_key(number);
  return whole && number >= 1 && number <= most_cutter_keys ? number : 0;
}

bool among(const std::vector<std::string>& keys, std::string_view key) {
  return std::find(keys.begin(), keys.end(), key) != keys.end();
}

bool is_single_cutter(const TableKeys& keys, std::string_view key) {
  return keys.single_cutters && cutter_of(key) > 0;
}

/// Whether values of the key have a dimension, so that a heading may state their unit.
bool has_dimension(const TableKeys& keys, std::string_view key) {
  return among(keys.with_units, key) || is_single_cutter(keys, key);
}

std::string without_blanks(std::string_view text) {
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return std::string(text);
}

/// "Weight on bit (lbf)" -> "weight_on_bit" and "lbf".
std::string heading_key(std::string_view heading, std::string& unit) {
  std::string_view name = heading;
  const auto open = heading.find_last_of("([");
  const bool closed = heading.ends_with(')') || heading.ends_with(']');
  if (open != heading.npos && open > 0 && closed) {
    unit = without_blanks(heading.substr(open + 1, heading.size() - open - 2));
    name = heading.substr(0, open);
  }
  std::string key = without_blanks(name);
  for (char& c : key) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (c == ' ' || c == '-' || c == '\n') c = '_';
  }
  return key;
}

TableColumn column_of(const CsvCell& heading, const TableKeys& keys, const std::string& file,
                      Problems& problems) {
  TableColumn column;
  constexpr std::string_view one_rock = "drilled_";
  const scenario::Location place{file, heading.line, heading.column};
  std::string key = heading_key(heading.text, column.unit);
  if (among(keys.names, key) || is_single_cutter(keys, key)) {
    column.key = key;
  } else if (among(keys.names, "drilled") && key.starts_with(one_rock)) {
    column.key = "drilled";
    column.rock = key.substr(one_rock.size());
  } else if (!heading.text.empty()) {
    problems.error(place, shortened(heading.text, longest_quoted),
                   "is no heading here; " + key_hint(shortened(key, longest_quoted), "", keys.names));
    return column;
  } else {
    return column;  // wrong only where something stands under it
  }
  if (!column.unit.empty() && !has_dimension(keys, column.key)) {
    problems.error(place, heading.text, "states a unit, but " + column.key + " has none; leave it out");
    column.unit.clear();
  }
  return column;
}

/// The key of which a column of one cutter or one rock is a part; empty for any other column.
std::string whole_of(const TableColumn& column) {
  if (cutter_of(column.key) > 0) return "cutters";
  return column.rock.empty() ? "" : "drilled";
}

bool ends_in_number(std::string_view text) {
  return !text.empty() && digit(text.back());
}

/// A number as a spreadsheet with a decimal comma writes it, made one with a point; false when comma or point
/// may part thousands.
bool with_decimal_point(std::string& text) {
  for (std::size_t i = 1; i + 1 < text.size(); ++i) {
    const bool mark = text[i] == ',' || text[i] == '.';
    if (!mark || !digit(text[i - 1]) || !digit(text[i + 1])) continue;
    std::size_t first = i, end = i + 1;
    while (first > 0 && digit(text[first - 1])) --first;
    while (end < text.size() && digit(text[end])) ++end;
    const bool zero_before = i == first + 1 && text[first] == '0';
    if (end == i + 4 && !zero_before) return false;
    text[i] = '.';
    i = end - 1;
  }
  return true;
}

/// Turns the cells of a table's rows into values.
class RowReader {
 public:
  RowReader(const CsvTable& table, const TableKeys& keys, const std::string& file, Problems& problems)
      : table_(table),
        keys_(keys),
        file_(file),
        problems_(problems),
        columns_(table_columns(table, keys, file, problems)) {}

  YamlValue map_of(const std::vector<CsvCell>& row) {
    YamlValue map;
    map.kind = YamlValue::Kind::map;
    map.location = {file_, row.front().line, 1};
    for (std::size_t c = 0; c < row.size(); ++c) {
      add(map, columns_[c], row[c]);
      if (table_.header[c].text.empty() && !row[c].text.empty())
        problems_.error({file_, row[c].line, row[c].column}, "",
                        quoted_text(row[c].text) +
                            " stands in a column without a heading; write above it the key of what is in it");
    }
    return map;
  }

 private:
  void add(YamlValue& map, const TableColumn& column, const CsvCell& cell) {
    if (column.key.empty() || cell.text.empty()) return;
    YamlValue value = scalar(column, cell);
    if (value.is_nothing()) return;
    if (column.rock.empty()) {
      map.entries.push_back({column.key, value.location, std::move(value)});
      return;
    }
    YamlEntry* list = map.find(column.key);
    if (!list) {
      YamlValue fresh;
      fresh.kind = YamlValue::Kind::list;
      fresh.location = value.location;
      map.entries.push_back({column.key, value.location, std::move(fresh)});
      list = &map.entries.back();
    }
    value.text = column.rock + " " + value.text;
    list->value.items.push_back(std::move(value));
  }

  /// The cell as a value; nothing where it is wrong, which is told.
  YamlValue scalar(const TableColumn& column, const CsvCell& cell) {
    YamlValue value;
    value.kind = YamlValue::Kind::scalar;
    value.text = cell.text;
    value.location = {file_, cell.line, cell.column};
    // The apostrophe that keeps a spreadsheet from taking a text for a formula.
    if (value.text.size() > 1 && value.text.front() == '\'' &&
        std::string_view("=+-@").find(value.text[1]) != std::string_view::npos)
      value.text.erase(0, 1);
    if (!has_dimension(keys_, column.key)) return value;
    std::string text;
    const std::string before = value.text;
    for (std::size_t at = 0; at <= before.size();) {
      const std::size_t end = std::min(before.find_first_of(";|", at), before.size());
      std::string part = without_blanks(std::string_view(before).substr(at, end - at));
      if (table_.separator == ';' && !with_decimal_point(part)) {
        problems_.error(value.location, column.key,
                        quoted_text(part) +
                            " may be read with and without thousands parted; write a number without them, "
                            "and other than three decimals (6750, or 6,75)");
        return {};
      }
      if (!column.unit.empty() && ends_in_number(part)) part += " " + column.unit;
      text += (at > 0 ? ";" : "") + part;
      at = end + 1;
    }
    value.text = text;
    return value;
  }

  const CsvTable& table_;
  const TableKeys& keys_;
  const std::string& file_;
  Problems& problems_;
  std::vector<TableColumn> columns_;
};

}  // namespace

std::string cutter_key(int cutter) {
  return "cutter_" + std::to_string(cutter);
}

std::vector<TableColumn> table_columns(const CsvTable& table, const TableKeys& keys, const std::string& file,
                                       Problems& problems) {
  std::vector<TableColumn> columns;
  std::set<std::string> met, parts_of_met;  // names of columns; keys of which single columns are parts
  for (const CsvCell& heading : table.header) {
    columns.push_back(column_of(heading, keys, file, problems));
    TableColumn& column = columns.back();
    if (column.key.empty()) continue;
    const std::string name = column.rock.empty() ? column.key : "drilled " + column.rock;
    const std::string whole = whole_of(column);
    std::string wrong;
    if (!met.insert(name).second) {
      wrong = "is a second column of " + name + "; keep one of them";
    } else if (met.count(whole) > 0) {
      wrong = "stands beside a column of all " + whole + "; keep that one, or one column each";
    } else if (whole.empty() && parts_of_met.count(column.key) > 0) {
      wrong = "stands beside columns of single " + column.key + "; keep this one, or one column each";
    }
    if (!whole.empty()) parts_of_met.insert(whole);
    if (wrong.empty()) continue;
    problems.error({file, heading.line, heading.column}, shortened(heading.text, longest_quoted), wrong);
    column.key.clear();
  }
  return columns;
}

std::vector<YamlValue> maps_of_table(const CsvTable& table, const TableKeys& keys, const std::string& file,
                                     Problems& problems) {
  RowReader reader(table, keys, file, problems);
  std::vector<YamlValue> maps;
  for (const auto& row : table.rows) maps.push_back(reader.map_of(row));
  return maps;
}

std::vector<YamlValue> parts_of(const YamlValue& value) {
  if (value.is_list()) return value.items;
  std::vector<YamlValue> parts;
  if (!value.is_scalar()) return parts;
  for (std::size_t at = 0; at <= value.text.size();) {
    const std::size_t end = std::min(value.text.find_first_of(";|", at), value.text.size());
    YamlValue part;
    part.kind = YamlValue::Kind::scalar;
    part.text = without_blanks(std::string_view(value.text).substr(at, end - at));
    part.location = value.location;
    if (part.text.empty()) part.kind = YamlValue::Kind::nothing;
    parts.push_back(std::move(part));
    at = end + 1;
  }
  if (parts.size() > 1 && parts.back().is_nothing()) parts.pop_back();
  return parts;
}

}  // namespace dullcast::input
