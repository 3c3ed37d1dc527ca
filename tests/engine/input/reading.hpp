#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "engine/input/scenario_reader.hpp"

/// Reading scenarios from texts in tests.
namespace dullcast::testing {

using namespace input;  // the room that is tested

inline std::string library_folder() {
  return std::string(DULLCAST_SOURCE_DIR) + "/scenarios/library";
}
inline std::string scenario_folder() {
  return std::string(DULLCAST_SOURCE_DIR) + "/scenarios";
}

/// One reader for the tests of one file; reading against it changes nothing in it.
inline const ScenarioReader& reader() {
  static const ScenarioReader instance(library_folder());
  return instance;
}

/// A scenario with nothing to complain about. Lines are counted in the tests: keep them.
inline const char* plain_text() {
  return "title: plain\n"                                                           // 1
         "bit: {like: four_blade_7_7_8}\n"                                          // 2
         "fluid: water\n"                                                           // 3
         "plan:\n"                                                                  // 4
         "  - {weight_on_bit: 6000 lbf, rotary_speed: 85 rpm, flow: 60 gal/min}\n"  // 5
         "column:\n"                                                                // 6
         "  layers:\n"                                                              // 7
         "    - {rock: shale, thickness: 50 ft}\n"                                  // 8
         "    - {rock: sandstone, thickness: 40 ft}\n"                              // 9
         "rework: {worn_height: 2 mm}\n";                                           // 10
}

/// `text` with the first `from` replaced by `to`; empty when there is no `from`, so that no test can take the
/// unchanged text for the changed one.
inline std::string with(std::string text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  if (at == std::string::npos) return {};
  return text.replace(at, from.size(), to);
}

/// The errors of reading a text as "well.yaml"; empty when it can be read.
inline std::vector<std::string> errors_of(const std::string& text,
                                          const std::vector<std::string>& sets = {}) {
  std::vector<Warning> warnings;
  try {
    reader().read_text(text, "well.yaml", sets, warnings);
  } catch (const ScenarioErrors& errors) {
    return errors.messages();
  }
  return {};
}

/// The warnings of reading a text that can be read.
inline std::vector<std::string> warnings_of(const std::string& text,
                                            const std::vector<std::string>& sets = {}) {
  std::vector<Warning> warnings;
  reader().read_text(text, "well.yaml", sets, warnings);
  std::vector<std::string> messages;
  for (const auto& warning : warnings) messages.push_back(warning.message());
  return messages;
}

inline scenario::Scenario scenario_of(const std::string& text, const std::vector<std::string>& sets = {}) {
  std::vector<Warning> warnings;
  return reader().read_text(text, "well.yaml", sets, warnings);
}

/// A text's letters and digits alone, for the names of tests.
inline std::string plain_name(const std::string& text) {
  std::string result;
  for (const char c : text) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    result += plain ? c : '_';
  }
  return result;
}

using Messages = std::vector<std::string>;

/// The plain scenario with more said of its bit.
inline std::string with_bit(const std::string& keys) {
  return with(plain_text(), "like: four_blade_7_7_8", "like: four_blade_7_7_8, " + keys);
}

}  // namespace dullcast::testing
