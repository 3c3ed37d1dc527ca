#include "engine/analysis/operating_window.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "engine/analysis/cooling_table.hpp"
#include "engine/analysis/layer_hole.hpp"
#include "engine/analysis/suitability.hpp"
#include "engine/simulation/run.hpp"
#include "models/common/constants.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::analysis {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

/// One hard sandstone from 30 m down, ten minutes a cell, no limit but those a test sets.
scenario::Scenario one_rock(double strength, double abrasivity) {
  scenario::Scenario s = testing::short_scenario();
  s.stepping.relative_tolerance = 1e-2;
  testing::give_one_layer(s, 40.0, samples::invented_rock("hard sandstone", strength, abrasivity));
  s.column.layers[0].top = 30.0;
  s.plan[0].from = 30.0;
  return s;
}

/// Air with the hole dry: nothing boils and little cools.
scenario::Scenario dry_hole() {
  scenario::Scenario s = one_rock(120e6, 1.0);
  s.fluid = samples::invented_air();
  s.plan[0].flow = 0.15;
  s.column.water_level = 1000.0;
  return s;
}

WindowLimits no_limits() {
  WindowLimits limits;
  limits.hottest_flat = limits.chips = limits.load_share = limits.packing = infinite;
  limits.film = limits.weight = limits.pressure = infinite;
  limits.wear_allowance = 2e-3;
  return limits;
}

WindowOptions small_grid() {
  WindowOptions options;
  options.weights = {8e3, 16e3, 24e3};
  options.rotary_speeds = {0.8, 1.4, 2.0};
  options.seconds = 200.0;
  return options;
}

void expect_same(const WindowCell& a, const WindowCell& b) {
  EXPECT_EQ(a.weight_reached, b.weight_reached);
  EXPECT_EQ(a.rate_of_penetration, b.rate_of_penetration);
  EXPECT_EQ(a.hottest_flat, b.hottest_flat);
  EXPECT_EQ(a.wear_per_metre, b.wear_per_metre);
  EXPECT_EQ(a.chips_per_metre, b.chips_per_metre);
  EXPECT_EQ(a.load_share, b.load_share);
  EXPECT_EQ(a.solids_fraction, b.solids_fraction);
  EXPECT_EQ(a.torque, b.torque);
  EXPECT_EQ(a.cost_per_metre, b.cost_per_metre);
  EXPECT_EQ(a.uses, b.uses);
  EXPECT_EQ(a.limit, b.limit);
}

TEST(OperatingWindow, DryFlatsAreHotterWithMoreWeightAndWithMoreSpeed) {
  WindowOptions options = small_grid();
  options.limits = no_limits();
  const OperatingWindow window = operating_window(dry_hole(), options);
  for (std::size_t w = 0; w < 3; ++w) {
    for (std::size_t v = 0; v < 3; ++v) {
      const WindowCell& cell = window.cell(w, v);
      ASSERT_GT(cell.rate_of_penetration, 0.0) << cell.failure;
      EXPECT_GT(cell.hottest_flat, dry_hole().inlet_temperature);
      if (w > 0) {
        EXPECT_GT(cell.hottest_flat, window.cell(w - 1, v).hottest_flat) << w << " " << v;
      }
      if (v > 0) {
        EXPECT_GT(cell.hottest_flat, window.cell(w, v - 1).hottest_flat) << w << " " << v;
      }
    }
  }
}

TEST(OperatingWindow, HeatBindsTheHeavyFastCornerAndTheEdgeBracketsIt) {
  WindowOptions options = small_grid();
  options.limits = no_limits();
  const OperatingWindow free = operating_window(dry_hole(), options);
  options.limits->hottest_flat = free.cell(1, 1).hottest_flat + 1.0;
  options.closeness = 1.01;
  const OperatingWindow window = operating_window(dry_hole(), options);
  EXPECT_EQ(window.cell(2, 2).limit, WindowLimit::heat);
  EXPECT_TRUE(window.cell(1, 1).inside());
  EXPECT_EQ(window.cell(2, 1).limit, WindowLimit::heat);
  const WindowEdge& edge = window.edges[1];
  ASSERT_TRUE(edge.greatest && edge.least);
  EXPECT_EQ(edge.above, WindowLimit::heat);
  EXPECT_EQ(edge.below, WindowLimit::inside) << "the lightest weight of the grid is inside";
  EXPECT_EQ(*edge.least, 8e3);
  EXPECT_GT(edge.weight_above, *edge.greatest);
  EXPECT_LE(edge.weight_above, 1.01 * *edge.greatest);
  // Tried again, either side of the edge is what it was said to be.
  const simulation::BitCondition start = starting_condition(dry_hole());
  const auto at = [&](double weight) {
    return try_setting(dry_hole(), 0, start, window.limits, {weight, 1.4, window.flow, false},
                       options.seconds);
  };
  EXPECT_TRUE(at(*edge.greatest).inside());
  const WindowCell past = at(edge.weight_above);
  EXPECT_EQ(past.limit, WindowLimit::heat);
  EXPECT_GT(past.hottest_flat, options.limits->hottest_flat);
}

/// A share of a limit is 1 where the value is the limit.
TEST(OperatingWindow, UsesAreOneAtTheirLimits) {
  const scenario::Scenario s = one_rock(110e6, 3.0);
  const simulation::BitCondition start = starting_condition(s);
  WindowLimits limits = no_limits();
  const WindowSetting setting{20e3, 1.5, s.plan[0].flow, false};
  const WindowCell plain = try_setting(s, 0, start, limits, setting, 200.0);
  ASSERT_GT(plain.chips_per_pass, 0.0);
  limits.hottest_flat = plain.hottest_flat;
  limits.chips = plain.chips_per_pass;
  limits.load_share = plain.load_share;
  limits.least_progress = plain.rate_of_penetration;
  limits.packing = plain.packing;
  limits.weight = plain.weight;
  limits.metres_to_allowance = plain.metres_to_allowance;
  const WindowCell cell = try_setting(s, 0, start, limits, setting, 200.0);
  for (const WindowLimit each :
       {WindowLimit::heat, WindowLimit::chips, WindowLimit::retention, WindowLimit::progress,
        WindowLimit::packing, WindowLimit::weight, WindowLimit::wear})
    EXPECT_NEAR(cell.use(each), 1.0, 1e-12) << window_limit_name(each);
  limits.chips = plain.chips_per_pass / std::pow(1.5, s.numbers.weibull_modulus.central);
  EXPECT_NEAR(try_setting(s, 0, start, limits, setting, 200.0).use(WindowLimit::chips), 1.5, 1e-9)
      << "a hazard goes with the modulus's power of stress";
}

/// Seconds under steam add up with the trial's length, so past their limit they count as a share of it.
TEST(OperatingWindow, FilmPastItsLimitCountsAsAShareOfTheTrial) {
  scenario::Scenario s = one_rock(130e6, 3.0);
  s.plan[0].flow = 2e-5;
  s.column.water_level = 1000.0;
  WindowLimits limits = no_limits();
  limits.film = 1.0;
  const WindowCell cell =
      try_setting(s, 0, starting_condition(s), limits, {40e3, 3.0, s.plan[0].flow, false}, 300.0);
  ASSERT_GT(cell.time_in_film, 2.0) << "a trickle boils away";
  EXPECT_FALSE(cell.inside());
  EXPECT_NEAR(cell.use(WindowLimit::film), 1.0 + (cell.time_in_film - 1.0) / cell.rotating_time, 1e-12);
  EXPECT_GT(cell.use(WindowLimit::film), 1.0);
  EXPECT_LE(cell.use(WindowLimit::film), 2.0);
}

TEST(OperatingWindow, WearBindsWhereTheRockIsAbrasive) {
  scenario::Scenario s = one_rock(60e6, 4.0);
  s.numbers.abrasion_coefficient = samples::exactly(1e-15);
  WindowOptions options = small_grid();
  options.limits = no_limits();
  options.limits->metres_to_allowance = suitability_limit::care_metres;
  const OperatingWindow window = operating_window(s, options);
  const WindowCell& cell = window.cell(2, 1);
  EXPECT_EQ(cell.limit, WindowLimit::wear);
  EXPECT_LT(cell.metres_to_allowance, suitability_limit::care_metres);
  EXPECT_NEAR(cell.metres_to_allowance, 2e-3 / cell.wear_per_metre, 1e-9 * cell.metres_to_allowance);
  EXPECT_FALSE(window.edges[1].greatest);
  EXPECT_EQ(window.edges[1].above, WindowLimit::wear);
}

TEST(OperatingWindow, TooLittleWeightIsTooSlowAndTheLowerEdgeIsFound) {
  WindowOptions options = small_grid();
  options.weights = {2e3, 10e3, 24e3};
  options.limits = no_limits();
  options.limits->least_progress = suitability_limit::care_progress;
  const OperatingWindow window = operating_window(one_rock(80e6, 1.0), options);
  EXPECT_EQ(window.cell(0, 1).limit, WindowLimit::progress);
  const WindowEdge& edge = window.edges[1];
  ASSERT_TRUE(edge.least && edge.greatest);
  EXPECT_EQ(edge.below, WindowLimit::progress);
  EXPECT_LT(edge.weight_below, *edge.least);
  EXPECT_LE(*edge.least, options.closeness * edge.weight_below);
}

TEST(OperatingWindow, AWindowNarrowerThanTheGridIsFound) {
  const scenario::Scenario s = one_rock(80e6, 1.0);
  WindowOptions options = small_grid();
  options.limits = no_limits();
  const OperatingWindow free = operating_window(s, options);
  options.limits->least_progress =
      0.5 * (free.cell(0, 1).rate_of_penetration + free.cell(1, 1).rate_of_penetration);
  options.limits->weight = 15.9e3;
  const OperatingWindow window = operating_window(s, options);
  for (std::size_t w = 0; w < 3; ++w) EXPECT_FALSE(window.cell(w, 1).inside()) << w;
  const WindowEdge& edge = window.edges[1];
  ASSERT_TRUE(edge.least && edge.greatest);
  EXPECT_LT(*edge.least, *edge.greatest);
  EXPECT_EQ(edge.below, WindowLimit::progress);
  EXPECT_EQ(edge.above, WindowLimit::weight);
  EXPECT_LT(*edge.greatest, 15.9e3);
  EXPECT_GE(edge.weight_above, 15.9e3);
}

TEST(OperatingWindow, ThePlannedCellIsALayerHoleRun) {
  scenario::Scenario s = one_rock(80e6, 1.0);
  s.plan[0].weight_on_bit = 16e3;
  s.plan[0].rotary_speed = 1.4;
  s.costs.bit = 1900.0;
  s.costs.rig_per_second = 85.0 / 3600.0;
  WindowOptions options = small_grid();
  const OperatingWindow window = operating_window(s, options);
  const LayerHole hole = layer_hole(s, 0, starting_condition(s), options.seconds);
  const simulation::RunOutcome run = dullcast::simulation::run(hole.scenario);
  const simulation::LayerPassage& passage = run.passages.at(0);
  expect_same(window.cell(1, 1), window.planned);
  EXPECT_EQ(window.planned.rate_of_penetration, passage.mean_rate_of_penetration);
  EXPECT_EQ(window.planned.hottest_flat, passage.hottest_flat);
  EXPECT_EQ(window.planned.torque, passage.mean_torque);
  EXPECT_EQ(window.planned.load_share, passage.greatest_load_share);
  EXPECT_EQ(window.planned.solids_fraction, passage.mean_solids_fraction);
  EXPECT_EQ(window.planned.depth_of_cut, run.history.rows.back().depth_of_cut);
  EXPECT_NEAR(window.planned.weight, 16e3, 1e-6);
  // C = (B + R t)/F with F the metres that use the bit up [hb: Bourgoyne et al., Applied Drilling
  // Engineering].
  ASSERT_TRUE(window.planned.cost_per_metre);
  const double metres = window.planned.metres_to_allowance;
  EXPECT_NEAR(*window.planned.cost_per_metre,
              (1900.0 + 85.0 / 3600.0 * metres / passage.mean_rate_of_penetration) / metres,
              1e-9 * *window.planned.cost_per_metre);
}

TEST(OperatingWindow, TheFeedLimitHoldsThePlanButNotTheCells) {
  scenario::Scenario s = one_rock(30e6, 0.5);
  s.plan[0].weight_on_bit = 16e3;
  s.plan[0].rotary_speed = 1.4;
  WindowOptions options = small_grid();
  options.limits = no_limits();
  const double free = operating_window(s, options).planned.rate_of_penetration;
  s.plan[0].feed_limit = 0.5 * free;
  const OperatingWindow window = operating_window(s, options);
  EXPECT_NEAR(window.planned.rate_of_penetration, 0.5 * free, 1e-6 * free);
  EXPECT_LT(window.planned.weight_reached, 0.9 * 16e3);
  EXPECT_EQ(window.cell(1, 1).rate_of_penetration, free);
  options.keep_feed_limit = true;
  expect_same(operating_window(s, options).cell(1, 1), window.planned);
}

TEST(OperatingWindow, TheSameBitsOnOneAndOnTwoThreads) {
  WindowOptions options = small_grid();
  const scenario::Scenario s = one_rock(80e6, 2.0);
  double told = 0.0;
  options.progress = [&](double done, double all) {
    EXPECT_LE(done, all);
    told = done;
  };
  const OperatingWindow one = operating_window(s, options);
  EXPECT_EQ(told, static_cast<double>(one.trials));
  options.progress = nullptr;
  options.threads = 2;
  const OperatingWindow two = operating_window(s, options);
  ASSERT_EQ(one.cells.size(), two.cells.size());
  for (std::size_t k = 0; k < one.cells.size(); ++k) expect_same(one.cells[k], two.cells[k]);
  expect_same(one.planned, two.planned);
  EXPECT_EQ(one.trials, two.trials);
  for (std::size_t k = 0; k < one.edges.size(); ++k) {
    EXPECT_EQ(one.edges[k].greatest, two.edges[k].greatest);
    EXPECT_EQ(one.edges[k].least, two.edges[k].least);
    EXPECT_EQ(one.edges[k].above, two.edges[k].above);
    EXPECT_EQ(one.edges[k].weight_above, two.edges[k].weight_above);
  }
}

TEST(OperatingWindow, ACellThatFailsIsKeptAndTheRestGoesOn) {
  WindowOptions options = small_grid();
  options.weights = {8e3, 16e3};
  options.rotary_speeds = {0.8, 1.7e308};  // no number holds what that heats
  options.closeness = 1e20;                // no need to look for the edge of that
  options.limits = no_limits();
  const OperatingWindow window = operating_window(one_rock(110e6, 1.0), options);
  for (std::size_t w = 0; w < 2; ++w) {
    EXPECT_TRUE(window.cell(w, 0).inside());
    EXPECT_EQ(window.cell(w, 1).limit, WindowLimit::failed);
    EXPECT_FALSE(window.cell(w, 1).failure.empty());
    EXPECT_EQ(window.cell(w, 1).weight, options.weights[w]);
  }
}

TEST(OperatingWindow, HalfWornIsHalfOfTheAllowanceAndNewIsUnworn) {
  scenario::Scenario s = one_rock(80e6, 1.0);
  s.bit.starting_wear(0) = 1e-4;
  const Eigen::ArrayXd allowed = worn_to_allowance(s).worn_height;
  const simulation::BitCondition half = window_condition(s, WindowBit::half_worn);
  EXPECT_NEAR(half.worn_height.maxCoeff(), 0.5 * *s.rules.worn_height, 1e-15);
  EXPECT_TRUE((half.worn_height >= 0.5 * allowed).all());
  EXPECT_EQ(window_condition(s, WindowBit::as_new).worn_height.maxCoeff(), 0.0);
  EXPECT_EQ(window_condition(s, WindowBit::as_it_starts).worn_height(0), 1e-4);
  WindowOptions options = small_grid();
  options.limits = no_limits();
  const OperatingWindow fresh = operating_window(s, options);
  options.bit = WindowBit::half_worn;
  const OperatingWindow dull = operating_window(s, options);
  EXPECT_LT(dull.cell(1, 1).rate_of_penetration, fresh.cell(1, 1).rate_of_penetration);
  EXPECT_GT(dull.cell(1, 1).hottest_flat, fresh.cell(1, 1).hottest_flat);
}

TEST(OperatingWindow, TheUsualGridLiesWithinPracticeInRoundSteps) {
  scenario::Scenario s = testing::short_scenario();  // 35 kN limit, 85 rpm
  s.plan[0].rotary_speed = 3.0;                      // what a plan is warned of is no reason to go there
  s.plan[0].weight_on_bit = 2.0 * s.weight_limit;
  const auto weights = weights_to_try(s);
  const auto speeds = speeds_to_try();
  ASSERT_EQ(weights.size(), 7U);
  ASSERT_EQ(speeds.size(), 10U);
  EXPECT_NEAR(weights.front() / 4.4482216152605, 1000.0, 1e-9);
  EXPECT_LE(weights.back(), s.weight_limit);
  EXPECT_NEAR(speeds.front() * 60.0, 10.0, 1e-9);
  EXPECT_NEAR(speeds.back() * 60.0, 100.0, 1e-9);
  s.weight_limit = 0.0;
  s.plan[0].weight_on_bit = 50e3;
  EXPECT_LE(weights_to_try(s).back(), 50e3);
  EXPECT_GT(weights_to_try(s).back(), 45e3);
}

/// The usual grid ends below the weight limit; the edge is looked for up to the limit itself.
TEST(OperatingWindow, TheWeightLimitIsFoundAboveTheGrid) {
  WindowOptions options = small_grid();
  options.limits = no_limits();
  options.limits->weight = 10e3;
  options.weights = {4e3, 8e3};
  options.rotary_speeds = {1.4};
  const OperatingWindow window = operating_window(one_rock(120e6, 1.0), options);
  ASSERT_TRUE(window.cell(1, 0).inside());
  const WindowEdge& edge = window.edges[0];
  ASSERT_TRUE(edge.greatest);
  EXPECT_EQ(edge.above, WindowLimit::weight);
  EXPECT_LT(*edge.greatest, 10e3);
  EXPECT_GE(*edge.greatest, 10e3 / options.closeness);
}

TEST(OperatingWindow, RefusesWhatMakesNoSense) {
  const scenario::Scenario s = one_rock(80e6, 1.0);
  const auto refused = [&](auto&& change) {
    WindowOptions options = small_grid();
    change(options);
    EXPECT_THROW(operating_window(s, options), std::domain_error);
  };
  refused([](WindowOptions& o) { o.weights = {3e3, 2e3}; });
  refused([](WindowOptions& o) { o.weights = {0.0, 2e3}; });
  refused([](WindowOptions& o) { o.rotary_speeds = {std::nan("")}; });
  refused([](WindowOptions& o) { o.flow = -1.0; });
  refused([](WindowOptions& o) { o.seconds = 0.0; });
  refused([](WindowOptions& o) { o.closeness = 1.0; });
  WindowOptions options = small_grid();
  options.layer = 1;
  EXPECT_THROW(operating_window(s, options), std::out_of_range);
}

}  // namespace
}  // namespace dullcast::analysis
