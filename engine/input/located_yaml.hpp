#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "engine/input/problems.hpp"

/// YAML text as a tree in which everything knows its place. The text is parsed by yaml-cpp's event parser;
/// the tree is our own, so that repeated keys are seen (yaml-cpp's nodes keep them silently) and values from
/// --set carry their own place.
namespace dullcast::input {

struct YamlEntry;

/// One value: a scalar keeps its text, a list its items, a map its entries in the order written.
struct YamlValue {
  enum class Kind { nothing, scalar, list, map };
  Kind kind = Kind::nothing;
  std::string text;
  std::vector<YamlValue> items;
  std::vector<YamlEntry> entries;
  scenario::Location location;

  const YamlEntry* find(std::string_view key) const;
  YamlEntry* find(std::string_view key);
  bool is_map() const { return kind == Kind::map; }
  bool is_list() const { return kind == Kind::list; }
  bool is_scalar() const { return kind == Kind::scalar; }
  bool is_nothing() const { return kind == Kind::nothing; }
};

struct YamlEntry {
  std::string key;
  scenario::Location location;  // of the key
  YamlValue value;
};

/// "a list", "a map", "nothing" or the scalar's text in quotes: for messages.
std::string kind_name(const YamlValue& value);

/// The file's bytes. Throws ScenarioErrors when it cannot be read or is larger than 4 MB.
std::string read_text_file(const std::string& path);

/// Parses one YAML document. Syntax errors, repeated keys, aliases, tags and keys that are no plain words
/// become errors in `problems` (with the value of a repeated key that stands first kept); what could be read
/// is returned, of kind nothing when that is nothing. Never throws for bad text.
YamlValue parse_yaml(const std::string& text, const std::string& file, Problems& problems);

/// The text as a double-quoted YAML scalar.
std::string yaml_quoted(std::string_view text);

}  // namespace dullcast::input
