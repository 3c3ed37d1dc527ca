// Mishaps in a run: they begin and end where and when they should, leave the bit as physics has it, and the
// step goes back to the wear scale afterwards.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/simulation/assembly.hpp"
#include "engine/simulation/drilling_system.hpp"
#include "engine/simulation/outcome_views.hpp"
#include "engine/simulation/run.hpp"
#include "engine/simulation/same_outcome.hpp"
#include "models/common/constants.hpp"
#include "models/failure/chipping.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

using samples::exactly;
using samples::gallon_per_minute;
using testing::even_hole;
using testing::events_of;
using testing::first_event;
using testing::flow_falls;
using testing::hottest_table;
using testing::rows_between;

// At a feed limit of 10 m/h the depth of 41 m is reached at a time known beforehand.
TEST(Upsets, AFallOfFlowBeginsAtItsDepthAndLastsItsTime) {
  scenario::Scenario s = samples::invented_scenario();
  testing::give_one_layer(s, 43.0, samples::invented_rock("limestone", 80e6, 1.0));
  s.repeat.connection_time = 0.0;
  s.plan[0].feed_limit = 10.0 / 3600.0;
  s.upsets = {flow_falls(41.0, 90.0, 2.0 * samples::gallon_per_minute)};
  const RunOutcome outcome = run(s);
  const Event begins = first_event(outcome, EventKind::upset_begins);
  const Event ends = first_event(outcome, EventKind::upset_ends);
  EXPECT_NEAR(begins.depth, 41.0, 1e-8);
  EXPECT_NEAR(begins.time, 41.0 * 360.0, 1e-8 * 3600.0 / 10.0 + 1e-6) << "1e-8 m at 10 m/h";
  EXPECT_NEAR(ends.time - begins.time, 90.0, 1e-6);
  EXPECT_EQ(events_of(outcome, EventKind::upset_begins).size(), 1u);
  EXPECT_EQ(events_of(outcome, EventKind::upset_ends).size(), 1u);
  double lowest = 1.0;
  for (const HistoryRow& row : rows_between(outcome, begins.time + 1e-6, ends.time - 1e-6)) {
    EXPECT_NEAR(row.flow, 2.0 * samples::gallon_per_minute, 1e-12);
    lowest = std::min(lowest, row.flow_past_bit);
  }
  EXPECT_LE(lowest, 2.0 * samples::gallon_per_minute);
  EXPECT_NEAR(outcome.history.rows.back().flow, 60.0 * samples::gallon_per_minute, 1e-12);
  EXPECT_NEAR(outcome.history.rows.front().flow, 60.0 * samples::gallon_per_minute, 1e-12);
}

// Without wear, a minute without flow leaves nothing behind but time: ten steps' worth of the tolerance (1e-4
// of 100 K) after some minutes.
TEST(Upsets, APumpStopHeatsTheCuttersAndTheyComeBack) {
  scenario::Scenario s = even_hole(15.0);
  const RunOutcome undisturbed = run(s);
  s.upsets = {flow_falls(5.0, 60.0, 0.0)};
  const RunOutcome outcome = run(s);
  const double begins = first_event(outcome, EventKind::upset_begins).time;
  const auto during = rows_between(outcome, begins, begins + 60.0);
  const double before = hottest_table(undisturbed.history.rows.back());
  EXPECT_GT(hottest_table(during.back()), before + 15.0);
  EXPECT_GT(during.back().fluid_temperature, during.front().fluid_temperature + 30.0);
  EXPECT_GT(during.back().body_temperature, during.front().body_temperature + 10.0);
  const HistoryRow &end = outcome.history.rows.back(), &as_planned = undisturbed.history.rows.back();
  EXPECT_LT((end.table_temperature - as_planned.table_temperature).abs().maxCoeff(), 0.1);
  EXPECT_LT((end.flat_temperature - as_planned.flat_temperature).abs().maxCoeff(), 0.1);
  EXPECT_NEAR(end.body_temperature, as_planned.body_temperature, 0.1);
  EXPECT_NEAR(end.water_share, 1.0, 1e-3);
  EXPECT_NEAR(end.solids_fraction, as_planned.solids_fraction, 1e-4);
  EXPECT_NEAR(end.torque, as_planned.torque, 1e-4 * as_planned.torque);
  EXPECT_GT(outcome.rotating_time, undisturbed.rotating_time) << "packed slots cost time";
}

TEST(Upsets, TheStepGoesBackToTheWearScale) {
  const auto steps = [](double bottom, bool upset) {
    scenario::Scenario s = even_hole(bottom);
    if (upset) s.upsets = {flow_falls(5.0, 60.0, 0.0)};
    return run(s).steps;
  };
  const long with_short = steps(30.0, true), without_short = steps(30.0, false);
  EXPECT_GT(with_short, without_short + 30) << "the upset itself is stepped finely";
  // The 170 m after it take no more steps than they would have, and a few.
  EXPECT_LE(steps(200.0, true) - with_short, steps(200.0, false) - without_short + 5);
}

TEST(Upsets, AWeightSpikeDrivesDepthOfCutTorqueAndHeatAndEnds) {
  scenario::Scenario s = even_hole(8.0);
  s.plan[0].weight_on_bit = 10e3;  // blades stay clear, of the spike too
  scenario::Upset spike;
  spike.from = 4.0;
  spike.lasts = 20.0;
  spike.weight_on_bit = 17.5e3;
  s.upsets = {spike};
  const RunOutcome outcome = run(s);
  const double begins = first_event(outcome, EventKind::upset_begins).time;
  const auto during = rows_between(outcome, begins + 1e-6, begins + 20.0 - 1e-6);
  ASSERT_GT(during.size(), 5u);
  const HistoryRow &first = outcome.history.rows.front(), &last = outcome.history.rows.back();
  for (const HistoryRow& row : during) {
    EXPECT_NEAR(row.weight, 17.5e3, 1e-3);
    EXPECT_GT(row.depth_of_cut, 1.4 * first.depth_of_cut);
    EXPECT_GT(row.torque, 1.4 * first.torque);
  }
  EXPECT_GT(hottest_table(during.back()), hottest_table(last) + 5.0);
  EXPECT_NEAR(last.weight, 10e3, 1e-3);
  EXPECT_NEAR(last.depth_of_cut, first.depth_of_cut, 1e-6 * first.depth_of_cut);
  EXPECT_NEAR(first_event(outcome, EventKind::upset_ends).time - begins, 20.0, 1e-6);
}

TEST(Upsets, ComeInTheHoleTheyAreGivenForOrInEvery) {
  scenario::Scenario s = even_hole(4.0);
  s.repeat.holes = 3;
  for (const int hole : {-1, 0, 2}) {
    s.upsets = {flow_falls(2.0, 10.0, 0.0)};
    s.upsets[0].hole = hole;
    const auto begins = events_of(run(s), EventKind::upset_begins);
    ASSERT_EQ(begins.size(), hole < 0 ? 3u : 1u) << hole;
    for (std::size_t k = 0; k < begins.size(); ++k) {
      EXPECT_EQ(begins[k].hole, hole < 0 ? static_cast<int>(k) : hole);
      EXPECT_EQ(begins[k].depth, 2.0);
    }
  }
}

TEST(Upsets, OneThatSpansALayerBoundaryGoesOnInTheNextRock) {
  scenario::Scenario s = testing::short_scenario();
  s.upsets = {flow_falls(2.99, 60.0, 0.0)};
  const RunOutcome outcome = run(s);
  const Event begins = first_event(outcome, EventKind::upset_begins);
  const Event ends = first_event(outcome, EventKind::upset_ends);
  const Event enters = events_of(outcome, EventKind::layer_entered).at(1);
  EXPECT_EQ(enters.depth, 3.0);
  EXPECT_GT(enters.time, begins.time);
  EXPECT_LT(enters.time, ends.time);
  EXPECT_NEAR(ends.time - begins.time, 60.0, 1e-6);
  EXPECT_GT(ends.depth, 3.0);
  bool in_next_rock = false;
  for (const HistoryRow& row : rows_between(outcome, begins.time + 1e-6, ends.time - 1e-6)) {
    EXPECT_EQ(row.flow, 0.0) << row.depth;
    in_next_rock |= row.layer == 1;
  }
  EXPECT_TRUE(in_next_rock);
  EXPECT_NEAR(outcome.history.rows.back().flow, s.plan[0].flow, 1e-12);
  EXPECT_EQ(outcome.passages.size(), 2u) << "an upset makes no passage of its own";
}

TEST(Upsets, TwoAtOnceActTogetherAndEndApart) {
  scenario::Scenario s = even_hole(6.0);
  scenario::Upset slower;
  slower.from = 3.05;
  slower.lasts = 60.0;
  slower.rotary_speed = 0.7;
  s.upsets = {flow_falls(3.0, 30.0, 5e-4), slower};
  const RunOutcome outcome = run(s);
  bool both = false, slow_alone = false;
  for (const HistoryRow& row : outcome.history.rows) {
    both |= row.flow == 5e-4 && row.rotary_speed == 0.7;
    slow_alone |= row.flow > 1e-3 && row.rotary_speed == 0.7;
  }
  EXPECT_TRUE(both);
  EXPECT_TRUE(slow_alone);
  EXPECT_EQ(outcome.history.rows.back().rotary_speed, s.plan[0].rotary_speed);
}

// Every step is kept while an upset lasts and for twice as long after it, and no more than that.
TEST(Upsets, HistoryKeepsEveryStepOfAnUpset) {
  scenario::Scenario s = even_hole(20.0);
  s.upsets = {flow_falls(5.0, 60.0, 0.0)};
  s.stepping.output_every = 0.0;
  const RunOutcome outcome = run(s);
  const double begins = first_event(outcome, EventKind::upset_begins).time;
  const auto kept = rows_between(outcome, begins, begins + 180.0);
  ASSERT_GT(kept.size(), 40u);
  for (std::size_t k = 1; k < kept.size(); ++k) {
    EXPECT_GE(kept[k].time, kept[k - 1].time);
    EXPECT_LT(hottest_table(kept[k]) - hottest_table(kept[k - 1]), 4.0) << "no jump goes unseen";
  }
  const auto rest = rows_between(outcome, begins + 240.0, 1e9);
  EXPECT_LE(rest.size(), 2u) << "afterwards, layer ends only";
  // Rows change nothing: the same run with rows every 10 cm has the same bits.
  scenario::Scenario fine = s;
  fine.stepping.output_every = 0.1;
  testing::expect_same_bits(run(fine), outcome);
}

TEST(Upsets, AddingRodsCoolsTheBitPumpOnOrOff) {
  double coolest[2];
  for (const bool pump : {false, true}) {
    scenario::Scenario s = testing::short_scenario();
    s.repeat.pump_at_connections = pump;
    s.repeat.holes = 2;
    s.stepping.output_every = 0.01;
    s.stepping.warming = scenario::Warming::followed;  // a settled bit's steps go over rods
    const RunOutcome outcome = run(s);
    EXPECT_NEAR(outcome.elapsed_time, outcome.rotating_time + 2 * (2 * 120.0 + 1800.0), 1e-6);
    for (const HoleSummary& hole : outcome.holes) {
      EXPECT_EQ(hole.connections, 2);
      EXPECT_NEAR(hole.elapsed_time, hole.rotating_time + 2 * 120.0 + 1800.0, 1e-6);
    }
    // The first row after the first rod is 1 cm, a second or two, into drilling again.
    const auto& rows = outcome.history.rows;
    const auto after =
        std::find_if(rows.begin(), rows.end(), [](const HistoryRow& row) { return row.depth > 2.0 + 1e-6; });
    ASSERT_NE(after, rows.end());
    EXPECT_LT(hottest_table(*after), hottest_table(*(after - 2)) - 5.0) << pump;
    coolest[pump] = hottest_table(*after);
  }
  EXPECT_NE(coolest[0], coolest[1]);
}

// Cold flow on hot diamond: told, and a hazard. A brittle edge with a Weibull modulus of 1 and no blows shows
// it: on a sound edge it is stress over strength to the tenth power, some 1e-25.
TEST(Upsets, FlowThatComesBackQuenchesHotDiamond) {
  scenario::Scenario s = even_hole(3.0);
  testing::give_one_layer(s, 3.0, samples::invented_rock("granite", 180e6, 4.5));
  s.plan[0].weight_on_bit = 45e3;
  s.plan[0].rotary_speed = 2.5;
  s.numbers.weibull_modulus = samples::exactly(1.0);
  s.numbers.roughness_impacts = samples::exactly(0.0);
  s.upsets = {flow_falls(1.0, 60.0, 0.0)};
  const RunOutcome outcome = run(s);
  const Event quench = first_event(outcome, EventKind::quench);
  const Event ends = first_event(outcome, EventKind::upset_ends);
  EXPECT_EQ(quench.time, ends.time);
  const auto at_end = rows_between(outcome, ends.time - 1e-9, ends.time + 1e-9);
  ASSERT_GE(at_end.size(), 2u);
  Eigen::Index hottest = 0;
  const double T = at_end.back().table_temperature.maxCoeff(&hottest);
  EXPECT_EQ(quench.cutter, static_cast<int>(hottest));
  EXPECT_GT(T, 200.0 + celsius_zero);
  EXPECT_EQ(at_end.front().chip_hazard.maxCoeff(), 0.0) << "nothing else was left to chip it";
  // The stream that comes back flushes the slots within a tenth of a second: it meets the diamond with the
  // convection of clear slots.
  const RunModels models = assemble(s);
  DrillingSystem system(models);
  system.enter(models.intervals[0]);
  State x = State::Zero(system.layout().size()), slope = x;
  for (const thermal::CutterPart part : {thermal::table_near, thermal::table_rest})
    system.layout().parts(x).col(part) = at_end.back().table_temperature;
  for (const thermal::CutterPart part : {thermal::carbide_near, thermal::carbide_rest})
    system.layout().parts(x).col(part) = at_end.back().carbide_temperature;
  system.layout().settled(x) = at_end.back().flat_temperature;
  x(system.layout().body()) = x(system.layout().fluid()) = x(system.layout().warm()) = 288.15;
  x(system.layout().water()) = 1.0;
  x(system.layout().depth()) = 1.5;
  system(x, slope, 0.0);
  const double stress = failure::quench_stress(models.bit.edges.of(hottest).chips, T, 288.15,
                                               system.evaluation().cooling.convection(hottest), 2e-3,
                                               models.bit.materials.front().table_conductivity);
  const failure::CuttingEdge edge{s.bit.layout.back_rake(hottest), at_end.back().worn_height(hottest), T,
                                  at_end.back().heat_damage(hottest)};
  const double expected = failure::quench_hazard(models.bit.edges.of(hottest).chips, stress, edge);
  EXPECT_GT(expected, 1e-5);
  EXPECT_NEAR(at_end.back().chip_hazard(hottest), expected, 1e-6 * expected);
  EXPECT_LT(expected, 1e-2) << "even so, one quench is no great risk";
  // No flow lost, no quench.
  s.upsets.clear();
  const RunOutcome undisturbed = run(s);
  EXPECT_TRUE(events_of(undisturbed, EventKind::quench).empty());
  EXPECT_EQ(undisturbed.end.chip_hazard.maxCoeff(), 0.0);
}

// A driller waits five minutes after a mishap before he calls a bit that stands still stopped.
TEST(Upsets, ABitThatStandsStillAfterAMishapIsGivenTime) {
  scenario::Scenario s = testing::short_scenario();
  s.repeat.connection_time = 0.0;
  s.column.layers[1].rock = samples::invented_rock("quartzite", 400e6, 5.0);
  s.rules.least_progress = 3.0 / 3600.0;
  const RunOutcome at_once = run(s);
  ASSERT_EQ(at_once.ended_by, EndedBy::stopped_drilling);
  EXPECT_EQ(first_event(at_once, EventKind::stopped_drilling).depth, 3.0);
  s.upsets = {flow_falls(2.99, 30.0, 1e-3)};
  const RunOutcome patient = run(s);
  EXPECT_EQ(patient.ended_by, EndedBy::stopped_drilling);
  EXPECT_NEAR(first_event(patient, EventKind::stopped_drilling).time,
              first_event(patient, EventKind::upset_ends).time + 300.0, 1e-6);
  // Lifted off bottom for a minute by the driller's own hand is no end either.
  scenario::Upset lifted;
  lifted.from = 1.0;
  lifted.lasts = 60.0;
  lifted.weight_on_bit = 0.0;
  s.column.layers[1].rock = s.column.layers[0].rock;
  s.upsets = {lifted};
  const RunOutcome goes_on = run(s);
  EXPECT_EQ(goes_on.ended_by, EndedBy::last_hole);
  EXPECT_NEAR(first_event(goes_on, EventKind::upset_ends).depth, 1.0, 1e-9) << "it drilled nothing meanwhile";
}

}  // namespace
}  // namespace dullcast::simulation
