// A bit off bottom cools in closed form, beside the exponential and beside steps in time.

#include "engine/simulation/cooling_off.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/simulation/linearly_implicit_stepper.hpp"
#include "engine/simulation/resting_state.hpp"
#include "engine/simulation/schedule.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

// y phi(-y) = 1 - e^-y, which is what of a decay is done, over all rates from hardly begun to long done.
TEST(CoolingOff, SeriesIsTheExponentialAtEveryRate) {
  for (const double tolerance : {1e-1, 1e-2, 1e-3, 1e-4, 1e-6}) {
    const int degree = CoolingOff::degree_for(tolerance);
    const double pole = CoolingOff::pole_for(degree);
    const std::vector<double> series = CoolingOff::series(degree, pole);
    ASSERT_EQ(series.size(), static_cast<std::size_t>(degree) + 1);
    for (double y = 1e-4; y < 1e8; y *= 1.3) {
      const double u = pole / (pole + y), at = 2.0 * u - 1.0;
      double before = 1.0, last = at, sum = series[0] + series[1] * at;
      for (std::size_t k = 2; k < series.size(); ++k) {
        const double next = 2.0 * at * last - before;
        before = last;
        last = next;
        sum += series[k] * last;
      }
      EXPECT_NEAR((1.0 - u) * sum, -std::expm1(-y), tolerance / 60.0) << tolerance << ", y " << y;
    }
  }
}

struct LiftedBit {
  explicit LiftedBit(bool pump)
      : scenario(testing::short_scenario()),
        models((scenario.repeat.pump_at_connections = pump, assemble(scenario))),
        schedule(scenario, models),
        system(models),
        x(State::Zero(system.layout().size())) {
    rest(models, x);
    schedule.begin_hole(0, 0.0);
    schedule.follow(models.intervals.front());
    lifted = schedule.while_connecting();
    system.enter(lifted);
    const StateLayout& layout = system.layout();
    layout.worn(x) = 3e-4;
    // Hot as after drilling, each part otherwise, below what boils.
    for (Eigen::Index i = 0; i < layout.cutters; ++i)
      for (Eigen::Index k = 0; k < thermal::cutter_parts; ++k)
        layout.parts(x)(i, k) = 350.0 - 8.0 * static_cast<double>(k) - static_cast<double>(i);
    x(layout.body()) = 320.0;
    x(layout.warm()) = 315.0;
  }
  scenario::Scenario scenario;
  RunModels models;
  Schedule schedule;
  DrillingSystem system;
  State x;
  DrillingInterval lifted;
};

class ABitOffBottom : public ::testing::TestWithParam<bool> {};

// Every store of heat, to the tolerance's worth of a kelvin a step; looser tolerances take fewer evaluations.
TEST_P(ABitOffBottom, CoolsAsFollowedInTime) {
  for (const double seconds : {1.0, 20.0, 300.0}) {
    LiftedBit bit(GetParam());
    State followed = bit.x;
    LinearlyImplicitStepper in_time(followed.size(), 1e-7);
    double t = 0.0, dt = 0.01;
    while (t < seconds) {
      dt = std::min(dt, seconds - t);
      in_time.try_step(std::ref(bit.system), followed, t, dt);
    }
    long more = 0;
    for (const double tolerance : {1e-4, 1e-3, 1e-2}) {
      State x = bit.x;
      const long before = bit.system.evaluations();
      ASSERT_TRUE(CoolingOff(bit.system, tolerance).cool(x, seconds));
      const long evaluations = bit.system.evaluations() - before;
      if (more > 0) {
        EXPECT_LE(evaluations, more);
      }
      more = evaluations;
      const Eigen::Index heat = bit.system.layout().first(Block::settled);
      EXPECT_LE((x - followed).head(heat).cwiseAbs().maxCoeff(), 3.0 * tolerance * 100.0) << tolerance;
      EXPECT_NEAR(x(bit.system.layout().body()), followed(bit.system.layout().body()),
                  3.0 * tolerance * 100.0);
      EXPECT_EQ(x.tail(x.size() - bit.system.layout().slow_from()),
                bit.x.tail(x.size() - bit.system.layout().slow_from()));
    }
    EXPECT_LE(more, 6) << "at 1e-2";
  }
}

INSTANTIATE_TEST_SUITE_P(PumpOffAndOn, ABitOffBottom, ::testing::Bool());

}  // namespace
}  // namespace dullcast::simulation
