// What a run's record holds: histories, ledgers, summaries and clocks that agree with each other.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <vector>

#include "engine/simulation/assembly.hpp"
#include "engine/simulation/run.hpp"
#include "engine/simulation/same_outcome.hpp"
#include "models/common/constants.hpp"
#include "models/materials/saturated_water.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

using testing::expect_same_bits;

TEST(RunHistory, WearAndDamageNeverFall) {
  scenario::Scenario burning = testing::burning_scenario();
  burning.repeat.holes = 2;
  scenario::Scenario fast = testing::fast_wearing_scenario();
  fast.repeat.holes = 3;
  for (scenario::Scenario* s : {&burning, &fast}) {
    s->stepping.output_every = 0.05;
    const RunOutcome outcome = run(*s);
    const auto& rows = outcome.history.rows;
    ASSERT_GT(rows.size(), 20u);
    for (std::size_t k = 1; k < rows.size(); ++k) {
      // An interpolated row may miss by the interpolation's own last digits: the tolerance of 1e-4 mm.
      const double slack = s->stepping.relative_tolerance * 1e-3 * 1e-3;
      EXPECT_GE((rows[k].worn_height - rows[k - 1].worn_height).minCoeff(), -slack) << rows[k].depth;
      EXPECT_GE((rows[k].heat_damage - rows[k - 1].heat_damage).minCoeff(), -1e-6) << rows[k].depth;
      EXPECT_GE(rows[k].time, rows[k - 1].time);
      EXPECT_GE(rows[k].footage, rows[k - 1].footage);
      EXPECT_GE(rows[k].energy, rows[k - 1].energy);
    }
    EXPECT_GT(outcome.end.worn_height.minCoeff(), 0.0);
    EXPECT_EQ((outcome.end.worn_height - rows.back().worn_height).abs().maxCoeff(), 0.0);
  }
}

// First law over a whole run, by the method's own error. Energies do not steer the step, so what they close
// to is measured, over tolerance times what was spent, from 1e-2 to 1e-6: 0.009 to 0.024 for a wearing run,
// 0.004 to 0.022 for a burning one that boils dry. Four times the worst of these is allowed.
TEST(RunHistory, EnergyClosesToTheTolerance) {
  for (const scenario::Scenario& scenario : {testing::burning_scenario(), testing::fast_wearing_scenario()}) {
    for (const double tolerance : {1e-3, 1e-4, 1e-5, 1e-6}) {
      scenario::Scenario s = scenario;
      s.stepping.relative_tolerance = tolerance;
      const RunOutcome outcome = run(s);
      EXPECT_GT(outcome.energy, 0.0);
      EXPECT_LT(std::abs(outcome.energy_residual), 0.1 * tolerance * outcome.energy) << tolerance;
    }
  }
}

TEST(RunHistory, EnergyIsTheSameInEveryLedger) {
  scenario::Scenario s = testing::fast_wearing_scenario();
  s.repeat.holes = 2;
  const RunOutcome outcome = run(s);
  double holes = 0.0, passages = 0.0, by_means = 0.0;
  for (const HoleSummary& hole : outcome.holes) holes += hole.energy;
  for (const LayerPassage& passage : outcome.passages) {
    passages += passage.energy;
    by_means += passage.rotating_time * (passage.mean_weight * passage.mean_rate_of_penetration +
                                         passage.mean_torque * two_pi * s.plan[0].rotary_speed);
  }
  EXPECT_NEAR(holes, outcome.energy, 1e-12 * outcome.energy);
  EXPECT_NEAR(passages, outcome.energy, 1e-12 * outcome.energy);
  EXPECT_EQ(outcome.history.rows.back().energy, outcome.energy);
  // Mean torque is by trapezoids of the accepted steps.
  EXPECT_NEAR(by_means, outcome.energy, 1e-3 * outcome.energy);
}

TEST(RunHistory, MeanWeightOfAStatedWeightIsThatWeight) {
  const RunOutcome outcome = run(testing::short_scenario());
  for (const LayerPassage& passage : outcome.passages) {
    EXPECT_NEAR(passage.mean_weight, 20e3, 1e-9 * 20e3);
    EXPECT_NEAR(passage.mean_rate_of_penetration * passage.rotating_time, passage.bottom - passage.top,
                1e-12);
  }
}

TEST(RunHistory, OutputIntervalLeavesEveryBitAlone) {
  scenario::Scenario plain = testing::fast_wearing_scenario();
  plain.repeat.holes = 2;
  scenario::Scenario by_speed = plain;
  by_speed.rules.worn_height.reset();
  by_speed.rules.speed_share_of_new = 0.9;
  scenario::Scenario stalling = plain;  // an event that needs forces at trial states
  stalling.rules.least_progress = 24.0 / 3600.0;
  for (const scenario::Scenario& scenario : {plain, by_speed, stalling, testing::burning_scenario()}) {
    scenario::Scenario s = scenario;
    s.stepping.output_every = 0.0;
    const RunOutcome without = run(s);
    // None: rows as the program chooses them.
    for (const std::optional<double> every : {std::optional<double>(), {0.07}, {0.5}, {1.0}}) {
      s.stepping.output_every = every;
      const RunOutcome with = run(s);
      EXPECT_GE(with.history.rows.size(), without.history.rows.size());
      expect_same_bits(with, without);
    }
  }
  ASSERT_TRUE(run(by_speed).rework_due.has_value());
  ASSERT_EQ(run(stalling).ended_by, EndedBy::stopped_drilling);
}

TEST(RunHistory, RowsStandAtEvenDepthsAndAtLayerEndsOnce) {
  scenario::Scenario s = testing::short_scenario();
  s.stepping.output_every = 0.5;
  // Weights that land the layer's end a last bit above or below its depth.
  for (double weight = 15e3; weight < 25e3; weight += 500.0) {
    s.plan[0].weight_on_bit = weight;
    s.stepping.relative_tolerance = 1e-2;
    const RunOutcome outcome = run(s);
    std::vector<HistoryRow> rows;  // but the second of two at one instant, where heat jumps to its balance
    for (const HistoryRow& row : outcome.history.rows) {
      if (rows.empty() || row.time > rows.back().time || row.layer != rows.back().layer) rows.push_back(row);
    }
    // 0, 0.5 .. 3 in the first layer; 3, 3.5 .. 5 in the second.
    ASSERT_EQ(rows.size(), 12u) << weight;
    for (std::size_t k = 0; k < 12; ++k) {
      const double depth = k < 7 ? 0.5 * static_cast<double>(k) : 0.5 * static_cast<double>(k - 1);
      EXPECT_NEAR(rows[k].depth, depth, 1e-8);
      EXPECT_EQ(rows[k].layer, k < 7 ? 0 : 1);
    }
  }
}

TEST(RunHistory, SameScenarioGivesTheSameBits) {
  for (const scenario::Scenario& s : {testing::fast_wearing_scenario(), testing::burning_scenario()}) {
    const RunOutcome one = run(s), two = run(s);
    expect_same_bits(one, two);
    ASSERT_EQ(one.history.rows.size(), two.history.rows.size());
    for (std::size_t k = 0; k < one.history.rows.size(); ++k) {
      EXPECT_EQ(one.history.rows[k].torque, two.history.rows[k].torque);
      EXPECT_TRUE((one.history.rows[k].flat_temperature == two.history.rows[k].flat_temperature).all());
    }
  }
}

TEST(RunHistory, HottestMomentIsTheHottestOfHolesLayersAndRows) {
  scenario::Scenario s = testing::burning_scenario();
  s.repeat.holes = 2;
  s.stepping.output_every = 0.0005;  // rows 2 mm apart missed a burning bit's hottest moment by 30 K
  const RunOutcome outcome = run(s);
  double rows = 0.0, layers = 0.0, holes = 0.0;
  for (const HistoryRow& row : outcome.history.rows) rows = std::max(rows, row.flat_temperature.maxCoeff());
  for (const LayerPassage& passage : outcome.passages) layers = std::max(layers, passage.hottest_flat);
  for (const HoleSummary& hole : outcome.holes) holes = std::max(holes, hole.hottest_flat);
  EXPECT_EQ(outcome.hottest.temperature, layers);
  EXPECT_EQ(outcome.hottest.temperature, holes);
  // Rows lie between the steps' ends too, where interpolation errs by the tolerance's 0.01 K.
  EXPECT_LE(rows, outcome.hottest.temperature + 0.02);
  EXPECT_GT(rows, outcome.hottest.temperature - 20.0);
  EXPECT_EQ(outcome.hottest.weight, 60e3);
  EXPECT_EQ(outcome.hottest.rotary_speed, 8.0);
  EXPECT_GT(outcome.hottest.flat_heat, 0.0);
  EXPECT_GT(outcome.hottest.face_heat, 0.0);
}

TEST(RunHistory, ConnectionsAndTripsAreCounted) {
  scenario::Scenario s = testing::short_scenario();  // 5 m by rods of 2 m: added at 2 and 4 m
  s.repeat.holes = 3;
  const RunOutcome outcome = run(s);
  ASSERT_EQ(outcome.holes.size(), 3u);
  for (const HoleSummary& hole : outcome.holes) {
    EXPECT_EQ(hole.connections, 2);
    EXPECT_NEAR(hole.elapsed_time, hole.rotating_time + 2 * 120.0 + 1800.0, 1e-9);
  }
  EXPECT_NEAR(outcome.elapsed_time, outcome.rotating_time + 3 * (2 * 120.0 + 1800.0), 1e-9);
  EXPECT_NEAR(outcome.footage, 15.0, 1e-9);
  EXPECT_EQ(outcome.holes_finished, 3);
  EXPECT_EQ(outcome.ended_by, EndedBy::last_hole);
  // A hole of whole rods does not need one more at its end.
  s.repeat.holes = 1;
  s.repeat.connection_every = 2.5;
  EXPECT_EQ(run(s).holes[0].connections, 1);
}

TEST(RunHistory, ATripCoolsTheBit) {
  scenario::Scenario s = testing::burning_scenario();
  s.repeat.holes = 2;
  const RunOutcome outcome = run(s);
  for (const HistoryRow& row : outcome.history.rows) {
    if (row.depth > 0.0) continue;
    EXPECT_EQ(row.fluid_temperature, s.inlet_temperature);
    EXPECT_EQ(row.body_temperature, s.inlet_temperature);
    EXPECT_TRUE((row.table_temperature == s.inlet_temperature).all());
  }
}

// Water past saturation flashes within a second; as long, the share of surplus heat that still warms it
// (1/101 of a full bottom's, more as it empties) may lift it above. No surplus is above the bit's power while
// its parts warm up.
TEST(RunHistory, FluidStaysAtSaturationWithThePumpOff) {
  scenario::Scenario s = testing::burning_scenario();
  s.stepping.output_every = 0.02;
  s.stepping.relative_tolerance = 1e-5;
  double hottest = 0.0;
  for (const double flow : {0.0, 1e-5}) {
    s.plan[0].flow = flow;
    const double capacity = assemble(s).intervals[0].fluid_capacity;
    for (const HistoryRow& row : run(s).history.rows) {
      const double saturation =
          materials::saturation_temperature(standard_atmosphere + 999.0 * standard_gravity * row.depth);
      if (row.water_share < 0.05) continue;  // the last water cannot hold it
      const double power = row.torque * two_pi * row.rotary_speed + row.weight * row.rate_of_penetration;
      const double warming = power * 0.01 / (row.water_share + 0.01);
      const double lifted = warming / (capacity * row.water_share) * 1.0;         // one second's worth
      EXPECT_LE(row.fluid_temperature, saturation + lifted + 0.01) << row.depth;  // the step's own 0.001 K
      hottest = std::max(hottest, row.fluid_temperature);
    }
  }
  EXPECT_GT(hottest, 373.15);
}

TEST(RunHistory, PlanIntervalsAndLayersCutTheHoleIntoStretches) {
  scenario::Scenario s = testing::short_scenario();
  scenario::OperatingInterval below = s.plan[0];
  s.plan[0].to = 1.0;
  below.from = 1.0;
  below.weight_on_bit = 12e3;
  below.rotary_speed = 1.0;
  below.flow = 2e-3;
  s.plan.push_back(below);
  const RunOutcome outcome = run(s);
  ASSERT_EQ(outcome.passages.size(), 3u);
  const double tops[] = {0.0, 1.0, 3.0}, bottoms[] = {1.0, 3.0, 5.0}, weights[] = {20e3, 12e3, 12e3};
  const int layers[] = {0, 0, 1};
  for (std::size_t k = 0; k < 3; ++k) {
    EXPECT_EQ(outcome.passages[k].top, tops[k]);
    EXPECT_EQ(outcome.passages[k].bottom, bottoms[k]);
    EXPECT_EQ(outcome.passages[k].layer, layers[k]);
    EXPECT_NEAR(outcome.passages[k].mean_weight, weights[k], 1e-9 * weights[k]);
  }
  const auto layers_entered =
      std::count_if(outcome.events.begin(), outcome.events.end(),
                    [](const Event& event) { return event.kind == EventKind::layer_entered; });
  EXPECT_EQ(layers_entered, 2) << "a change of settings is no new layer";
  EXPECT_EQ(outcome.history.rows.back().rotary_speed, 1.0);
  EXPECT_EQ(outcome.history.rows.back().flow, 2e-3);
  EXPECT_EQ(outcome.history.rows.front().rotary_speed, 85.0 / 60.0);
}

TEST(RunHistory, FeedLimitHoldsTheRateAndTheWeightIsWhatTheCutTakes) {
  scenario::Scenario s = testing::short_scenario();
  s.plan[0].feed_limit = 10.0 / 3600.0;
  const RunOutcome outcome = run(s);
  for (const HistoryRow& row : outcome.history.rows) {
    EXPECT_NEAR(row.rate_of_penetration, 10.0 / 3600.0, 1e-12);
    EXPECT_GT(row.weight, 0.0);
    EXPECT_LT(row.weight, 20e3);
  }
  EXPECT_NEAR(outcome.rotating_time, 5.0 / (10.0 / 3600.0), 1e-6);
  // The softer rock takes less.
  EXPECT_LT(outcome.passages[1].mean_weight, outcome.passages[0].mean_weight);
}

TEST(RunHistory, RowsForcesAddUpToWeightAndTorque) {
  const RunOutcome outcome = run(testing::fast_wearing_scenario());
  const scenario::Scenario s = testing::fast_wearing_scenario();
  const RunModels models = assemble(s);
  geometry::WornProfile profile(models.bit.bit, models.bit.edge, geometry::usual_spacing(models.bit.bit));
  for (const HistoryRow& row : outcome.history.rows) {
    profile.update(row.worn_height);
    // Engagement identity: what the cutters cut is depth of cut times the annulus's width.
    const double cut = row.depth_of_cut * (profile.outer_radius() - profile.core_radius());
    EXPECT_NEAR(row.area_of_cut.sum(), cut, 1e-9 * cut);
    EXPECT_GT(row.area_of_cut.minCoeff(), 0.0);
    // Normal forces lean with the profile: their sum is at least the weight that blades leave to them.
    EXPECT_GE(row.normal_force.sum(), row.weight - row.blade_weight);
    // Each cutter's force acts within its own width, 13 mm, of the tip's radius; inside and outside even out.
    // The pads rub at the wall with the side force, at the blades' friction of 0.3.
    const double pads = 0.3 * row.lateral_force * s.bit.layout.bit_radius;
    EXPECT_NEAR((row.tangential_force * s.bit.layout.radius).sum() + pads, row.torque, 0.05 * row.torque);
    EXPECT_NEAR(row.rate_of_penetration, row.depth_of_cut * row.rotary_speed, 1e-15);
  }
}

TEST(RunHistory, ReportsItsProgress) {
  scenario::Scenario s = testing::short_scenario();
  s.repeat.holes = 2;
  std::vector<double> told;
  const RunOutcome outcome = run(s, [&](double holes, int asked) {
    EXPECT_EQ(asked, 2);
    told.push_back(holes);
  });
  ASSERT_FALSE(told.empty());
  EXPECT_TRUE(std::is_sorted(told.begin(), told.end()));
  EXPECT_EQ(told.back(), 2.0);
  expect_same_bits(outcome, run(s));
}

TEST(RunHistory, FailuresNameHoleAndDepth) {
  const double nan = std::nan("");
  const auto sentence = [](const scenario::Scenario& s) -> std::string {
    try {
      run(s);
    } catch (const std::runtime_error& error) {
      return error.what();
    }
    return "";
  };
  scenario::Scenario s = testing::short_scenario();
  s.plan[0].weight_on_bit = nan;
  EXPECT_NE(sentence(s).find("hole 1, depth 0.00"), std::string::npos) << sentence(s);
  s = testing::short_scenario();
  s.column.layers[1].rock.conductivity = samples::exactly(nan);
  EXPECT_NE(sentence(s).find("hole 1, depth 3.00"), std::string::npos) << sentence(s);
}

TEST(RunHistory, ANumberThatIsNotOneNeverMakesAnOutcome) {
  const double nan = std::nan("");
  const std::vector<void (*)(scenario::Scenario&, double)> breaks = {
      [](scenario::Scenario& s, double x) { s.plan[0].weight_on_bit = x; },
      [](scenario::Scenario& s, double x) { s.plan[0].rotary_speed = x; },
      [](scenario::Scenario& s, double x) { s.plan[0].flow = x; },
      [](scenario::Scenario& s, double x) { s.inlet_temperature = x; },
      [](scenario::Scenario& s, double x) { s.column.temperature_gradient = x; },
      [](scenario::Scenario& s, double x) { s.bit.starting_wear(2) = x; },
      [](scenario::Scenario& s, double x) { s.bit.starting_damage(2) = x; },
      [](scenario::Scenario& s, double x) { s.numbers.abrasion_coefficient = samples::exactly(x); },
      [](scenario::Scenario& s, double x) { s.numbers.flat_friction = samples::exactly(x); },
      [](scenario::Scenario& s, double x) { s.numbers.damage_seconds_at_750 = samples::exactly(x); },
      [](scenario::Scenario& s, double x) {
        s.column.layers[1].rock.unconfined_strength = samples::exactly(x);
      },
      [](scenario::Scenario& s, double x) { s.bit.body.heat_capacity = samples::exactly(x); },
  };
  for (std::size_t k = 0; k < breaks.size(); ++k) {
    scenario::Scenario s = testing::short_scenario();
    breaks[k](s, nan);
    EXPECT_THROW(run(s), std::exception) << "case " << k;
  }
}

}  // namespace
}  // namespace dullcast::simulation
