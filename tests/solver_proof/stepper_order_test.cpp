// The order of the engine's stepper on the drilling system itself, where it is smooth: one rock, one setting,
// worn flats (at no wear the flat's area starts as a square root), nothing boils. CVODE says what is exact.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <vector>

#include "engine/simulation/bench.hpp"
#include "engine/simulation/linearly_implicit_stepper.hpp"
#include "solver_proof/cvode.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::solver_proof {
namespace {

using testing::Bench;
using testing::Cvode;

/// A half-worn bit in an even rock, wearing fast.
struct SmoothCase {
  SmoothCase() : bench(scenario()), start(testing::resting_state(bench.system.layout(), 300.0, 1.0)) {
    bench.system.layout().worn(start).setConstant(1e-3);
  }
  static scenario::Scenario scenario() {
    scenario::Scenario s = testing::even_hole(200.0);
    s.plan[0].weight_on_bit = 5e3;
    s.numbers.blade_bearing_ratio = samples::exactly(1e-12);
    s.numbers.abrasion_coefficient = samples::exactly(1e-15);
    return s;
  }
  simulation::State exact(simulation::State x, double span) {
    const simulation::State scale =
        bench.system.error_scale().array().isFinite().select(bench.system.error_scale().array(), 1e9);
    Cvode cvode(x, 1e-12, 1e-12 * scale, [this](const simulation::State& at, simulation::State& slope) {
      bench.system(at, slope, 0.0);
      return true;
    });
    cvode.restart(0.0, x, span);
    while (cvode.time() < span) cvode.step();
    cvode.state_at(span, x);
    return x;
  }
  simulation::State stepped(simulation::State x, double span, int steps) {
    // A tolerance so wide that every step passes: their size is ours.
    simulation::LinearlyImplicitStepper stepper(x.size(), 1e9);
    double t = 0.0;
    for (int k = 0; k < steps; ++k) {
      double dt = span / steps;
      EXPECT_EQ(stepper.try_step(std::ref(bench.system), x, t, dt), boost::numeric::odeint::success);
    }
    return x;
  }
  /// Worst error of temperatures (K) and of worn heights (m).
  struct Errors {
    double temperature, worn;
  };
  Errors errors(const simulation::State& x, const simulation::State& exact) const {
    const simulation::StateLayout& layout = bench.system.layout();
    return {(x - exact).head(layout.water()).cwiseAbs().maxCoeff(),
            (layout.worn(x) - layout.worn(exact)).abs().maxCoeff()};
  }
  Bench bench;
  simulation::State start;
};

std::vector<SmoothCase::Errors> halving_steps(SmoothCase& smooth, const simulation::State& start, double span,
                                              const std::vector<int>& steps) {
  const simulation::State exact = smooth.exact(start, span);
  std::vector<SmoothCase::Errors> list;
  for (const int n : steps) {
    list.push_back(smooth.errors(smooth.stepped(start, span, n), exact));
    const auto& now = list.back();
    std::printf("  %5d steps of %8.4f s: %.2e K, %.2e um", n, span / n, now.temperature, 1e6 * now.worn);
    if (list.size() > 1) {
      const auto& before = list[list.size() - 2];
      std::printf(", order %.2f, %.2f", std::log2(before.temperature / now.temperature),
                  std::log2(before.worn / now.worn));
    }
    std::printf("\n");
  }
  return list;
}

// Steps that resolve the heat: the method's own order, 3 (its coefficients meet the conditions of third order
// for any matrix). Worn heights are exact to their last bits here.
TEST(StepperOrder, IsThreeWhereStepsResolveTheHeat) {
  SmoothCase smooth;
  const auto errors = halving_steps(smooth, smooth.start, 0.4, {16, 32, 64, 128, 256});
  for (std::size_t k = 1; k < errors.size(); ++k)
    EXPECT_NEAR(std::log2(errors[k - 1].temperature / errors[k].temperature), 3.0, 0.3);
}

// Steps of minutes, thousands of times longer than the heat's fastest lag: temperatures follow wear. What the
// matrix leaves out then costs the method one order, as stiff problems do (order reduction: Hairer & Wanner,
// Solving Ordinary Differential Equations II, ch. IV.15 [pub, from memory]). Worn heights pass hand-overs
// between cutters, where the slope has corners, so their order is taken from end to end, and what is left at
// the end is the depth of cut's own rounding.
TEST(StepperOrder, IsTwoWhereStepsAreOfMinutes) {
  SmoothCase smooth;
  const simulation::State warm = smooth.exact(smooth.start, 120.0);
  const auto errors = halving_steps(smooth, warm, 4000.0, {8, 16, 32, 64, 128, 256});
  for (std::size_t k = 1; k < errors.size(); ++k)
    EXPECT_NEAR(std::log2(errors[k - 1].temperature / errors[k].temperature), 2.0, 0.2);
  EXPECT_GT(std::log2(errors.front().worn / errors.back().worn) / 5.0, 1.6);
}

// The depth of cut is found by secants from a remembered guess. What the guess was must not matter, or no
// solver's error control could work below it.
TEST(RightHandSide, ForgetsItsFirstGuess) {
  SmoothCase smooth;
  simulation::State x = smooth.exact(smooth.start, 5.0);
  const simulation::State scale = smooth.bench.system.error_scale();
  Bench& bench = smooth.bench;
  double worst = 0.0, worst_cut = 0.0;
  for (const double far : {1e-12, 1e-10, 1e-8, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2, 1e-1}) {
    for (const double side : {-1.0, 1.0}) {
      simulation::State other = x;
      bench.system.layout().worn(other) *= 1.0 + side * far;
      Bench clean(SmoothCase::scenario());
      const simulation::State reference = clean.evaluate(x);
      const double cut = clean.system.evaluation().forces.balance.depth_of_cut;
      bench.evaluate(other);
      const simulation::State after = bench.evaluate(x);
      worst_cut =
          std::max(worst_cut, std::abs(bench.system.evaluation().forces.balance.depth_of_cut / cut - 1.0));
      worst = std::max(worst, ((after - reference).array().abs() / scale.array()).maxCoeff());
    }
  }
  std::printf("  depth of cut to %.1e, slopes to %.1e of their scales a second\n", worst_cut, worst);
  // Far below the 1e-8 at which the secants stop: their last correction's error is its square.
  EXPECT_LT(worst_cut, 1e-12);
}

}  // namespace
}  // namespace dullcast::solver_proof
