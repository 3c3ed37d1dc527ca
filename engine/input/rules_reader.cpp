#include "engine/input/rules_reader.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "engine/base/display.hpp"
#include "engine/base/words.hpp"
#include "engine/input/setting_ranges.hpp"

namespace dullcast::input {

namespace {
constexpr base::Range grade_range{0.0, 8.0, false, "above 0 and up to 8"};
constexpr base::Range worn_range{0.0, 0.1, false, "above 0 and up to 100 mm"};
constexpr base::Range days_range{0.0, 3.2e7, true, "0 or more, up to a year"};
constexpr base::Range connection_range{0.1, 1000.0, true, "from 0.1 to 1000 m"};
// Past some hundredths steps are rejected, or leave what the models hold for, more often than they are
// longer.
constexpr base::Range tolerance_range{1e-10, 3e-2, true, "from 1e-10 to 0.03: coarser steps save no time"};
constexpr base::Range money_range{0.0, 1e15, true, "0 or more, up to 1e15"};
constexpr base::Range fuel_range{1e6, 1e12, true, "from 1 MJ/m3 to 1000 GJ/m3"};
// Less than a thousandth, and the fuel is a heater's.
constexpr base::Range efficiency_range{1e-3, 1.0, true, "from 0.001 to 1"};
constexpr base::Range least_progress_range{0.0, 0.1, true, "0 or more, up to 360 m/h"};
constexpr base::Range other_speed_range{2.7777e-8, 1.0, true, "from 0.1 mm/h to 1 m/s"};
constexpr base::Range power_range{0.0, 1e8, true, "0 or more, up to 100 MW"};
constexpr double tenth_of_a_metre_an_hour = 0.1 / 3600.0;
}  // namespace

scenario::Repeat read_repeat(MapReader& scenario) {
  scenario::Repeat repeat;
  MapReader map = scenario.map("repeat");
  repeat.holes = map.whole_number("holes", 1, 1'000'000).value_or(repeat.holes);
  if (const auto stop = map.choice("stop_at", {"rework_due", "beyond_repair", "last_hole"})) {
    constexpr scenario::StopAt stops[] = {scenario::StopAt::rework_due, scenario::StopAt::beyond_repair,
                                          scenario::StopAt::last_hole};
    repeat.stop_at = stops[*stop];
  }
  repeat.trip_time = map.number_or("trip_time", base::dimension::time, days_range, repeat.trip_time);
  repeat.connection_every =
      map.number_or("connection_every", base::dimension::depth, connection_range, repeat.connection_every);
  repeat.connection_time =
      map.number_or("connection_time", base::dimension::time, days_range, repeat.connection_time);
  // A rod is added with the pump off, as the swivel comes off the pipe [cp].
  repeat.pump_at_connections = map.choice("pump_at_connections", {"off", "on"}).value_or(0) == 1;
  map.finish();
  return repeat;
}

scenario::ReworkRules read_rework(MapReader& scenario, double exposure) {
  scenario::ReworkRules rules;
  MapReader map = scenario.map("rework");
  rules.worn_height = map.number("worn_height", base::dimension::length, worn_range);
  rules.outer_dull_grade = map.number("outer_dull_grade", base::dimension::number, grade_range);
  rules.heat_damage = map.number("heat_damage", base::dimension::number, base::range::share_above_zero);
  rules.speed_share_of_new =
      map.number("speed_share_of_new", base::dimension::number, base::range::share_above_zero);
  rules.chip_probability =
      map.number("chip_probability", base::dimension::number, base::range::share_above_zero);
  rules.gauge_loss = map.number("gauge_loss", base::dimension::length, worn_range);
  if (const auto lost = map.whole_number("lost_cutters", 1, 400)) rules.lost_cutters = *lost;
  rules.beyond_repair_share = map.number_or("beyond_repair_share", base::dimension::number,
                                            base::range::share_above_zero, rules.beyond_repair_share);
  if (const double most = rules.beyond_repair_share * exposure;
      exposure > 0.0 && rules.worn_height.value_or(0.0) > most) {
    map.warn("worn_height", "is never reached: a cutter of this bit is past repair when it is worn by " +
                                base::plain_number(1000.0 * most) +
                                " mm (beyond_repair_share of its exposure)");
  }
  // Ten centimetres an hour: a driller calls that stopped [asm].
  rules.least_progress =
      map.number_or("least_progress", base::dimension::speed, least_progress_range, tenth_of_a_metre_an_hour);
  bool any = false;
  for (const char* rule : {"worn_height", "outer_dull_grade", "heat_damage", "speed_share_of_new",
                           "chip_probability", "gauge_loss", "lost_cutters"}) {
    any = any || map.has(rule);
  }
  if (!any) {
    scenario.warn("rework",
                  "has no rule, so rework never falls due; write worn_height: 2 mm, outer_dull_grade: 4, "
                  "heat_damage: 0.5 or speed_share_of_new: 0.5");
  }
  map.finish();
  return rules;
}

scenario::Costs read_costs(MapReader& scenario) {
  scenario::Costs costs;
  costs.currency = scenario.reading().currency;
  MapReader map = scenario.map("costs");
  map.whole_text("currency");  // read beforehand, since all money is written in it
  costs.bit = map.number_or("bit", base::dimension::money, money_range, 0.0);
  costs.rig_per_second = map.number_or("rig", base::dimension::money_per_time, money_range, 0.0);
  costs.rework = map.number_or("rework", base::dimension::money, money_range, 0.0);
  costs.replacement = map.number_or("replacement", base::dimension::money, money_range, costs.bit);
  costs.cutter = map.number_or("cutter", base::dimension::money, money_range, 0.0);
  costs.pocket = map.number_or("pocket", base::dimension::money, money_range, 0.0);
  // Diesel fuel gives about 36 MJ a litre [hb]; a diesel rig brings about a quarter of it to the bit [asm].
  costs.fuel_energy = map.number_or("fuel_energy", base::dimension::fuel_energy, fuel_range, 3.6e10);
  costs.engine_efficiency =
      map.number_or("engine_efficiency", base::dimension::number, efficiency_range, 0.25);
  map.finish();
  return costs;
}

std::optional<scenario::OtherMethod> read_other_method(MapReader& scenario, const scenario::Costs& costs) {
  scenario.find("other_method");
  if (!scenario.has("other_method")) return std::nullopt;
  scenario::OtherMethod method;
  MapReader map = scenario.map("other_method");
  method.name = map.word("name").value_or("other method");
  method.rate_of_penetration =
      map.required("rate_of_penetration", base::dimension::speed, other_speed_range, "12 m/h or 40 ft/h");
  method.power = map.number_or("power", base::dimension::power, power_range, 0.0);
  method.consumables = map.number_or("consumables", base::dimension::money_per_length, money_range, 0.0);
  method.rig_per_second =
      map.number_or("rig", base::dimension::money_per_time, money_range, costs.rig_per_second);
  map.finish();
  return method;
}

scenario::RandomEvents read_random_events(MapReader& scenario) {
  constexpr std::int64_t most = 9007199254740991;  // 2^53 - 1: whole in any result file
  scenario::RandomEvents random_events;
  const YamlValue* value = scenario.find("chance");
  if (!value) return random_events;
  if (!value->is_map()) {
    random_events.drawn = scenario.choice("chance", {"expected", "drawn"}).value_or(0) == 1;
    return random_events;
  }
  MapReader map = scenario.map("chance");
  random_events.seed = map.long_whole_number("seed", 0, most).value_or(random_events.seed);
  random_events.drawn = map.yes_or_no("draw").value_or(map.has("seed"));
  map.finish();
  return random_events;
}

double most_footage(const scenario::Column& column, const scenario::Repeat& repeat) {
  // Holes are given as a most; few bits drill more before they are due.
  constexpr int usual_holes = 100;
  return column.layers.empty() ? 0.0 : column.layers.back().bottom * std::min(repeat.holes, usual_holes);
}

bool too_many_rows(double footage, double output_every) {
  // A row of an ordinary bit takes about 2.5 kB: so many take 2.5 GB.
  constexpr double most_rows = 1e6;
  return output_every > 0.0 && footage / output_every > most_rows;
}

scenario::Stepping read_stepping(MapReader& scenario, double footage) {
  scenario::Stepping stepping;
  MapReader map = scenario.map("stepping");
  stepping.relative_tolerance = map.number_or("relative_tolerance", base::dimension::number, tolerance_range,
                                              stepping.relative_tolerance);
  const YamlValue* every = map.find("output_every");
  if (!(every && every->is_scalar() && every->text == "chosen"))
    stepping.output_every = map.number("output_every", base::dimension::depth, setting_range::depth);
  constexpr double many_rows = 1e5;
  const double spacing = stepping.output_every.value_or(0.0);
  if (const double rows = footage / spacing; spacing > 0.0 && rows > many_rows) {
    const std::string words = "makes " + base::plain_number(rows) + " rows over " +
                              base::depth_text(footage) + " of hole; write " +
                              base::plain_number(std::ceil(1000.0 * footage / many_rows)) + " mm or more";
    if (too_many_rows(footage, spacing))
      map.error("output_every", words);
    else
      map.warn("output_every", words);
  }
  if (const auto word = map.choice("warming", {"followed", "where_it_matters"}))
    stepping.warming = *word == 0 ? scenario::Warming::followed : scenario::Warming::where_it_matters;
  map.finish();
  return stepping;
}

}  // namespace dullcast::input
