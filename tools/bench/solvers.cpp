// The hard layer by the engine and by solvers for any stiff system. General solvers are given the same
// right-hand side with forces found anew at every evaluation, and nothing else; an error of a step is held to
// the tolerance times (|x| + the engine's scale of errors).
#include <benchmark/benchmark.h>

#include <cmath>
#include <functional>
#include <vector>

#include "engine/simulation/linearly_implicit_stepper.hpp"
#include "engine/simulation/run.hpp"
#include "engine/simulation/schedule.hpp"
#include "tools/bench/benchmarks.hpp"
#include "tools/bench/cases.hpp"
#include "tools/bench/rosenbrock.hpp"
#ifdef DULLCAST_CVODE
#include "solver_proof/cvode.hpp"
#endif

namespace dullcast::bench {
namespace {

using simulation::State;

/// Takes x from 0 to `until` (s); returns the number of steps.
using Solve = std::function<long(LayerProblem& problem, double tolerance, double until, State& x)>;

void solver(const std::string& name, int power, const Solve& solve) {
  benchmark::RegisterBenchmark(("layer/" + name + "/" + tolerance_name(power)).c_str(),
                               [=](benchmark::State& state) {
                                 const double until = layer_end().time;
                                 State x;
                                 long steps = 0, evaluations = 0;
                                 try {
                                   for ([[maybe_unused]] auto turn : state) {
                                     LayerProblem problem;
                                     x = problem.start();
                                     steps = solve(problem, std::pow(10.0, -power), until, x);
                                     evaluations = problem.evaluations();
                                   }
                                 } catch (const std::exception& error) {
                                   state.SkipWithError(error.what());
                                   return;
                                 }
                                 const LayerErrors errors = errors_of(x);
                                 state.counters["steps"] = static_cast<double>(steps);
                                 state.counters["right_hand_sides"] = static_cast<double>(evaluations);
                                 state.counters["error_drilled"] = errors.drilled;
                                 state.counters["error_worn"] = errors.worn;
                                 state.counters["error_hazard"] = errors.chip_hazard;
                               })
      ->Unit(benchmark::kMillisecond);
}

long by_the_stepper_alone(LayerProblem& problem, double tolerance, double until, State& x) {
  simulation::LinearlyImplicitStepper stepper(x.size(), tolerance);
  double t = 0.0, dt = 1e-3;
  while (until - t > simulation::same_time) {
    dt = std::min(dt, until - t);
    stepper.try_step(std::ref(problem.system()), x, t, dt);
  }
  return stepper.steps();
}

long by_rosenbrock4(LayerProblem& problem, double tolerance, double until, State& x) {
  const State& scale = problem.scale();
  // In multiples of the scale of errors, so that one tolerance serves all entries.
  std::vector<double> z(static_cast<std::size_t>(x.size()));
  Eigen::Map<State> scaled(z.data(), x.size());
  scaled = x.cwiseQuotient(scale);
  State slope = x;
  const long steps = solve_by_rosenbrock4(
      [&](const double* at, double* rate) {
        x = Eigen::Map<const State>(at, x.size()).cwiseProduct(scale);
        problem.slope(x, slope);
        Eigen::Map<State>(rate, x.size()) = slope.cwiseQuotient(scale);
      },
      tolerance, until, z);
  x = scaled.cwiseProduct(scale);
  return steps;
}

#ifdef DULLCAST_CVODE
long by_cvode(LayerProblem& problem, double tolerance, double until, State& x) {
  testing::Cvode cvode(x, 0.0, tolerance * problem.scale(), [&](const State& at, State& rate) {
    problem.slope(at, rate);
    return true;
  });
  cvode.restart(0.0, x, until);
  while (until - cvode.time() > simulation::same_time) cvode.step();
  cvode.state_at(cvode.time(), x);
  return cvode.steps();
}
#endif

/// A whole run of the layer by the engine, which ends at its depth: what is late there is short here.
void engine(const std::string& name, scenario::Warming warming, int power) {
  benchmark::RegisterBenchmark(("layer/" + name + "/" + tolerance_name(power)).c_str(), [=](benchmark::State&
                                                                                                state) {
    scenario::Scenario s = hard_layer_alone();
    s.stepping.warming = scenario::Warming::followed;
    s.stepping.relative_tolerance = 1e-6;
    static const simulation::RunOutcome right = simulation::run(s, {}, simulation::Rows::left_out);
    s.stepping.warming = warming;
    s.stepping.relative_tolerance = std::pow(10.0, -power);
    simulation::RunOutcome run;
    for ([[maybe_unused]] auto turn : state) run = simulation::run(s, {}, simulation::Rows::left_out);
    state.counters["steps"] = static_cast<double>(run.steps);
    state.counters["right_hand_sides"] = static_cast<double>(run.right_hand_sides);
    state.counters["error_drilled"] = std::abs(run.rotating_time / right.rotating_time - 1.0);
    const double worn = right.end.worn_height.maxCoeff();
    state.counters["error_worn"] = std::abs(run.end.worn_height.maxCoeff() - worn) / (worn - worn_before);
    state.counters["error_hazard"] = std::abs(run.end.chip_hazard.sum() / right.end.chip_hazard.sum() - 1.0);
  })->Unit(benchmark::kMillisecond);
}

}  // namespace

void register_solvers() {
  for (const int power : {2, 3, 4, 5}) {
    engine("engine, where it matters", scenario::Warming::where_it_matters, power);
    engine("engine, followed", scenario::Warming::followed, power);
    solver("engine's stepper alone", power, by_the_stepper_alone);
  }
#ifdef DULLCAST_CVODE
  for (const int power : {3, 4, 5, 6}) solver("CVODE", power, by_cvode);
#endif
  for (const int power : {3, 4, 5}) solver("rosenbrock4", power, by_rosenbrock4);
}

}  // namespace dullcast::bench
