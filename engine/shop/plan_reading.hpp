#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/input/map_reader.hpp"
#include "engine/input/scenario_reader.hpp"
#include "engine/input/table_maps.hpp"
#include "engine/shop/shift_calendar.hpp"
#include "engine/shop/shop_plan.hpp"

namespace dullcast::shop {

/// What the readers of a plan's parts share.
struct PlanReading {
  const input::ScenarioReader& scenarios;
  const PlanDays& days;
  std::string folder;                         // where names of files in the plan start
  input::Library library;                     // with the plan's own grades, lots and bodies
  std::vector<PlanText> texts = {};           // of the files read, each once
  std::vector<std::string> other_files = {};  // what is wrong in files that the plan leads to, with its place
  std::vector<input::Warning> unwise = {};    // likewise, what is unwise

  /// The text of a file that `key` names, as path_beside gives its name. Nothing where it cannot be read,
  /// which is told of the key.
  std::optional<std::string> text_of(input::MapReader& map, const char* key, const std::string& file);
  /// Keeps what is wrong in another file, each message once.
  void keep(const input::ScenarioErrors& failure);
  /// Keeps what is unwise in another file, each message once.
  void keep(const std::vector<input::Warning>& warnings);
};

/// The maps that a key of the plan lists, in YAML or in a table of its own.
struct PlanRows {
  std::vector<input::YamlValue> rows;
  std::string key;
  bool table = false;
  scenario::Location location;  // of the list, or the table's first line
  /// The path of a row: "bits.2", and nothing in a table, whose rows are told by their lines.
  std::string path(std::size_t row) const { return table ? "" : key + "." + std::to_string(row); }
};

/// Reads a list, or the table (a file whose name ends in .csv) that stands in its place, of rows with `keys`.
/// Reports what is neither, and a table that cannot be read. No rows where the key is absent.
PlanRows plan_rows(input::MapReader& map, const char* key, const input::TableKeys& keys, PlanReading& plan);

/// The index of what a row names under `key`; reports an unknown name with the nearest. `what` is its kind,
/// in words. Nothing where nothing is named.
std::optional<std::size_t> index_of(input::MapReader& map, const char* key, const char* what,
                                    const std::vector<std::string>& names);

/// A name that a row must state under `key` and that no earlier row may have; `example` is what one is like.
/// Empty where it is wrong, which is reported.
std::string own_name(input::MapReader& map, const char* key, const char* example,
                     std::map<std::string, int>& met);

}  // namespace dullcast::shop
