// What a stop for a rod does, beside following one in time.

#include "engine/simulation/rod_stops.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/simulation/bench.hpp"
#include "engine/simulation/resting_state.hpp"
#include "engine/simulation/schedule.hpp"
#include "engine/simulation/settled_stepper.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

/// A settled bit in the first interval, worn a little, with the interval as it is while a rod is added.
struct SettledBit {
  explicit SettledBit(scenario::Scenario given)
      : scenario(std::move(given)),
        models(assemble(scenario)),
        system(models),
        schedule(scenario, models),
        x(State::Zero(system.layout().size())) {
    rest(models, x);
    schedule.begin_hole(0, 0.0);
    schedule.follow(models.intervals.front());
    system.let_forces_stand(1e-6);
    system.enter(models.intervals.front());
    system.layout().worn(x) = 3e-4;
    SettledStepper stepper(system, 1e-2);
    settled = stepper.settle(x, 0.0);
    slope = stepper.slope();
    lifted = schedule.while_connecting();
  }
  scenario::Scenario scenario;
  RunModels models;
  DrillingSystem system;
  Schedule schedule;
  State x, slope;
  bool settled = false;
  DrillingInterval lifted;
};

State followed_off_bottom(SettledBit& bit, double seconds) {
  DrillingSystem off(bit.models);
  off.enter(bit.lifted);
  LinearlyImplicitStepper in_time(bit.x.size(), 1e-7);
  State x = bit.x;
  double t = 0.0, dt = 0.01;
  while (t < seconds) {
    dt = std::min(dt, seconds - t);
    in_time.try_step(std::ref(off), x, t, dt);
  }
  return x;
}

class StopsOfARod : public ::testing::TestWithParam<bool> {};

// The hottest table as the flow comes back, to the tolerance's worth of a kelvin, with the pump off and on.
TEST_P(StopsOfARod, CoolAsFollowedInTime) {
  scenario::Scenario s = testing::short_scenario();
  s.repeat.pump_at_connections = GetParam();
  SettledBit bit(s);
  ASSERT_TRUE(bit.settled);
  for (const double seconds : {5.0, 60.0, 300.0}) {
    const State cold = followed_off_bottom(bit, seconds);
    for (const double tolerance : {1e-2, 1e-3}) {
      RodStops stops(bit.models, bit.system, tolerance);
      stops.enter(bit.models.intervals.front(), bit.lifted, seconds);
      RodStops::Stop stop;
      ASSERT_TRUE(stops.stop(bit.x, stop));
      EXPECT_NEAR(stop.hottest_table, bit.system.layout().table(cold).maxCoeff(), 3.0 * tolerance * 100.0);
      EXPECT_EQ(stop.flow_returns, !GetParam());
      // Edges are struck as the bit is set down; nothing else of the bit moves, nor does it drill.
      const StateLayout& layout = bit.system.layout();
      const Eigen::Index slow = layout.slow_from();
      EXPECT_EQ(stop.gained(layout.depth() - slow), 0.0);
      EXPECT_LT(stop.gained.head(layout.cutters).cwiseAbs().maxCoeff(), tolerance * 1e-3);
      EXPECT_NEAR(stop.gained(layout.carried() - slow) + stop.gained(layout.left_in_rock() - slow),
                  stop.gained(layout.spent() - slow),
                  1e-9 * std::abs(stop.gained(layout.spent() - slow)) + 1e-9);
    }
  }
}

INSTANTIATE_TEST_SUITE_P(PumpOffAndOn, StopsOfARod, ::testing::Bool());

// Where the stepped system stands, its forces serve; it stands there afterwards as if nothing had been.
TEST(RodStops, TakeForcesFromWhereTheBitStands) {
  SettledBit bit(testing::short_scenario());
  ASSERT_TRUE(bit.settled);
  RodStops stops(bit.models, bit.system, 1e-2);
  stops.enter(bit.models.intervals.front(), bit.lifted, 60.0);
  RodStops::Stop anew, here;
  ASSERT_TRUE(stops.stop(bit.x, anew));
  const double power = bit.system.evaluation().power;
  const Eigen::ArrayXd flats = bit.system.evaluation().heats.flat_temperature;
  const long forces = bit.system.evaluations();
  ASSERT_TRUE(stops.stop_here(bit.x, bit.slope, here));
  EXPECT_GT(bit.system.evaluations(), forces);
  EXPECT_EQ(bit.system.evaluation().power, power);
  EXPECT_TRUE((bit.system.evaluation().heats.flat_temperature == flats).all());
  EXPECT_EQ(here.hottest_table, anew.hottest_table) << "cooled once";
  const StateLayout& layout = bit.system.layout();
  const Eigen::Index hazards = layout.first(Block::chip_hazard) - layout.slow_from();
  const Eigen::VectorXd a = anew.gained.segment(hazards, layout.cutters),
                        b = here.gained.segment(hazards, layout.cutters);
  EXPECT_GT(a.maxCoeff(), 0.0);
  EXPECT_LE((a - b).cwiseAbs().maxCoeff(), 1e-3 * a.maxCoeff());
}

// A flat that boils off bottom past its critical flux would be told of: it has to be followed.
TEST(RodStops, RefuseWhereWaterMightBoil) {
  SettledBit bit(testing::short_scenario());
  ASSERT_TRUE(bit.settled);
  RodStops stops(bit.models, bit.system, 1e-2);
  stops.enter(bit.models.intervals.front(), bit.lifted, 60.0);
  State hot = bit.x;
  bit.system.layout().parts(hot) = 900.0;
  RodStops::Stop stop;
  EXPECT_FALSE(stops.stop(hot, stop));
}

}  // namespace
}  // namespace dullcast::simulation
