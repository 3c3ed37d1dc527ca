// Water that boils at the bit: films form and collapse, a hole without standing water runs dry, and granite
// is survived where the bit is cooled.

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>

#include "engine/input/scenario_reader.hpp"
#include "engine/simulation/outcome_views.hpp"
#include "engine/simulation/run.hpp"
#include "models/common/constants.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

using samples::exactly;
using testing::events_of;
using testing::first_event;
using testing::flow_falls;
using testing::hottest_table;
using testing::rows_between;

/// Fifty minutes without flow in limestone.
scenario::Scenario forgotten_pump(double standing_level) {
  scenario::Scenario s = testing::even_hole(20.0);
  s.stepping.relative_tolerance = 1e-3;
  s.column.water_level = standing_level;
  s.upsets = {flow_falls(2.0, 3000.0, 0.0)};
  return s;
}

TEST(BoilingRun, AHoleWithoutStandingWaterRunsDryAndOneWithStaysWet) {
  const RunOutcome dry = run(forgotten_pump(100.0)), wet = run(forgotten_pump(0.0));
  const Event boils = first_event(dry, EventKind::fluid_boils),
              runs_dry = first_event(dry, EventKind::runs_dry);
  EXPECT_GT(runs_dry.time, boils.time);
  // Standing water falls back, but ever less of it through the cuttings that pack the slots meanwhile.
  for (const Event& event : events_of(wet, EventKind::runs_dry)) EXPECT_GT(event.time, 1.2 * runs_dry.time);
  EXPECT_EQ(events_of(wet, EventKind::fluid_boils).size(), 1u);
  const double ends = first_event(dry, EventKind::upset_ends).time;
  double least_dry = 1.0;
  for (const HistoryRow& row : rows_between(dry, boils.time, ends)) {
    // A step's own error at the usual tolerance: the water's scale is a tenth.
    EXPECT_GE(row.water_share, -0.1 * forgotten_pump(100.0).stepping.relative_tolerance);
    least_dry = std::min(least_dry, row.water_share);
    if (row.time < runs_dry.time - 1.0) {
      EXPECT_GT(row.water_share, 0.02 - 1e-3);
    }
  }
  EXPECT_LT(least_dry, 0.01);
  // The pump's return fills the hole again.
  EXPECT_NEAR(dry.history.rows.back().water_share, 1.0, 1e-3);
}

// First law: water runs dry no sooner than the bit's work could boil it. Latent heat of water at 100 C is
// 2,257 kJ/kg [hb: steam tables]; the slots and a bit diameter of hole above them hold 1.35 pi R^2 2 R.
TEST(BoilingRun, ItDoesNotRunDryBeforeTheWorkDoneCouldBoilItsWater) {
  const RunOutcome dry = run(forgotten_pump(100.0));
  const auto boiling = rows_between(dry, first_event(dry, EventKind::fluid_boils).time,
                                    first_event(dry, EventKind::runs_dry).time + 1e-6);
  const double worked = boiling.back().energy - boiling.front().energy;
  const double mass = 999.0 * 1.35 * pi * 0.06 * 0.06 * 0.12;
  EXPECT_GT(worked, 0.98 * 0.95 * mass * 2.257e6) << "98 % of it, steam taking along 5 % warmth at most";
  EXPECT_LT(worked, 5.0 * mass * 2.257e6) << "rock and wall take the rest";
}

TEST(BoilingRun, AFilmFormsInAHardPumpStopAndCollapsesOnceFlowIsBack) {
  scenario::Scenario s = testing::short_scenario();
  testing::give_one_layer(s, 5.0, samples::invented_rock("granite", 180e6, 4.5));
  s.plan[0].weight_on_bit = 30e3;
  s.plan[0].rotary_speed = 2.5;
  s.repeat.connection_time = 0.0;
  s.repeat.holes = 2;
  s.stepping.relative_tolerance = 1e-3;
  s.upsets = {flow_falls(1.0, 25.0, 0.0)};
  s.upsets[0].hole = -1;
  const RunOutcome outcome = run(s);
  const auto forms = events_of(outcome, EventKind::film_forms);
  const auto rewets = events_of(outcome, EventKind::surface_rewets);
  ASSERT_EQ(forms.size(), 2u) << "told once a hole";
  // Cold flow is back at once, but the film outlasts it: the falling branch of the boiling curve keeps a hot
  // surface hot.
  ASSERT_EQ(rewets.size(), 2u);
  EXPECT_GT(rewets[0].time, first_event(outcome, EventKind::upset_ends).time + 2.0);
  for (std::size_t hole = 0; hole < 2; ++hole) {
    EXPECT_EQ(forms[hole].hole, static_cast<int>(hole));
    EXPECT_EQ(rewets[hole].hole, static_cast<int>(hole));
    EXPECT_GT(forms[hole].time, events_of(outcome, EventKind::upset_begins).at(hole).time);
  }
  EXPECT_GT(outcome.passages[0].time_in_film, 10.0);
  for (const HistoryRow& row : outcome.history.rows) {
    // A film stands on nothing colder than water's boiling point.
    for (Eigen::Index i = 0; i < row.film.size(); ++i) {
      if (row.film(i) > 0.0) {
        EXPECT_GT(row.table_temperature(i), 100.0 + celsius_zero);
      }
    }
  }

  // At its rewetting temperature the film goes: hysteresis, so that it stays when flow alone is back.
  const double ends = events_of(outcome, EventKind::upset_ends).at(0).time;
  const auto flow_is_back = rows_between(outcome, ends + 2.0, ends + 4.0);
  ASSERT_FALSE(flow_is_back.empty());
  EXPECT_GT(flow_is_back.front().film.maxCoeff(), 0.0);
  EXPECT_LT(flow_is_back.front().fluid_temperature, 30.0 + celsius_zero);
}

// The published band of failure of cobalt-bearing diamond is 700 to 750 C (Glowka & Stone, SPE J. 25(2), 1985
// [pub]): at an ordinary weight (about 1,000 lbf per inch [cp]) and flow, granite stays under it.
TEST(BoilingRun, GraniteIsSurvivedWhereTheBitIsCooled) {
  scenario::Scenario s = testing::short_scenario();
  testing::give_one_layer(s, 5.0, samples::invented_rock("granite", 180e6, 4.5));
  s.plan[0].weight_on_bit = 21e3;  // 4.72 in
  const RunOutcome cooled = run(s);
  EXPECT_EQ(cooled.ended_by, EndedBy::last_hole);
  EXPECT_LT(cooled.hottest.temperature, 700.0 + celsius_zero);
  EXPECT_TRUE(events_of(cooled, EventKind::table_ruined).empty());
  EXPECT_TRUE(events_of(cooled, EventKind::cutter_lost).empty());
  EXPECT_LT(cooled.end.heat_damage.maxCoeff(), 1e-3);
  // Forced at three times the weight and speed without a pump it is not.
  s.plan[0].weight_on_bit = 63e3;
  s.plan[0].rotary_speed *= 4.0;
  s.plan[0].flow = 0.0;
  s.column.water_level = 100.0;
  const RunOutcome forced = run(s);
  EXPECT_GT(forced.hottest.temperature, 700.0 + celsius_zero);
  EXPECT_FALSE(events_of(forced, EventKind::table_ruined).empty() &&
               events_of(forced, EventKind::cutter_lost).empty());
}

/// A worn bit pushed so hard in hard sandstone that wear alone brings the film about, some minutes in. With
/// the library's numbers: it is them that let it come slowly.
scenario::Scenario slow_film(scenario::Warming warming) {
  const std::string file = ::testing::TempDir() + "slow_film.yaml";
  std::ofstream(file)
      << "title: slow film\n"
         "bit: {like: four_blade_7_7_8, starting_wear: 0.8 mm}\n"
         "fluid: {name: water, inlet_temperature: 18 degC}\n"
         "plan:\n"
         "  - {to: 130 ft, weight_on_bit: 5000 lbf, rotary_speed: 85 rpm, flow: 65 gal/min}\n"
         "  - {weight_on_bit: 9642 lbf, rotary_speed: 130 rpm, flow: 65 gal/min}\n"
         "column: {layers: [{rock: shale, bottom: 130 ft}, {rock: hard_sandstone, bottom: 131 ft}]}\n"
         "repeat: {connection_every: 500 ft, connection_time: 0 s}\n"
         "rework: {worn_height: 4 mm}\n"
         "stepping: {output_every: 5 mm}\n";
  std::vector<input::Warning> warnings;
  scenario::Scenario s =
      input::read_scenario(file, std::string(DULLCAST_SOURCE_DIR) + "/scenarios/library", {}, warnings);
  s.stepping.warming = warming;
  return s;
}

// A film leaps over a cutter where a balance ends, in the midst of a step that may last minutes. When it is
// told may be wrong by the time in which the table warms by what both runs' tolerances let it be wrong: 1e-3
// of 100 K each.
TEST(BoilingRun, AFilmThatWearBringsAboutIsToldWhenItFormsSettledOrFollowed) {
  const auto after_entry = [](const RunOutcome& run) {
    return first_event(run, EventKind::film_forms).time - events_of(run, EventKind::layer_entered).at(1).time;
  };
  const RunOutcome settled = run(slow_film(scenario::Warming::where_it_matters)),
                   followed = run(slow_film(scenario::Warming::followed));
  const double forms = first_event(followed, EventKind::film_forms).time;
  // Half of the way to the film: what comes before is the bit's own warming.
  const auto rows = rows_between(followed, forms - 0.5 * after_entry(followed), forms);
  ASSERT_GT(rows.size(), 4u);
  const double warms =
      (hottest_table(rows.back()) - hottest_table(rows.front())) / (rows.back().time - rows.front().time);
  ASSERT_GT(warms, 0.0);
  EXPECT_NEAR(after_entry(settled), after_entry(followed), 2.0 * 1e-3 * 100.0 / warms);
  ASSERT_GT(after_entry(followed), 4.0 * (2.0 * 1e-3 * 100.0 / warms)) << "too soon to tell late from right";
}

}  // namespace
}  // namespace dullcast::simulation
