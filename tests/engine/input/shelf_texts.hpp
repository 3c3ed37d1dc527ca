#pragma once

#include "engine/input/reading.hpp"
#include "engine/input/shelf_reader.hpp"

/// Reading shelves from texts in tests, as if they lay among the shipped scenarios.
namespace dullcast::testing {

/// The records of a text; `name` ends in .csv for a table.
inline std::vector<scenario::ShelvedBit> shelf_of(const std::string& text, const std::string& name) {
  std::vector<Warning> warnings;
  return read_shelf_text(text, scenario_folder() + "/" + name, reader(), warnings);
}

/// Its errors; empty when it can be read.
inline std::vector<std::string> shelf_errors(const std::string& text, const std::string& name) {
  try {
    shelf_of(text, name);
  } catch (const ScenarioErrors& errors) {
    return errors.messages();
  }
  return {};
}

}  // namespace dullcast::testing
