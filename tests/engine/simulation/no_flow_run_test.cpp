// The pump stops and nobody notices: cuttings settle round the cutters in millimetres of hole, their bed
// dries out, and hard rock under load burns the bit within about a minute, as the trade says [cp].

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/simulation/bench.hpp"
#include "engine/simulation/outcome_views.hpp"
#include "engine/simulation/run.hpp"
#include "models/common/constants.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

using samples::exactly;
using testing::Bench;
using testing::first_event;
using testing::flow_falls;

constexpr double pound = 4.4482216152605;  // N
constexpr double heavy = 12000.0 * pound;  // 1,525 lbf per inch
constexpr double stops_at = 1.0;           // m

/// A 200 mm bit of 18 worn cutters in one rock from end to end, water standing over it; the pump stops for
/// ten minutes.
scenario::Scenario stopped(const scenario::RockRecord& rock, double weight, double rpm,
                           double worn = 1.2e-3) {
  scenario::Scenario s = testing::short_scenario();
  testing::give_layout(s, samples::invented_blade_plan(), samples::invented_shape());
  s.string.pipe_diameter = 0.089;
  s.numbers.drilling_efficiency = exactly(0.7);
  testing::give_one_layer(s, 4.0, rock);
  s.repeat.connection_time = 0.0;
  s.stepping.relative_tolerance = 1e-3;
  s.bit.starting_wear = worn;
  s.plan[0].weight_on_bit = weight;
  s.plan[0].rotary_speed = rpm / 60.0;
  // Seats that hold whatever comes, and hardly any wear: heat alone acts.
  s.numbers.abrasion_coefficient = exactly(1e-22);
  s.numbers.braze_strength = s.bit.kinds.front().grade.bond_strength = s.bit.body.strength = exactly(1e12);
  s.upsets = {flow_falls(stops_at, 600.0, 0.0)};
  s.rules.heat_damage = 1.0;
  s.repeat.stop_at = scenario::StopAt::rework_due;
  return s;
}

scenario::RockRecord granite() {
  return samples::invented_rock("granite", 180e6, 4.5);
}

double stop_of(const RunOutcome& outcome) {
  return first_event(outcome, EventKind::upset_begins).time;
}

/// Seconds from the pump's stop until the hottest flat reaches T (C); infinity if it never does.
double seconds_to(const RunOutcome& outcome, double celsius) {
  const double from = stop_of(outcome);
  for (const HistoryRow& row : outcome.history.rows) {
    if (row.time >= from && row.time <= from + 600.0 &&
        row.flat_temperature.maxCoeff() >= celsius + celsius_zero)
      return row.time - from;
  }
  return std::numeric_limits<double>::infinity();
}

double seconds_to_ruin(const RunOutcome& outcome) {
  return outcome.rework_due ? outcome.rework_due->elapsed_time - stop_of(outcome)
                            : std::numeric_limits<double>::infinity();
}

/// Hottest flat so many seconds after the stop, K.
double hottest_after(const RunOutcome& outcome, double seconds) {
  const double when = stop_of(outcome) + seconds;
  const HistoryRow* before = nullptr;
  for (const HistoryRow& row : outcome.history.rows) {
    if (row.time >= when && before != nullptr) {
      const double share = (when - before->time) / (row.time - before->time);
      return (1.0 - share) * before->flat_temperature.maxCoeff() + share * row.flat_temperature.maxCoeff();
    }
    before = &row;
  }
  return before->flat_temperature.maxCoeff();
}

TEST(NoFlowRun, GraniteUnderLoadBurnsTheBitInAboutAMinute) {
  const RunOutcome outcome = run(stopped(granite(), heavy, 85.0));
  EXPECT_LT(seconds_to(outcome, 500.0), 20.0);
  EXPECT_LT(seconds_to(outcome, 700.0), 45.0);
  EXPECT_LT(seconds_to_ruin(outcome), 75.0);
  EXPECT_GT(seconds_to_ruin(outcome), 5.0);
}

TEST(NoFlowRun, LightLoadGivesMinutes) {
  const RunOutcome outcome = run(stopped(granite(), 0.75 * heavy, 60.0, 0.5e-3));
  EXPECT_GT(seconds_to_ruin(outcome), 120.0);
}

// Power over the hole, W: what the bit does before the pump stops.
double power_of(const scenario::Scenario& s) {
  scenario::Scenario with_flow = s;
  with_flow.upsets.clear();
  with_flow.column.layers[0].bottom = with_flow.plan[0].to = 1.0;
  const HistoryRow row = run(with_flow).history.rows.back();
  return row.torque * two_pi * s.plan[0].rotary_speed;
}

TEST(NoFlowRun, AHarderRockIsNoCoolerThanASofterOneAtTheSamePower) {
  const scenario::RockRecord rocks[] = {samples::invented_rock("shale", 30e6, 0.6),
                                        samples::invented_rock("sandstone", 50e6, 2.5),
                                        samples::invented_rock("limestone", 80e6, 1.0),
                                        samples::invented_rock("hard sandstone", 135e6, 3.5), granite()};
  const double power = power_of(stopped(granite(), heavy, 85.0));
  double last[3] = {0.0, 0.0, 0.0}, last_ruin = std::numeric_limits<double>::infinity();
  for (const scenario::RockRecord& rock : rocks) {
    double low = 1e3, high = 1e5;
    for (int k = 0; k < 14; ++k) {
      const double middle = std::sqrt(low * high);
      (power_of(stopped(rock, middle, 85.0)) < power ? low : high) = middle;
    }
    const double weight = high;
    EXPECT_NEAR(power_of(stopped(rock, weight, 85.0)), power, 0.02 * power) << rock.name;
    const RunOutcome outcome = run(stopped(rock, weight, 85.0));
    // From half a minute on: until then a bit in granite has not yet cut the hole whose cuttings bury it.
    for (int k = 0; k < 3; ++k) {
      const double T = hottest_after(outcome, 30.0 * (1 << k));
      EXPECT_GE(T, last[k]) << rock.name << " after " << 30.0 * (1 << k) << " s";
      last[k] = T;
    }
    EXPECT_LE(seconds_to_ruin(outcome), last_ruin) << rock.name;
    last_ruin = seconds_to_ruin(outcome);
  }
}

// 9.6 mm of bed are 5.6 mm of rock at 0.58: told by the efficiency, which a buried bit loses to regrinding.
TEST(NoFlowRun, MillimetresOfHoleBuryTheCuttersWhateverTheRock) {
  for (const double strength : {30e6, 80e6, 180e6}) {
    // In soft rock the whole weight would put the bit on its blades.
    const double weight = heavy * std::min(1.0, strength / 80e6);
    const RunOutcome outcome =
        run(stopped(samples::invented_rock("rock", strength, 1.0), weight, 85.0, 0.3e-3));
    const Event stop = first_event(outcome, EventKind::upset_begins);
    double clean = 0.0;
    for (const HistoryRow& row : outcome.history.rows) {
      if (row.time < stop.time) clean = row.rate_of_penetration;
      if (row.time <= stop.time || row.time > stop.time + 600.0) continue;
      if (row.depth > stop.depth + 7e-3) {
        EXPECT_LT(row.rate_of_penetration, 0.6 * clean) << strength << " " << row.depth - stop.depth;
        break;
      }
    }
  }
}

/// Numbers of a bit without flow, as scenarios/library/models.yaml has them: whether more of one means later
/// (1) or sooner (-1), and whether it must act here at all. Under load the work alone dries the bed out,
/// whatever it lets through; weak flow, on which the last two act, is none.
struct Band {
  const char* number;
  double low, central, high;
  int later;
  bool acts;
};
constexpr Band bands[] = {
    {"burying_height", 0.3, 0.6, 1.0, 1, true},           {"still_expansion", 0.005, 0.01, 0.03, 1, true},
    {"packed_fraction", 0.5, 0.58, 0.64, 1, true},        {"packed_void_share", 0.36, 0.4, 0.5, -1, true},
    {"packed_share", 0.15, 0.3, 0.5, -1, true},           {"slot_height", 0.7, 1.0, 1.3, -1, true},
    {"dry_out_factor", 0.5, 1.0, 1.5, 1, false},          {"bed_grain", 0.3e-3, 0.5e-3, 0.8e-3, 1, false},
    {"suspending_transport", 0.35, 0.5, 0.65, -1, false}, {"renewal_turns", 2.0, 5.0, 10.0, 1, false}};

double ruin_with(const scenario::Scenario& plain, const char* number, double value) {
  scenario::Scenario s = plain;
  bool found = false;
  scenario::for_each_number(s, [&](const std::string& name, scenario::Quantity& quantity) {
    if (name != number) return;
    quantity.central = value;
    found = true;
  });
  EXPECT_TRUE(found) << number;
  return seconds_to_ruin(run(s));
}

TEST(NoFlowRun, LowAndHighOfEachNumberStayOnTheirSidesOfCentral) {
  scenario::Scenario s = stopped(granite(), heavy, 85.0);
  s.stepping.relative_tolerance = 1e-4;
  const double central = seconds_to_ruin(run(s));
  ASSERT_TRUE(std::isfinite(central));
  for (const Band& band : bands) {
    const double low = ruin_with(s, band.number, band.low), high = ruin_with(s, band.number, band.high);
    const double lower = band.later * (low - central), higher = band.later * (high - central);
    EXPECT_LE(lower, 0.0) << band.number << " " << low << " " << central << " " << high;
    EXPECT_GE(higher, 0.0) << band.number << " " << low << " " << central << " " << high;
    if (band.acts) {
      EXPECT_LT(lower, higher) << band.number;
    }
  }
}

// With usual flow nothing settles and everything is renewed: a run knows nothing of the bed's numbers, to the
// last bit.
TEST(NoFlowRun, UsualFlowKnowsNothingOfABed) {
  scenario::Scenario s = testing::even_hole(2.0);
  s.numbers.abrasion_coefficient = exactly(1e-17);
  s.stepping.relative_tolerance = 1e-3;
  const RunOutcome plain = run(s);
  for (const Band& band : bands) {
    const std::string name = band.number;
    if (name == "packed_void_share" || name == "packed_fraction" || name == "packed_share" ||
        name == "slot_height")
      continue;
    scenario::Scenario moved = s;
    scenario::for_each_number(moved, [&](const std::string& number, scenario::Quantity& quantity) {
      if (number == name) quantity.central = band.high;
    });
    const RunOutcome other = run(moved);
    EXPECT_EQ(other.elapsed_time, plain.elapsed_time) << name;
    EXPECT_EQ(other.hottest.temperature, plain.hottest.temperature) << name;
    EXPECT_TRUE((other.end.worn_height == plain.end.worn_height).all()) << name;
  }
}

// While water is pumped the hole stands full: boiling is under the head from the surface, not from the water
// table.
TEST(NoFlowRun, WaterBoilsUnderTheHeadThatStandsWhileThePumpRuns) {
  scenario::Scenario s = testing::short_scenario();
  s.column.water_level = 100.0;
  scenario::Scenario off = s;
  off.plan[0].flow = 0.0;
  Bench pumped(s), still(off);
  const State x = testing::resting_state(pumped.system.layout(), 300.0, 2.5);
  pumped.evaluate(x), still.evaluate(x);
  EXPECT_NEAR(pumped.system.evaluation().cooling.water.pressure, 101325.0 + 999.0 * 9.80665 * 2.5, 1.0);
  EXPECT_NEAR(still.system.evaluation().cooling.water.pressure, 101325.0, 1.0);
  EXPECT_LT(pumped.system.near_boiling(x), still.system.near_boiling(x));
}

// Tables that burn rub rock that softens: no flat is hotter than rock can be, the torque falls as they soften
// it, and the ledger closes on what is left of the work.
TEST(Burning, NoFlatIsHotterThanMoltenRockAndWhatFrictionDoesNotMakeIsNotSpent) {
  scenario::Scenario s = testing::burning_scenario();
  s.stepping.output_every = 0.01;
  const RunOutcome softened = run(s);
  const double melts = s.numbers.rock_melts.central;
  EXPECT_GT(softened.hottest.temperature, s.numbers.rock_softens.central);
  EXPECT_LT(softened.hottest.temperature, melts);
  EXPECT_LT(std::abs(softened.energy_residual), 1e-3 * softened.energy);
  s.numbers.rock_softens = s.numbers.rock_melts = samples::exactly(1e9);
  const RunOutcome hard = run(s);
  EXPECT_GT(hard.hottest.temperature, melts);
  EXPECT_LT(softened.energy, hard.energy);
}

}  // namespace
}  // namespace dullcast::simulation
