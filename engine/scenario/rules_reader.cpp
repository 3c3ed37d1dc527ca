#include "engine/scenario/rules_reader.hpp"

namespace dullcast {

namespace {
constexpr Range grade_range{0.0, 8.0, false, "above 0 and up to 8"};
constexpr Range worn_range{0.0, 0.1, false, "above 0 and up to 100 mm"};
constexpr Range days_range{0.0, 3.2e7, true, "0 or more, up to a year"};
constexpr Range connection_range{0.1, 1000.0, true, "from 0.1 to 1000 m"};
constexpr Range tolerance_range{1e-10, 1e-1, true, "from 1e-10 to 0.1"};
constexpr Range money_range{0.0, 1e15, true, "0 or more"};
constexpr Range fuel_range{1e6, 1e12, true, "from 1 MJ/m3 to 1000 GJ/m3"};
constexpr Range least_progress_range{0.0, 0.1, true, "0 or more, up to 360 m/h"};
constexpr Range output_range{0.0, 15000.0, true, "0 or more"};
constexpr double tenth_of_a_metre_an_hour = 0.1 / 3600.0;
}  // namespace

Repeat read_repeat(MapReader& scenario) {
  Repeat repeat;
  MapReader map = scenario.map("repeat");
  repeat.holes = map.whole_number("holes", 1, 1'000'000).value_or(repeat.holes);
  if (const auto stop = map.choice("stop_at", {"rework_due", "beyond_repair", "last_hole"})) {
    constexpr StopAt stops[] = {StopAt::rework_due, StopAt::beyond_repair, StopAt::last_hole};
    repeat.stop_at = stops[*stop];
  }
  repeat.trip_time = map.number_or("trip_time", dimension::time, days_range, repeat.trip_time);
  repeat.connection_every =
      map.number_or("connection_every", dimension::depth, connection_range, repeat.connection_every);
  repeat.connection_time =
      map.number_or("connection_time", dimension::time, days_range, repeat.connection_time);
  map.finish();
  return repeat;
}

ReworkRules read_rework(MapReader& scenario) {
  ReworkRules rules;
  MapReader map = scenario.map("rework");
  rules.worn_height = map.number("worn_height", dimension::length, worn_range);
  rules.outer_dull_grade = map.number("outer_dull_grade", dimension::number, grade_range);
  rules.heat_damage = map.number("heat_damage", dimension::number, range::share_above_zero);
  rules.speed_share_of_new = map.number("speed_share_of_new", dimension::number, range::share_above_zero);
  rules.beyond_repair_share = map.number_or("beyond_repair_share", dimension::number, range::share_above_zero,
                                            rules.beyond_repair_share);
  // Ten centimetres an hour: a driller calls that stopped [asm].
  rules.least_progress =
      map.number_or("least_progress", dimension::speed, least_progress_range, tenth_of_a_metre_an_hour);
  const bool any = map.has("worn_height") || map.has("outer_dull_grade") || map.has("heat_damage") ||
                   map.has("speed_share_of_new");
  if (!any) {
    scenario.warn("rework",
                  "has no rule, so rework never falls due; write worn_height: 2 mm, outer_dull_grade: 4, "
                  "heat_damage: 0.5 or speed_share_of_new: 0.5");
  }
  map.finish();
  return rules;
}

Costs read_costs(MapReader& scenario) {
  Costs costs;
  costs.currency = scenario.reading().currency;
  MapReader map = scenario.map("costs");
  map.word("currency");  // read beforehand, since all money is written in it
  costs.bit = map.number_or("bit", dimension::money, money_range, 0.0);
  costs.rig_per_second = map.number_or("rig", dimension::money_per_time, money_range, 0.0);
  costs.rework = map.number_or("rework", dimension::money, money_range, 0.0);
  costs.replacement = map.number_or("replacement", dimension::money, money_range, costs.bit);
  // Diesel fuel gives about 36 MJ a litre [hb]; a diesel rig brings about a quarter of it to the bit [asm].
  costs.fuel_energy = map.number_or("fuel_energy", dimension::fuel_energy, fuel_range, 3.6e10);
  costs.engine_efficiency =
      map.number_or("engine_efficiency", dimension::number, range::share_above_zero, 0.25);
  map.finish();
  return costs;
}

Stepping read_stepping(MapReader& scenario) {
  Stepping stepping;
  MapReader map = scenario.map("stepping");
  stepping.relative_tolerance =
      map.number_or("relative_tolerance", dimension::number, tolerance_range, stepping.relative_tolerance);
  stepping.output_every =
      map.number_or("output_every", dimension::depth, output_range, stepping.output_every);
  map.finish();
  return stepping;
}

}  // namespace dullcast
