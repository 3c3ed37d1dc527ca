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

/// The text in quotes, cut short when it is long: for messages.
std::string quoted_text(std::string_view text);

/// Whether the text is UTF-8 (RFC 3629); tells the first place where it is not.
bool check_utf8(std::string_view text, const std::string& file, Problems& problems);

/// Parses one YAML document. Text that is not UTF-8, syntax errors, repeated keys, aliases, tags, keys that
/// are no plain words and more values, keys, items or levels than any scenario needs become errors in
/// `problems` (with the value of a repeated key that stands first kept); what could be read is returned, of
/// kind nothing when that is nothing. Never throws for bad text; takes time and memory in proportion to the
/// text.
YamlValue parse_yaml(const std::string& text, const std::string& file, Problems& problems);

/// The text as a double-quoted YAML scalar.
std::string yaml_quoted(std::string_view text);

}  // namespace dullcast::input
