#include "tools/schema_maker/key_reference.hpp"

#include <sstream>
#include <stdexcept>

#include "engine/input/yaml_paths.hpp"

namespace dullcast::schema_maker {

namespace {

std::string trimmed(const std::string& text) {
  const auto begin = text.find_first_not_of(' ');
  return begin == std::string::npos ? "" : text.substr(begin, text.find_last_not_of(' ') + 1 - begin);
}

/// The cells of a table's line, without what heads and ends it.
std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::string cell;
  for (std::size_t k = 1; k < line.size(); ++k) {
    if (line[k] == '|' && line[k - 1] != '\\') {
      cells.push_back(trimmed(cell));
      cell.clear();
    } else {
      cell += line[k];
    }
  }
  return cells;
}

/// The keys in a row's first cell, which stand between backticks.
std::vector<std::string> keys_in(const std::string& cell) {
  std::vector<std::string> keys;
  for (std::size_t at = cell.find('`'); at != std::string::npos; at = cell.find('`', at + 1)) {
    const auto end = cell.find('`', at + 1);
    if (end == std::string::npos) break;
    keys.push_back(cell.substr(at + 1, end - at - 1));
    at = end;
  }
  return keys;
}

std::string sentence(std::string text) {
  while (!text.empty() && (text.back() == ':' || text.back() == ';')) text.pop_back();
  if (!text.empty() && text.back() != '.') text += '.';
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

}  // namespace

KeyReference::KeyReference(const std::string& page, const std::string& heading) {
  const auto begin = page.find("\n" + heading + "\n");
  if (begin == std::string::npos) throw std::runtime_error("scenarios/README.md has no section " + heading);
  std::istringstream lines(page.substr(begin + 1, page.find("\n## ", begin + 2) - begin - 1));
  std::string section;
  for (std::string line; std::getline(lines, line);) {
    if (line.empty() || line[0] != '|') continue;
    const std::vector<std::string> cells = cells_of(line);
    if (cells.size() < 2) continue;
    const std::vector<std::string> keys = keys_in(cells[0]);
    if (keys.empty()) continue;
    if (cells[0].starts_with("**")) section = keys.front();
    std::string words = sentence(cells[1]);
    if (cells.size() > 2 && !cells[2].empty())
      words += (words.empty() ? "" : " ") + ("Example: " + sentence(cells[2]));
    if (cells.size() > 3 && !cells[3].empty())
      words += (words.empty() ? "" : " ") +
               (cells[3] == "required" ? std::string("Required.") : "Default: " + sentence(cells[3]));
    for (const std::string& key : keys)
      rows_.push_back({cells[0].starts_with("**") ? key : section, key, words});
  }
}

std::string KeyReference::words_on(const std::string& path) const {
  std::vector<std::string> steps;
  for (const std::string& step : input::steps_of_path(path)) {
    if (step != "*" && step != "NAME") steps.push_back(step);
  }
  const Row* best = nullptr;
  std::size_t best_score = 0;
  for (const Row& row : rows_) {
    const std::vector<std::string> own = input::steps_of_path(row.key);
    if (own.size() > steps.size() || !std::equal(own.rbegin(), own.rend(), steps.rbegin())) continue;
    // The longest way that both have, and of two such the one under the same bold key.
    const bool same_section = row.section == steps.front();
    if (!same_section && own.size() < steps.size()) continue;
    const std::size_t score = 2 * own.size() + (same_section ? 1 : 0);
    if (score > best_score) {
      best = &row;
      best_score = score;
    }
  }
  return best ? best->words : "";
}

}  // namespace dullcast::schema_maker
