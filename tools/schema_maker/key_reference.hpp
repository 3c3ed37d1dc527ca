#pragma once

#include <string>
#include <vector>

namespace dullcast::schema_maker {

/// What scenarios/README.md says of keys, from its tables: one source for people and editors.
class KeyReference {
 public:
  /// Of the section that begins with this heading ("## Keys"). Throws std::runtime_error where there is none.
  KeyReference(const std::string& page, const std::string& heading);

  /// What it says of the key at a path ("bit.cutters.*.radius"): meaning, example, default; empty where it
  /// says nothing of it.
  std::string words_on(const std::string& path) const;

 private:
  struct Row {
    std::string section, key, words;  // section: the bold key above it, where there is one
  };
  std::vector<Row> rows_;
};

}  // namespace dullcast::schema_maker
