// The right-hand side where things go wrong: boiling, films, a hole running dry, packed slots, mist, a lost
// cutter. The ledger must close there as anywhere, nothing may allocate, and no NaN may pass.

#include <gtest/gtest.h>

#include <cmath>
#include <exception>
#include <functional>
#include <limits>
#include <vector>

#include "engine/simulation/allocation_count.hpp"
#include "engine/simulation/bench.hpp"
#include "engine/simulation/linearly_implicit_stepper.hpp"
#include "models/materials/saturated_water.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

using testing::Bench;
using testing::RandomStates;

scenario::Scenario air_with_mist() {
  scenario::Scenario s = testing::short_scenario();
  s.fluid = samples::invented_air();
  s.plan[0].flow = 0.15;
  s.plan[0].mist_water = 2e-5;
  return s;
}

/// A situation: a scenario, what it does to a random state, and proof that the state is in it.
struct Situation {
  const char* name;
  scenario::Scenario scenario;
  std::function<void(State&, const StateLayout&, RandomStates&)> make;
  std::function<bool(const Evaluation&)> is_there;
};

std::vector<Situation> situations() {
  const double saturation = materials::saturation_temperature(standard_atmosphere + 999.0 * standard_gravity);
  scenario::Scenario pumping = testing::short_scenario(), still = pumping, drained = pumping,
                     throttled = pumping;
  still.plan[0].flow = 0.0;
  drained.plan[0].flow = 0.0;
  drained.column.water_level = 50.0;
  throttled.pump_pressure_limit = 2e5;
  const auto hot = [](State& x, const StateLayout& layout, double T) {
    layout.table(x) = T;
    layout.carbide(x) = T - 50.0;
    x(layout.body()) = x(layout.warm()) = 450.0;
  };
  return {
      {"nucleate boiling in a stream", pumping,
       [=](State& x, const StateLayout& layout, RandomStates&) { hot(x, layout, saturation + 20.0); },
       [](const Evaluation& now) {
         return now.heats.table_flux.minCoeff() > 0.0 && now.heats.film.maxCoeff() == 0.0;
       }},
      {"a film of steam", pumping,
       [=](State& x, const StateLayout& layout, RandomStates&) { hot(x, layout, 900.0); },
       [](const Evaluation& now) { return now.heats.film.minCoeff() == 1.0; }},
      {"water at saturation boils away while some falls back", still,
       [=](State& x, const StateLayout& layout, RandomStates& random) {
         hot(x, layout, 800.0);
         x(layout.fluid()) = saturation - random.between(0.0, 1.5);
         x(layout.water()) = random.between(0.05, 0.9);
       },
       [](const Evaluation& now) { return now.water.steam > 0.0 && now.cooling.boils; }},
      {"water past saturation flashes", still,
       [=](State& x, const StateLayout& layout, RandomStates& random) {
         hot(x, layout, 800.0);
         x(layout.fluid()) = saturation + random.between(0.0, 30.0);
       },
       [](const Evaluation& now) { return now.water.steam > 0.0; }},
      {"the last water of a drained hole", drained,
       [=](State& x, const StateLayout& layout, RandomStates& random) {
         hot(x, layout, 800.0);
         x(layout.fluid()) = 373.0;
         x(layout.water()) = random.between(0.0, 0.03);
       },
       [](const Evaluation& now) { return now.cooling.wetted_share < 0.2; }},
      {"no water left", drained,
       [=](State& x, const StateLayout& layout, RandomStates& random) {
         hot(x, layout, 900.0);
         x(layout.fluid()) = random.between(400.0, 900.0);
         x(layout.water()) = 0.0;
       },
       [](const Evaluation& now) { return now.cooling.wetted_share == 0.0; }},
      {"packed slots, the pump running", pumping,
       [](State& x, const StateLayout& layout, RandomStates& random) {
         x(layout.solids()) = random.between(0.55, 0.58);
       },
       [](const Evaluation& now) { return now.bottom.slot.packing == 1.0; }},
      {"packed slots that choke the pump", throttled,
       [](State& x, const StateLayout& layout, RandomStates& random) {
         x(layout.solids()) = random.between(0.4, 0.57);
       },
       [](const Evaluation& now) { return now.bottom.slot.packing > 0.3; }},
      {"air with mist", air_with_mist(),
       [](State& x, const StateLayout& layout, RandomStates& random) {
         x(layout.fluid()) = random.between(280.0, 600.0);
       },
       [](const Evaluation& now) { return !now.cooling.boils && now.power > 0.0; }},
  };
}

// First law: work in = heat carried off + left in the rock + stored. Some fifty flows are summed, each known
// to 1e-16 of itself.
TEST(DrillingLedger, ClosesInEverySituation) {
  for (const Situation& situation : situations()) {
    Bench bench(situation.scenario);
    RandomStates random = bench.random();
    for (int trial = 0; trial < 20; ++trial) {
      State x = random.draw();
      situation.make(x, bench.system.layout(), random);
      EXPECT_NEAR(testing::ledger_gap(bench, x), 0.0, 1e-13) << situation.name;
      EXPECT_TRUE(situation.is_there(bench.system.evaluation())) << situation.name;
    }
  }
}

TEST(DrillingLedger, NothingAllocatesInAnySituation) {
  for (const Situation& situation : situations()) {
    Bench bench(situation.scenario);
    RandomStates random = bench.random();
    std::vector<State> states;
    for (int trial = 0; trial < 20; ++trial) {
      states.push_back(random.draw());
      situation.make(states.back(), bench.system.layout(), random);
    }
    bench.evaluate(states[0]);
    bench.system.linearise();
    const long before = testing::allocations();
    for (const State& x : states) {
      bench.system(x, bench.slope, 0.0);
      bench.system.linearise();
      bench.system.thermal_matrix().factorise(10.0);
      bench.system.thermal_matrix().solve(bench.slope);
    }
    EXPECT_EQ(testing::allocations() - before, 0) << situation.name;
  }
}

// Trial stages of a step look anywhere: below no water, past packed, at temperatures below zero. There the
// slope must be finite, so that the step is refused by its error and not by an exception.
TEST(DrillingLedger, WildTrialStatesGiveFiniteSlopes) {
  for (const Situation& situation : situations()) {
    Bench bench(situation.scenario);
    const StateLayout& layout = bench.system.layout();
    RandomStates random = bench.random();
    for (int trial = 0; trial < 60; ++trial) {
      State x = random.draw();
      situation.make(x, layout, random);
      x(layout.water()) = random.between(-0.5, 2.0);
      x(layout.solids()) = random.between(-0.5, 1.2);
      x(layout.fluid()) = random.between(-200.0, 3000.0);
      x(layout.warm()) = random.between(-200.0, 3000.0);
      layout.table(x)(trial % layout.cutters) = random.between(-200.0, 5000.0);
      EXPECT_TRUE(bench.evaluate(x).allFinite()) << situation.name;
    }
  }
}

// Whatever entry is not a number, the evaluation throws or the step is refused.
TEST(DrillingLedger, ANumberThatIsNotOneIsRefusedInEverySituation) {
  for (const Situation& situation : situations()) {
    Bench bench(situation.scenario);
    const StateLayout& layout = bench.system.layout();
    RandomStates random = bench.random();
    State x = random.draw();
    situation.make(x, layout, random);
    // Nothing reads the sums; of damage and hazard the chip rate reads damage where something is cut.
    for (Eigen::Index k = 0; k < layout.spent(); ++k) {
      State broken = x;
      broken(k) = std::numeric_limits<double>::quiet_NaN();
      LinearlyImplicitStepper stepper(x.size(), 1e-3);
      Bench fresh(situation.scenario);
      double t = 0.0, dt = 1e-3;
      bool refused = false;
      try {
        refused = stepper.try_step(std::ref(fresh.system), broken, t, dt) ==
                  boost::numeric::odeint::controlled_step_result::fail;
      } catch (const std::exception&) {
        refused = true;
      }
      EXPECT_TRUE(refused) << situation.name << ", entry " << k;
    }
  }
}

// Engagement identity (sum of areas = d (R - r_core) at any wear, see sharp_bit_test.cpp): a lost cutter's
// stub stands clear of the rock, and its neighbours cut what it leaves.
TEST(DrillingLedger, ALostCuttersCutGoesToItsNeighbours) {
  scenario::Scenario scenario = samples::invented_scenario();
  scenario.plan[0].feed_limit = 10.0 / 3600.0;  // one depth of cut before and after
  Bench bench(scenario);
  const StateLayout& layout = bench.system.layout();
  const geometry::BitLayout& bit = bench.models.bit.bit;
  const Eigen::Index lost = 9;
  const State x = testing::resting_state(layout, 300.0, 1.0);
  bench.evaluate(x);
  const Evaluation& now = bench.system.evaluation();
  const Eigen::ArrayXd before = now.forces.loads.area;
  const double weight_before = now.forces.balance.weight;
  ASSERT_GT(before(lost), 0.0);
  bench.system.set_lost(lost);
  EXPECT_TRUE(bench.system.lost(lost));
  const State rate = bench.evaluate(x);
  EXPECT_EQ(now.forces.loads.area(lost), 0.0);
  EXPECT_EQ(now.forces.tangential_force(lost), 0.0);
  EXPECT_NEAR(now.forces.loads.area.sum(), before.sum(), 1e-9 * before.sum());
  // Who cuts more are those that reach the same radii, and they cut all of it.
  double gained = 0.0;
  for (Eigen::Index i = 0; i < layout.cutters; ++i) {
    if (i == lost) continue;
    const double change = now.forces.loads.area(i) - before(i);
    gained += change;
    EXPECT_GT(change, -1e-9 * before(i)) << i;
    if (std::abs(bit.radius(i) - bit.radius(lost)) > 2.0 * bit.shapes.front().radius) {
      EXPECT_NEAR(change, 0.0, 1e-9 * before(i)) << i;
    }
  }
  EXPECT_NEAR(gained, before(lost), 1e-9 * before.sum());
  EXPECT_NE(now.forces.balance.weight, weight_before);
  EXPECT_EQ(layout.worn(rate)(lost), 0.0);
  EXPECT_EQ(layout.damage(rate)(lost), 0.0);
  EXPECT_EQ(layout.chip_hazard(rate)(lost), 0.0);
  EXPECT_NEAR(testing::ledger_gap(bench, x), 0.0, 1e-13);
}

}  // namespace
}  // namespace dullcast::simulation
