#pragma once

#include <string>
#include <vector>

#include "engine/input/keys_asked.hpp"
#include "engine/input/library.hpp"
#include "engine/input/numbers_read.hpp"
#include "engine/input/problems.hpp"
#include "engine/scenario/scenario.hpp"

namespace dullcast::input {

/// Reads scenarios against one library; the library and the units are opened once. Several may live in one
/// process, each used from one thread at a time.
class ScenarioReader {
 public:
  /// Throws ScenarioErrors when the library cannot be used, UnitError when the unit database cannot be
  /// opened.
  explicit ScenarioReader(const std::string& library_folder);
  explicit ScenarioReader(const LibraryTexts& library);

  /// Reads and checks a scenario file with `sets` ("key=value") applied. Throws ScenarioErrors with all
  /// errors; what is unwise but possible is appended to `warnings`.
  scenario::Scenario read(const std::string& path, const std::vector<std::string>& sets,
                          std::vector<Warning>& warnings) const;

  /// The same of a text; `file` is the name for messages and the place its relative paths start from.
  scenario::Scenario read_text(const std::string& text, const std::string& file,
                               const std::vector<std::string>& sets, std::vector<Warning>& warnings) const;

  /// A scenario's text as a tree, for who reads it many times with other changes. Throws ScenarioErrors when
  /// it is no YAML map.
  static YamlValue parse(const std::string& text, const std::string& file);

  /// As read_text, of a text parsed before, but for the resolved text, which is left empty (resolved_text
  /// writes it). What was read where goes to `numbers`, where that is not null.
  scenario::Scenario read_tree(YamlValue tree, const std::string& file, const std::vector<std::string>& sets,
                               std::vector<Warning>& warnings, NumbersRead* numbers = nullptr) const;

  const Library& library() const { return library_; }
  const UnitParser& units() const { return units_; }

  /// From now on tells `keys` what is asked for while anything is read against this reader: scenarios, plans,
  /// shelves. Null for nobody.
  void tell_keys(KeysAsked* keys) { keys_ = keys; }
  KeysAsked* keys() const { return keys_; }

 private:
  scenario::Scenario read_changed(YamlValue& root, const std::string& file,
                                  const std::vector<std::string>& sets, std::vector<Warning>& warnings,
                                  Problems& problems, NumbersRead* numbers) const;
  scenario::Scenario read_parsed(const YamlValue& root, const std::string& file, bool with_inspection,
                                 Problems& problems, NumbersRead* numbers) const;

  UnitParser units_;
  Library library_;
  KeysAsked* keys_ = nullptr;
};

/// One scenario: opens the library in `library_folder`, reads and checks. See ScenarioReader::read.
scenario::Scenario read_scenario(const std::string& path, const std::string& library_folder,
                                 const std::vector<std::string>& sets, std::vector<Warning>& warnings);

}  // namespace dullcast::input
