// Cuttings in a run: what the flow does not carry away stays in the slots, packs them and is ground again.

#include <gtest/gtest.h>

#include <cmath>

#include "engine/simulation/outcome_views.hpp"
#include "engine/simulation/run.hpp"
#include "models/common/constants.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

using samples::exactly;
using samples::gallon_per_minute;
using testing::even_hole;
using testing::events_of;
using testing::first_event;
using testing::flow_falls;
using testing::rows_between;

// Volumes: with no flow, slots of volume V are full when 0.9 of the packed fraction of V has been cut, half a
// slot filling per packed fraction of solids. Depth drilled meanwhile: 0.9 x 0.58 V/(pi R^2), less what was
// in them; ROP falls on the way, depth does not care.
TEST(CleaningRun, SlotsPackWithTheRockThatIsCutAndClearAgain) {
  scenario::Scenario s = even_hole(6.0);
  s.upsets = {flow_falls(3.0, 60.0, 0.0)};
  const RunOutcome outcome = run(s);
  const Event begins = first_event(outcome, EventKind::upset_begins);
  const Event packs = first_event(outcome, EventKind::slots_pack);
  const Event clears = first_event(outcome, EventKind::slots_clear);
  const double before = rows_between(outcome, begins.time, begins.time).front().solids_fraction;
  EXPECT_GT(packs.time, begins.time);
  EXPECT_GT(clears.time, begins.time + 60.0);
  EXPECT_LT(clears.time, begins.time + 70.0);
  // Told at packing 0.9, a smooth step from 0.4 to 0.9 of 0.58: x = 0.8041 (3 x^2 - 2 x^3 = 0.9).
  const double solids = 0.58 * (0.4 + 0.5 * 0.80420) - before;
  const double volume = 0.35 * pi * 0.06 * 0.06 * 0.12;
  EXPECT_NEAR(packs.depth - begins.depth, solids * volume / (pi * 0.06 * 0.06), 1e-3 * solids * 0.042);
  // Packed, the bit grinds its cuttings again: 0.3 of the efficiency is left.
  const auto packed = rows_between(outcome, begins.time + 30.0, begins.time + 60.0 - 1e-6);
  const double clean = outcome.history.rows.front().rate_of_penetration;
  for (const HistoryRow& row : packed) {
    EXPECT_LT(row.rate_of_penetration, 0.5 * clean);
    EXPECT_GT(row.rate_of_penetration, 0.1 * clean);
    EXPECT_LE(row.solids_fraction, 0.58);
    EXPECT_GT(row.solids_fraction, 0.5);
  }
  EXPECT_NEAR(outcome.history.rows.back().rate_of_penetration, clean, 1e-6 * clean);
}

TEST(CleaningRun, PackingAndClearingAreToldOnceAHole) {
  scenario::Scenario s = even_hole(6.0);
  s.repeat.holes = 2;
  s.upsets = {flow_falls(2.0, 20.0, 0.0), flow_falls(4.0, 20.0, 0.0)};
  for (scenario::Upset& upset : s.upsets) upset.hole = -1;
  const RunOutcome outcome = run(s);
  EXPECT_EQ(events_of(outcome, EventKind::upset_begins).size(), 4u);
  EXPECT_EQ(events_of(outcome, EventKind::slots_pack).size(), 2u);
  EXPECT_EQ(events_of(outcome, EventKind::slots_clear).size(), 2u);
}

// Steady state, volumes again: C = ROP A/(Q + ROP A) (physics by volume balance) where all is lifted.
TEST(CleaningRun, LessFlowLeavesMoreSolidsByTheVolumeBalance) {
  double last = 0.0;
  for (const double gallons : {120.0, 60.0, 30.0, 15.0}) {
    scenario::Scenario s = even_hole(2.0);
    s.plan[0].flow = gallons * samples::gallon_per_minute;
    s.plan[0].feed_limit = 10.0 / 3600.0;
    const RunOutcome outcome = run(s);
    const double solids = outcome.history.rows.back().solids_fraction;
    EXPECT_GT(solids, 1.5 * last) << gallons;
    last = solids;
    const double rock = 10.0 / 3600.0 * pi * 0.06 * 0.06;
    const double lifted = outcome.passages[0].lifted_share;
    EXPECT_GT(lifted, 0.0);
    EXPECT_LE(lifted, 1.0);
    // What is not lifted is first ground finer, half of what the slots hold in a second.
    const double lifts = lifted * s.plan[0].flow, grinds = 0.5 * 0.35 * pi * 0.06 * 0.06 * 0.12;
    const double carries = lifts / (1.0 + lifts * (1.0 - lifted) / grinds);
    const double by_volumes = rock / (carries + rock);
    EXPECT_NEAR(solids, by_volumes, 1e-3 * by_volumes) << gallons;
    EXPECT_NEAR(outcome.passages[0].mean_solids_fraction, solids, 0.02 * solids);
  }
}

// Common practice: 10 gal/min cools but does not clean. At 2 gal/min soft ground packs the slots for good.
TEST(CleaningRun, TooLittleFlowPacksTheSlotsForGood) {
  scenario::Scenario s = even_hole(3.0);
  s.plan[0].flow = 2.0 * samples::gallon_per_minute;
  const RunOutcome outcome = run(s);
  EXPECT_EQ(events_of(outcome, EventKind::slots_pack).size(), 1u);
  EXPECT_TRUE(events_of(outcome, EventKind::slots_clear).empty());
  s.plan[0].flow = 60.0 * samples::gallon_per_minute;
  const RunOutcome clean = run(s);
  EXPECT_TRUE(events_of(clean, EventKind::slots_pack).empty());
  EXPECT_LT(outcome.passages[0].mean_rate_of_penetration, 0.6 * clean.passages[0].mean_rate_of_penetration);
}

// Ports: dp = rho (Q/(C_d A))^2/2 [hb: API RP 13D form], and 1.5 velocity heads of the open slots.
TEST(CleaningRun, PressureDropIsThatOfPortsAndSlots) {
  scenario::Scenario s = even_hole(1.0);
  s.bit.build.port_area = 3.0 * pi * 0.25 * 0.01 * 0.01;
  s.bit.build.port_diameter = 0.01;
  const RunOutcome outcome = run(s);
  const HistoryRow& row = outcome.history.rows.back();
  const double Q = s.plan[0].flow, jet = Q / (0.95 * s.bit.build.port_area);
  const double slots = Q / (0.35 * pi * 0.06 * 0.06 * (1.0 - row.solids_fraction));
  const double open = Q / (0.35 * pi * 0.06 * 0.06);
  const double ports = 0.5 * 999.0 * jet * jet;
  EXPECT_GT(row.bit_pressure_drop, ports);
  EXPECT_LT(row.bit_pressure_drop, ports + 1.5 * 0.5 * 999.0 * slots * slots + 1e-6 * ports);
  EXPECT_GT(row.bit_pressure_drop, ports + 1.5 * 0.5 * 999.0 * open * open - 1e-6 * ports);
  EXPECT_NEAR(row.flow_past_bit, Q, 1e-12);
  // A pump that can spend but half of it sends less.
  s.pump_pressure_limit = 0.5 * row.bit_pressure_drop;
  const HistoryRow limited = run(s).history.rows.back();
  EXPECT_NEAR(limited.flow_past_bit, Q * std::sqrt(0.5), 0.02 * Q);
}

// Sticky ground and few cuttings' room ball a bit; clean limestone does not.
TEST(CleaningRun, StickyGroundBallsMore) {
  scenario::Scenario s = even_hole(1.0);
  EXPECT_EQ(run(s).passages[0].balling_risk, 0.0);
  s.column.layers[0].rock.stickiness = samples::exactly(0.9);
  const double risk = run(s).passages[0].balling_risk;
  EXPECT_GT(risk, 0.0);
  EXPECT_LE(risk, 0.9);
  s.plan[0].flow *= 3.0;
  EXPECT_LT(run(s).passages[0].balling_risk, risk);
}

}  // namespace
}  // namespace dullcast::simulation
