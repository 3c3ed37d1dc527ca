// Whole runs: what they cost and how far they are from runs whose heat is followed at a tolerance of 1e-6.
#include <benchmark/benchmark.h>

#include <cmath>
#include <map>

#include "engine/simulation/run.hpp"
#include "tools/bench/benchmarks.hpp"
#include "tools/bench/cases.hpp"
#ifdef DULLCAST_CVODE
#include "solver_proof/exact_run.hpp"
#endif

namespace dullcast::bench {
namespace {

simulation::RunOutcome drill(const scenario::Scenario& scenario) {
  return simulation::run(scenario, {}, simulation::Rows::left_out);
}

const simulation::RunOutcome& exact(const Variant& variant) {
  static std::map<std::string, simulation::RunOutcome> known;
  const auto found = known.find(variant.name);
  if (found != known.end()) return found->second;
  scenario::Scenario s = target(variant.sets);
  s.stepping.relative_tolerance = 1e-6;
  s.stepping.warming = scenario::Warming::followed;
  return known.emplace(variant.name, drill(s)).first->second;
}

double relative(double value, double exact) {
  return exact == value ? 0.0 : std::abs(value / exact - 1.0);
}

void engine_run(benchmark::State& state, const Variant& variant, scenario::Warming warming,
                double tolerance) {
  scenario::Scenario s = target(variant.sets);
  s.stepping.relative_tolerance = tolerance;
  s.stepping.warming = warming;
  const simulation::RunOutcome& right = exact(variant);
  simulation::RunOutcome run;
  for ([[maybe_unused]] auto turn : state) run = drill(s);
  state.counters["steps"] = static_cast<double>(run.steps);
  state.counters["right_hand_sides"] = static_cast<double>(run.right_hand_sides);
  state.counters["hours"] = right.rotating_time / 3600.0;
  state.counters["worn_mm"] = right.end.worn_height.maxCoeff() * 1e3;
  state.counters["hottest_K"] = right.hottest.temperature - s.inlet_temperature;
  state.counters["hazard"] = right.end.chip_hazard.sum();
  state.counters["chips"] = right.end.chips.sum();
  state.counters["error_time"] = relative(run.rotating_time, right.rotating_time);
  state.counters["error_worn"] = relative(run.end.worn_height.maxCoeff(), right.end.worn_height.maxCoeff());
  state.counters["error_hottest"] = std::abs(run.hottest.temperature - right.hottest.temperature) /
                                    (right.hottest.temperature - s.inlet_temperature);
  state.counters["error_hazard"] = relative(run.end.chip_hazard.sum(), right.end.chip_hazard.sum());
}

#ifdef DULLCAST_CVODE
void cvode_run(benchmark::State& state, int power) {
  const Variant& plain = variants().front();
  const scenario::Scenario s = target(plain.sets);
  const simulation::StateLayout layout(s.bit.layout.count());
  const simulation::RunOutcome& right = exact(plain);
  testing::ExactRun run;
  for ([[maybe_unused]] auto turn : state) run = testing::drill_exactly(s, std::pow(10.0, -power), {});
  state.counters["steps"] = static_cast<double>(run.steps);
  state.counters["right_hand_sides"] = static_cast<double>(run.right_hand_sides);
  // Without rods a hole's time is all spent rotating. Leaps of the chip hazard are not CVODE's, and its
  // hottest flat is not kept.
  state.counters["error_time"] = relative(run.events.back().time, right.rotating_time);
  state.counters["error_worn"] = relative(layout.worn(run.end).maxCoeff(), right.end.worn_height.maxCoeff());
}
#endif

}  // namespace

void register_runs() {
  for (const Variant& variant : variants())
    for (const auto& [name, warming] : {std::pair("where it matters", scenario::Warming::where_it_matters),
                                        std::pair("followed", scenario::Warming::followed)})
      // The first is what sweeps take.
      for (const auto& [tolerance, called] :
           {std::pair(0.03, std::string("0.03")), std::pair(1e-2, tolerance_name(2)),
            std::pair(1e-3, tolerance_name(3)), std::pair(1e-4, tolerance_name(4))})
        benchmark::RegisterBenchmark(
            ("run/" + variant.name + "/" + name + "/" + called).c_str(),
            [&variant, warming = warming, tolerance = tolerance](benchmark::State& state) {
              engine_run(state, variant, warming, tolerance);
            })
            ->Unit(benchmark::kMillisecond);
#ifdef DULLCAST_CVODE
  for (const int power : {3, 4, 5, 6})
    benchmark::RegisterBenchmark(("run/plain/CVODE/" + tolerance_name(power)).c_str(), cvode_run, power)
        ->Unit(benchmark::kMillisecond);
#endif
}

}  // namespace dullcast::bench
