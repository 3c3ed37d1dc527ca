#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "engine/input/keys_asked.hpp"
#include "engine/input/located_yaml.hpp"
#include "engine/input/numbers_read.hpp"
#include "engine/input/units.hpp"

/// Reading a map key by key, with every complaint located and the reading going on, so that all errors of a
/// file are found at once.
namespace dullcast::input {

/// What one reading shares: the units, the currency of its money, the list of problems and, where somebody
/// asks, what was read where and which keys were asked for.
struct Reading {
  const UnitParser& units;
  Problems& problems;
  std::string currency = "$";
  NumbersRead* numbers = nullptr;
  KeysAsked* keys = nullptr;
};

/// Reads one map. Every key asked for is known; finish() reports the others with the nearest known key.
/// A value that cannot be used is reported and read as absent.
class MapReader {
 public:
  /// `path` is the map's own path ("bit.cutter"), empty for the top. A value that is no map is reported,
  /// unless it is nothing, and read as an empty map. `otherwise` is the place to name when the value is
  /// absent.
  MapReader(const YamlValue& value, std::string path, Reading& reading,
            const scenario::Location& otherwise = {});

  const scenario::Location& location() const { return location_; }
  const std::string& path() const { return path_; }
  Reading& reading() const { return reading_; }
  std::string path_of(std::string_view key) const;
  /// Where the key's value stands, or the map itself when it is absent.
  scenario::Location place(std::string_view key) const;

  bool has(std::string_view key) const;
  /// The value of a key, marked known; null when absent or written with nothing behind it.
  const YamlValue* find(std::string_view key);

  /// As find(), of an uncertain number (read_quantity reads it).
  const YamlValue* uncertain(std::string_view key, const base::Dimension& wanted, const base::Range& range);

  std::optional<double> number(std::string_view key, const base::Dimension& wanted, const base::Range& range);
  double number_or(std::string_view key, const base::Dimension& wanted, const base::Range& range,
                   double otherwise);
  /// As number(), but absence is an error that says what to write (`example`, or the dimension's own). NaN
  /// when there is an error.
  double required(std::string_view key, const base::Dimension& wanted, const base::Range& range,
                  const char* example = nullptr);
  std::optional<int> whole_number(std::string_view key, int least, int most);
  std::optional<std::int64_t> long_whole_number(std::string_view key, std::int64_t least, std::int64_t most);
  /// A few words on one line: text that is not plain (base::is_plain) is an error.
  std::optional<std::string> word(std::string_view key);
  /// A remark, which may go over several lines: their ends become blanks; otherwise as word().
  std::optional<std::string> remark(std::string_view key);
  /// A text as it stands, whatever is in it: a file within a file.
  std::optional<std::string> whole_text(std::string_view key);
  std::optional<bool> yes_or_no(std::string_view key);
  /// One of `words`; returns its index.
  std::optional<std::size_t> choice(std::string_view key, const std::vector<std::string>& words);
  /// A reader of the map under a key (an empty one when absent).
  MapReader map(std::string_view key);
  /// The items under a key that must be a list; empty when absent.
  const std::vector<YamlValue>& list(std::string_view key);

  void error(std::string_view key, const std::string& text);
  void warn(std::string_view key, const std::string& text);
  /// Reports keys that nobody asked for.
  void finish();

 private:
  /// Tells who wants to know that a key was asked for.
  void note(std::string_view key, KeyAsked asked) const;
  /// The text of a value when it is plain; otherwise the error is told.
  std::optional<std::string> plain_only(std::string_view key, std::string text);
  const YamlValue& value_;
  std::string path_;
  Reading& reading_;
  scenario::Location location_;
  std::vector<std::string> known_;
};

/// Reads one scalar as a number in SI; reports and returns nothing when it cannot be used.
std::optional<double> read_number(const YamlValue& value, const std::string& path,
                                  const base::Dimension& wanted, const base::Range& range, Reading& reading);

/// An empty value, for readers of what is absent.
const YamlValue& no_value();

}  // namespace dullcast::input
