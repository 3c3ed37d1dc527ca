#include "engine/input/text_with_sets.hpp"

#include <algorithm>
#include <optional>
#include <utility>

#include "engine/input/located_yaml.hpp"
#include "engine/input/scenario_reader.hpp"
#include "engine/input/set_values.hpp"
#include "engine/input/yaml_paths.hpp"

namespace dullcast::input {
namespace {

bool same_meaning(const YamlValue& one, const YamlValue& other) {
  if (one.kind != other.kind || one.text != other.text || one.items.size() != other.items.size() ||
      one.entries.size() != other.entries.size())
    return false;
  for (std::size_t i = 0; i < one.items.size(); ++i) {
    if (!same_meaning(one.items[i], other.items[i])) return false;
  }
  return std::all_of(one.entries.begin(), one.entries.end(), [&](const YamlEntry& entry) {
    const YamlEntry* counterpart = other.find(entry.key);
    return counterpart && same_meaning(entry.value, counterpart->value);
  });
}

/// Where a location points to in the text; npos where it points to none.
std::size_t place_in(const std::string& text, const scenario::Location& location) {
  std::size_t at = 0;
  for (int line = 1; line < location.line; ++line) {
    at = text.find('\n', at);
    if (at == std::string::npos) return at;
    ++at;
  }
  return location.line < 1 || location.column < 1 ? std::string::npos
                                                  : at + static_cast<std::size_t>(location.column - 1);
}

/// The end of the scalar that begins at `at`, if it ends on its line: a quoted one with its quote, a plain
/// one before a comment, or, where `in_brackets`, before what ends it there.
std::size_t end_of_scalar(const std::string& text, std::size_t at, bool in_brackets) {
  const std::size_t line_end = std::min(text.find('\n', at), text.size());
  if (const char quote = text[at]; quote == '"' || quote == '\'') {
    std::size_t end = at + 1;
    while (end < line_end && text[end] != quote) end += quote == '"' && text[end] == '\\' ? 2 : 1;
    return std::min(end + 1, line_end);
  }
  std::size_t end = at;
  while (end < line_end && !(text[end] == '#' && end > at && text[end - 1] == ' ') &&
         !(in_brackets && (text[end] == ',' || text[end] == '}' || text[end] == ']')))
    ++end;
  while (end > at && (text[end - 1] == ' ' || text[end - 1] == '\t' || text[end - 1] == '\r')) --end;
  return end;
}

/// One set, taken apart, and how far its path exists in the tree.
struct Change {
  std::vector<std::string> path;
  std::string value;
  std::size_t known = 0;               // steps that exist
  const YamlValue* deepest = nullptr;  // what the known steps lead to
};

Change change_of(const std::string& set, const YamlValue& root) {
  const auto equals = set.find('=');
  Change change;
  change.path = steps_of_path(set.substr(0, equals));
  change.value = set.substr(equals + 1);
  if (change.path.front() == "layers" && !root.find("layers"))
    change.path.insert(change.path.begin(), "column");
  change.deepest = &root;
  while (change.known < change.path.size()) {
    const std::string& step = change.path[change.known];
    const YamlValue* next = nullptr;
    if (change.deepest->is_list()) {
      const auto index = place_in_list(step, change.deepest->items.size());
      if (index) next = &change.deepest->items[*index];
    } else if (const YamlEntry* entry = change.deepest->find(step)) {
      next = &entry->value;
    }
    if (!next) break;
    change.deepest = next;
    ++change.known;
  }
  return change;
}

/// "a: value", or "a:\n  b: value" with lines indented from `column` on, of the steps that do not exist yet.
std::string new_lines(const Change& change, std::size_t column) {
  std::string result;
  for (std::size_t i = change.known; i < change.path.size(); ++i) {
    if (i > change.known) result += "\n" + std::string(column + 2 * (i - change.known), ' ');
    result += change.path[i] + ":";
  }
  return result + " " + change.value;
}

/// The same within brackets: "a: value" or "a: {b: value}".
std::string new_entry(const Change& change) {
  std::string result, end;
  for (std::size_t i = change.known; i < change.path.size(); ++i) {
    if (i > change.known) result += "{", end += "}";
    result += change.path[i] + ": ";
  }
  return result + change.value + end;
}

/// The ways in which a change may be written into the text; the first that reads as it should is taken.
std::vector<std::string> ways(const std::string& text, const Change& change) {
  std::vector<std::string> result;
  const auto replaced = [&](std::size_t from, std::size_t to, const std::string& by) {
    if (from <= text.size() && to <= text.size() && from <= to)
      result.push_back(text.substr(0, from) + by + text.substr(to));
  };
  if (change.known == change.path.size()) {
    const std::size_t at = place_in(text, change.deepest->location);
    if (!change.deepest->is_scalar() || at >= text.size()) return result;
    for (const bool in_brackets : {false, true})
      replaced(at, end_of_scalar(text, at, in_brackets), change.value);
    return result;
  }
  if (!change.deepest->is_map() || change.deepest->entries.empty()) return result;
  const scenario::Location& beside = change.deepest->entries.front().location;
  const std::size_t at = place_in(text, beside);
  if (at == std::string::npos || at > text.size()) return result;
  const auto column = static_cast<std::size_t>(beside.column - 1);
  if (change.known == 0) {
    const bool ended = text.empty() || text.back() == '\n';
    result.push_back(text + (ended ? "" : "\n") + new_lines(change, 0) + "\n");
  }
  replaced(at, at, new_lines(change, column) + "\n" + std::string(column, ' '));
  replaced(at, at, new_entry(change) + ", ");
  return result;
}

std::optional<YamlValue> parsed(const std::string& text, const std::string& file) {
  Problems problems;
  YamlValue tree = parse_yaml(text, file, problems);
  if (problems.any_error()) return std::nullopt;
  return tree;
}

}  // namespace

std::string text_with_sets(const std::string& text, const std::string& file,
                           const std::vector<std::string>& sets) {
  std::string now = text;
  YamlValue tree = ScenarioReader::parse(text, file);
  for (const std::string& set : sets) {
    Problems problems;
    YamlValue wanted = tree;
    apply_sets({set}, wanted, problems);
    problems.throw_if_any();
    if (same_meaning(tree, wanted)) continue;
    bool written = false;
    for (const std::string& attempt : ways(now, change_of(set, tree))) {
      std::optional<YamlValue> there = parsed(attempt, file);
      if (!there || !same_meaning(*there, wanted)) continue;
      now = attempt;
      tree = std::move(*there);
      written = true;
      break;
    }
    if (!written) {
      problems.error({"--set " + set.substr(0, set.find('=')), 0, 0}, "",
                     "cannot be written into this text as it stands; write it there by hand");
      problems.throw_if_any();
    }
  }
  return now;
}

}  // namespace dullcast::input
