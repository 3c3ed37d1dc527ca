#include <algorithm>
#include <cmath>

#include "engine/base/display.hpp"
#include "engine/base/words.hpp"
#include "engine/input/bit_record_reader.hpp"
#include "engine/input/setting_ranges.hpp"
#include "engine/input/text_file.hpp"
#include "engine/scenario/practice.hpp"

namespace dullcast::input {
namespace {

constexpr double thinnest_layer = 5e-3;  // m, as read_column holds
// Records are drilled many times over; finer steps move their wear by less than any calliper sees.
constexpr double coarse_tolerance = 1e-2;

/// One hole's layers of what was drilled in all.
std::vector<scenario::Layer> layers_of(MapReader& map, const scenario::InspectedBit& found,
                                       const RecordBase& base) {
  std::vector<scenario::Layer> layers;
  double above = 0.0;
  for (const scenario::RockDrilled& drilled : found.drilled) {
    const auto& given = base.scenario.column.layers;
    const auto same = std::find_if(given.begin(), given.end(), [&](const scenario::Layer& layer) {
      return layer.rock.name == drilled.rock;
    });
    scenario::Layer layer;
    if (same != given.end()) {
      layer = *same;
    } else if (const auto rock = base.library.rocks.find(drilled.rock); rock != base.library.rocks.end()) {
      layer.rock = rock->second;
    }
    layer.location = map.place("drilled");
    layer.top = above;
    layer.bottom = above + drilled.length / found.holes;
    if (layer.bottom - layer.top <= thinnest_layer)
      map.error("drilled", "leaves less than 5 mm of " + drilled.rock + " to each of " +
                               base::plain_number(found.holes) +
                               " holes; write lengths of all holes together");
    above = layer.bottom;
    layers.push_back(std::move(layer));
  }
  if (above > setting_range::deepest_hole)
    map.error("drilled", "makes holes of " + base::depth_text(above) +
                             ", and none is deeper than 15 km; "
                             "check holes and the units");
  return layers;
}

/// The plan cut off or drawn out to the bottom of the hole.
void fit_plan(std::vector<scenario::OperatingInterval>& plan, double bottom) {
  while (plan.size() > 1 && plan.back().from >= bottom) plan.pop_back();
  if (!plan.empty()) plan.back().to = bottom;
}

void drop_late_upsets(MapReader& map, scenario::Scenario& run, double bottom) {
  const std::size_t before = run.upsets.size();
  std::erase_if(run.upsets, [&](const scenario::Upset& upset) {
    return upset.from >= bottom || upset.hole >= run.repeat.holes;
  });
  if (run.upsets.size() < before)
    map.warn("", std::to_string(before - run.upsets.size()) +
                     " upsets of the scenario lie below this bit's ground or after its last hole: left out");
}

void warn_of_plan(MapReader& map, const scenario::InspectedBit& found, const scenario::Scenario& run) {
  if (found.weight_on_bit.value_or(0.0) > run.weight_limit * (1.0 + 1e-9))
    map.warn("weight_on_bit",
             "is above the weight limit of the scenario (common practice: 1000 lbf per inch "
             "of diameter); check the unit");
  if (found.rotary_speed.value_or(0.0) > scenario::usual_most_speed * (1.0 + 1e-9))
    map.warn("rotary_speed", "is above the usual 80 to 100 rpm (common practice); check the unit");
}

}  // namespace

std::unique_ptr<RecordBase> read_record_base(const std::string& file, const ScenarioReader& reader) {
  std::vector<Warning> unwise;  // of the scenario, told when it is read for itself
  return record_base_of(ScenarioReader::parse(read_text_file(file), file), file, reader, unwise);
}

std::unique_ptr<RecordBase> record_base_of(const YamlValue& tree, const std::string& file,
                                           const ScenarioReader& reader, std::vector<Warning>& warnings) {
  auto base = std::make_unique<RecordBase>();
  base->scenario = reader.read_tree(tree, file, {}, warnings);
  if (!base->scenario.bit.continues.empty())
    throw ScenarioErrors({file + ": bit.continues: the bit goes on from a result; name a scenario whose bit "
                                 "starts by itself (starting_wear says how)"});
  Problems problems;
  Reading reading{reader.units(), problems};
  MapReader top(tree, "", reading, {file, 1, 1});
  base->library = reader.library();
  read_own_entries(top, base->library);
  return base;
}

scenario::Scenario run_of_record(MapReader& map, const scenario::InspectedBit& found,
                                 const RecordBase& base) {
  scenario::Scenario run = base.scenario;
  run.title = found.inspected.empty() ? found.bit : found.bit + ", inspected " + found.inspected;
  if (const auto lot = base.library.lots.find(found.lot); lot != base.library.lots.end())
    run.bit.lot = lot->second;
  if (!found.drilled.empty()) run.column.layers = layers_of(map, found, base);
  const double bottom = run.column.layers.empty() ? 0.0 : run.column.layers.back().bottom;
  fit_plan(run.plan, bottom);
  for (scenario::OperatingInterval& interval : run.plan) {
    if (found.weight_on_bit) {
      interval.weight_on_bit = found.weight_on_bit;
      interval.pull_down = interval.holdback = 0.0;
    }
    if (found.rotary_speed) interval.rotary_speed = *found.rotary_speed;
    if (found.flow) interval.flow = *found.flow;
    if (found.flow == 0.0) interval.mist_water = 0.0;
  }
  warn_of_plan(map, found, run);
  run.repeat.holes = static_cast<int>(std::lround(found.holes));
  run.repeat.stop_at = scenario::StopAt::last_hole;
  drop_late_upsets(map, run, bottom);
  run.random_events.drawn = false;
  run.calibrate_from.reset();
  run.stepping.output_every = 0.0;
  run.stepping.relative_tolerance = std::max(run.stepping.relative_tolerance, coarse_tolerance);
  run.text.clear();
  return run;
}

}  // namespace dullcast::input
