// How a run is stepped: it converges, and its steps are as long as wear allows.

#include <gtest/gtest.h>

#include <atomic>
#include <cmath>
#include <string>

#include "engine/simulation/drive.hpp"
#include "engine/simulation/outcome_views.hpp"
#include "engine/simulation/run.hpp"
#include "engine/simulation/same_outcome.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

struct Numbers {
  double rotating_time = 0.0, hottest = 0.0;
  Eigen::ArrayXd worn_height;
  long steps = 0;
};
Numbers at_tolerance(scenario::Scenario s, double tolerance) {
  s.stepping.relative_tolerance = tolerance;
  const RunOutcome outcome = run(s);
  return {outcome.rotating_time, outcome.hottest.temperature, outcome.end.worn_height, outcome.steps};
}

TEST(RunStepping, ARunThatIsToldToGiveUpDoesSoBeforeItsNextStep) {
  const scenario::Scenario scenario = testing::short_scenario();
  std::atomic<bool> give_up{false};
  int told = 0;
  const Progress at_first_layer = [&](double, int) {
    give_up = true;
    ++told;
  };
  EXPECT_THROW(run(scenario, at_first_layer, Rows::kept, &give_up), RunGivenUp);
  EXPECT_EQ(told, 1);
  give_up = false;
  testing::expect_same_bits(run(scenario, {}, Rows::kept, &give_up), run(scenario));
}

// A tolerance of 1 is worth 1 mm of wear and 100 K a step. Over tens to hundreds of steps, errors of either
// sign, the whole run's error stays within ten steps' worth and falls with the tolerance. Reference: 1e-7.
TEST(RunStepping, ConvergesAsTheToleranceTightens) {
  for (const scenario::Scenario& scenario : {testing::fast_wearing_scenario(), testing::burning_scenario()}) {
    const Numbers reference = at_tolerance(scenario, 1e-7);
    double loosest = 0.0, tightest = 0.0;
    long last_steps = 0;
    for (const double tolerance : {1e-2, 1e-3, 1e-4, 1e-5, 1e-6}) {
      const Numbers n = at_tolerance(scenario, tolerance);
      const double worn = (n.worn_height - reference.worn_height).abs().maxCoeff();
      EXPECT_LT(worn, 10.0 * tolerance * 1e-3) << tolerance;
      EXPECT_LT(std::abs(n.hottest - reference.hottest), 10.0 * tolerance * 100.0) << tolerance;
      // A burnt bit skids: nearly all of its time goes by its last, least progress.
      EXPECT_LT(std::abs(n.rotating_time - reference.rotating_time),
                10.0 * tolerance * reference.rotating_time);
      EXPECT_GT(n.steps, last_steps);
      last_steps = n.steps;
      if (tolerance == 1e-2) loosest = worn;
      tightest = worn;
    }
    // From 1e-2 to 1e-6; what is left at the end is near the depth of cut's own 1e-8.
    EXPECT_LT(tightest, loosest / 50.0);
  }
}

TEST(RunStepping, ALongLayerTakesFewStepsWhateverItsLength) {
  scenario::Scenario s = testing::short_scenario();
  s.stepping.warming = scenario::Warming::followed;
  s.repeat.connection_time = 0.0;
  const auto steps = [&](double bottom) {
    testing::give_one_layer(s, bottom, samples::invented_rock("limestone", 80e6, 1.0));
    return run(s);
  };
  const RunOutcome short_layer = steps(10.0), long_layer = steps(200.0);
  EXPECT_LT(long_layer.steps, 80);
  EXPECT_LT(long_layer.steps, short_layer.steps + 30);
  EXPECT_LT(long_layer.refused_steps, long_layer.steps / 2);
  EXPECT_GT(long_layer.rotating_time / static_cast<double>(long_layer.steps), 60.0)
      << "a minute a step, where a table's heat moves in hundredths of a second";
}

// The last step may look kilometres past a long layer's end before it is taken again to end there.
TEST(RunStepping, ALongUniformLayerDrillsToItsEnd) {
  for (const double bottom : {300.0, 700.0, 1500.0}) {
    scenario::Scenario s = testing::short_scenario();
    s.numbers.abrasion_coefficient = samples::exactly(1e-18);
    s.stepping.relative_tolerance = 1e-3;
    s.repeat.connection_time = 0.0;
    testing::give_one_layer(s, bottom, samples::invented_rock("shale", 30e6, 0.6));
    EXPECT_EQ(run(s).footage, bottom);
  }
}

TEST(RunStepping, EveryChangeOfRockIsSteppedFinelyAgain) {
  scenario::Scenario s = testing::short_scenario();
  s.stepping.warming = scenario::Warming::followed;
  s.repeat.connection_time = 0.0;
  testing::give_one_layer(s, 8.0, samples::invented_rock("limestone", 80e6, 1.0));
  const long one_layer = run(s).steps;
  const scenario::RockRecord hard = samples::invented_rock("hard sandstone", 130e6, 1.0);
  s.column.layers.clear();
  for (int k = 0; k < 4; ++k) {
    s.column.layers.push_back(
        {2.0 * k, 2.0 * k + 2.0, k % 2 ? hard : samples::invented_rock("limestone", 80e6, 1.0), 0.0, {}});
  }
  EXPECT_GT(run(s).steps, one_layer + 30);  // ten a layer more
}

// A run that creeps says so, with its place, after a bounded number of steps.
// A pump stop throws one cutter or two onto a film of steam, others come near the critical flux and fall
// back. Held implicitly, the falling part of the boiling curve kept them there: two weights in five took
// 8,000 steps.
TEST(RunStepping, ALooseToleranceHoldsNoSurfaceOnTheFallingPartOfTheBoilingCurve) {
  for (const double weight : {25.3e3, 25.4e3, 25.6e3, 26.4e3, 27.0e3}) {
    scenario::Scenario s = testing::short_scenario();
    testing::give_one_layer(s, 1.5, samples::invented_rock("granite", 180e6, 4.5));
    s.plan[0].weight_on_bit = weight;
    s.plan[0].rotary_speed = 2.5;
    s.numbers.abrasion_coefficient = samples::exactly(2e-16);
    s.upsets = {testing::flow_falls(1.0, 25.0, 0.0)};
    s.stepping.relative_tolerance = 1e-2;
    const RunOutcome loose = run(s);
    EXPECT_LT(loose.steps, 400) << weight;
    s.stepping.relative_tolerance = 1e-4;
    const RunOutcome tight = run(s);
    const HistoryRow &a = loose.history.rows.back(), &b = tight.history.rows.back();
    EXPECT_TRUE((a.film == b.film).all()) << weight;
    EXPECT_GT(b.film.sum(), 0.0) << weight;
    EXPECT_LT((a.table_temperature - b.table_temperature).abs().maxCoeff(), 5.0) << weight;
  }
}

// Dull flats in hard rock run so hot that it softens under them. While the matrix knew nothing of friction
// that falls as it does, steps threw the hottest flat to and fro by 3 K, 0.4 s at a time, for ever.
TEST(RunStepping, FrictionThatFallsAsRockSoftensThrowsNoStepsToAndFro) {
  scenario::Scenario s = testing::short_scenario();
  testing::give_one_layer(s, 0.5, samples::invented_rock("granite", 215.781e6, 2.65544));
  s.plan[0].weight_on_bit = 53819.3;
  s.plan[0].rotary_speed = 1.97488;
  s.plan[0].flow = 2.59131e-3;
  s.bit.starting_wear.setConstant(1.79363e-3);
  s.repeat.connection_time = 0.0;
  // Seats that hold whatever comes: heat alone acts.
  s.numbers.braze_strength = samples::exactly(1e12);
  s.bit.kinds.front().grade.bond_strength = samples::exactly(1e12);
  s.bit.body.strength = samples::exactly(1e12);
  s.stepping.relative_tolerance = 1e-2;
  const Progress none;
  const RunOutcome loose = Drive(s, none, Rows::kept, 6000).drill_all();
  EXPECT_GT(loose.hottest.temperature, s.numbers.rock_softens.central);
  EXPECT_LT(loose.steps, 3000);
  EXPECT_LT(std::abs(loose.energy_residual), 1e-2 * loose.energy);
  s.stepping.relative_tolerance = 1e-4;
  const RunOutcome tight = run(s);
  EXPECT_NEAR(loose.rotating_time / tight.rotating_time, 1.0, 1e-2);
  EXPECT_LT((loose.end.worn_height - tight.end.worn_height).abs().maxCoeff(), 1e-5);
}

TEST(RunStepping, EndsInBoundedStepsAndSaysWhere) {
  scenario::Scenario s = testing::even_hole(5.0);
  s.stepping.warming = scenario::Warming::followed;
  const Progress none;
  EXPECT_NO_THROW(Drive(s, none).drill_all());
  try {
    Drive(s, none, Rows::kept, 3).drill_all();
    FAIL() << "three steps do not drill a hole";
  } catch (const std::runtime_error& error) {
    const std::string said = error.what();
    EXPECT_EQ(said.find("hole 1, depth 0."), 0u) << said;
    EXPECT_NE(said.find(" m: the run gets no further: 3 steps in a row without an event"), said.npos) << said;
  }
}

}  // namespace
}  // namespace dullcast::simulation
