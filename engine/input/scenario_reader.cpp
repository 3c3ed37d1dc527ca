#include "engine/input/scenario_reader.hpp"

#include <filesystem>

#include "engine/base/plain_text.hpp"
#include "engine/base/words.hpp"
#include "engine/input/bit_reader.hpp"
#include "engine/input/column_reader.hpp"
#include "engine/input/inspection_reader.hpp"
#include "engine/input/learned_reader.hpp"
#include "engine/input/plan_reader.hpp"
#include "engine/input/rules_reader.hpp"
#include "engine/input/scenario_writer.hpp"
#include "engine/input/set_values.hpp"
#include "engine/input/setting_ranges.hpp"
#include "engine/input/text_file.hpp"
#include "engine/input/upset_reader.hpp"

namespace dullcast::input {

namespace {

/// 1,000 lbf per inch of bit diameter [cp].
double weight_by_rule_of_thumb(double diameter) {
  return 1000.0 * 4.4482216152605 * diameter / 0.0254;
}

/// The currency must be known before any money is read.
std::string currency_of(const YamlValue& root, Problems& problems) {
  const auto* costs = root.find("costs");
  const auto* currency = costs ? costs->value.find("currency") : nullptr;
  if (!currency || !currency->value.is_scalar()) return "$";
  const std::string& word = currency->value.text;
  const bool usable = !word.empty() && word.size() <= 8 &&
                      word.find_first_of("0123456789/.,+- ") == word.npos && base::is_plain(word);
  if (usable) return word;
  problems.error(currency->value.location, "costs.currency",
                 quoted_text(word) +
                     " is no currency; write a sign or a short word without blanks or digits, such as $");
  return "$";
}

/// A bit held slower than what counts as progress would have stopped before it began.
void check_feed(MapReader& top, const scenario::Scenario& scenario) {
  for (std::size_t k = 0; k < scenario.plan.size(); ++k) {
    const auto& feed = scenario.plan[k].feed_limit;
    if (feed && *feed < scenario.rules.least_progress)
      top.error("plan", "feed_limit of entry " + std::to_string(k) + " is below rework.least_progress of " +
                            base::plain_number(3600.0 * scenario.rules.least_progress) +
                            " m/h, at which a bit counts as stopped; raise it, or lower least_progress");
  }
}

/// The text as a tree; throws when that is no map.
YamlValue parse_map(const std::string& text, const std::string& file, Problems& problems) {
  YamlValue root = parse_yaml(text, file, problems);
  if (!root.is_map()) {
    if (!problems.any_error()) {
      problems.error({file, 1, 1}, "",
                     "holds " + kind_name(root) + "; a scenario is a map of keys such as bit: and column:");
    }
    problems.throw_if_any();
  }
  return root;
}

}  // namespace

ScenarioReader::ScenarioReader(const std::string& library_folder)
    : library_(read_library(library_folder, units_)) {}
ScenarioReader::ScenarioReader(const LibraryTexts& library) : library_(read_library(library, units_)) {}

scenario::Scenario ScenarioReader::read(const std::string& path, const std::vector<std::string>& sets,
                                        std::vector<Warning>& warnings) const {
  return read_text(read_text_file(path), path, sets, warnings);
}

scenario::Scenario ScenarioReader::read_text(const std::string& text, const std::string& file,
                                             const std::vector<std::string>& sets,
                                             std::vector<Warning>& warnings) const {
  Problems problems;
  YamlValue root = parse_map(text, file, problems);
  scenario::Scenario scenario = read_changed(root, file, sets, warnings, problems, nullptr);
  scenario.text = resolved_text(scenario);
  return scenario;
}

YamlValue ScenarioReader::parse(const std::string& text, const std::string& file) {
  Problems problems;
  YamlValue root = parse_map(text, file, problems);
  problems.throw_if_any();
  return root;
}

scenario::Scenario ScenarioReader::read_tree(YamlValue tree, const std::string& file,
                                             const std::vector<std::string>& sets,
                                             std::vector<Warning>& warnings, NumbersRead* numbers) const {
  Problems problems;
  return read_changed(tree, file, sets, warnings, problems, numbers);
}

scenario::Scenario ScenarioReader::read_changed(YamlValue& root, const std::string& file,
                                                const std::vector<std::string>& sets,
                                                std::vector<Warning>& warnings, Problems& problems,
                                                NumbersRead* numbers) const {
  apply_sets(sets, root, problems);
  scenario::Scenario scenario = read_parsed(root, file, true, problems, numbers);
  problems.throw_if_any();
  warnings.insert(warnings.end(), problems.warnings().begin(), problems.warnings().end());
  return scenario;
}

scenario::Scenario ScenarioReader::read_parsed(const YamlValue& root, const std::string& file,
                                               bool with_inspection, Problems& problems,
                                               NumbersRead* numbers) const {
  scenario::Scenario scenario;
  scenario.file = std::filesystem::path(file).lexically_normal().string();
  const std::string folder = std::filesystem::path(scenario.file).parent_path().string();
  Reading reading{units_, problems, "$", numbers, keys_};
  reading.currency = currency_of(root, problems);
  MapReader top(root, "", reading, {file, 1, 1});
  scenario.title = top.word("title").value_or(std::filesystem::path(file).stem().string());
  Library library = library_;
  scenario.learned = read_learned(top, folder, library);
  read_own_entries(top, library);
  if (scenario.learned) put_learned(*scenario.learned, library);
  scenario.numbers = library.models;
  scenario.bit = read_bit(top, library, folder);
  scenario.weight_limit = top.number("weight_limit", base::dimension::force, setting_range::weight_that_cuts)
                              .value_or(weight_by_rule_of_thumb(2.0 * scenario.bit.layout.bit_radius));
  scenario.fluid = read_fluid(top, library, scenario.inlet_temperature);
  scenario.string = read_string(top, 2.0 * scenario.bit.layout.bit_radius);
  scenario.pump_pressure_limit = read_pump(top);
  scenario.column = read_column(top, library);
  const double bottom = scenario.column.layers.empty() ? 0.0 : scenario.column.layers.back().bottom;
  scenario.plan =
      read_plan(top, scenario.string, scenario.fluid, scenario.inlet_temperature, bottom,
                scenario.weight_limit, weight_by_rule_of_thumb(2.0 * scenario.bit.layout.bit_radius));
  scenario.repeat = read_repeat(top);
  scenario.upsets = read_upsets(top, scenario.fluid, bottom, scenario.repeat.holes);
  scenario.rules =
      read_rework(top, scenario.bit.layout.count() > 0 ? scenario.bit.layout.exposure.maxCoeff() : 0.0);
  check_feed(top, scenario);
  scenario.costs = read_costs(top);
  scenario.other_method = read_other_method(top, scenario.costs);
  scenario.random_events = read_random_events(top);
  scenario.stepping = read_stepping(top, most_footage(scenario.column, scenario.repeat));
  if (with_inspection) {
    scenario.calibrate_from = read_inspection(top, folder, [&](const std::string& other) {
      Problems its_problems;
      const YamlValue its_root = parse_yaml(read_text_file(other), other, its_problems);
      const scenario::Scenario run = read_parsed(its_root, other, false, its_problems, nullptr);
      its_problems.throw_if_any();
      return run.bit.layout.count();
    });
    if (scenario.calibrate_from && scenario.learned)
      top.error("calibrate_from",
                "does not go with learned, which rests on a shelf of bits; add this bit to the shelf");
  } else {
    top.find("calibrate_from");
  }
  top.finish();
  return scenario;
}

scenario::Scenario read_scenario(const std::string& path, const std::string& library_folder,
                                 const std::vector<std::string>& sets, std::vector<Warning>& warnings) {
  return ScenarioReader(library_folder).read(path, sets, warnings);
}

}  // namespace dullcast::input
