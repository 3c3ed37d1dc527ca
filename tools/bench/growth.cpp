// How the cost of a run grows with the bit, the ground and the number of holes.
#include <benchmark/benchmark.h>

#include <functional>
#include <string>

#include "engine/simulation/resting_state.hpp"
#include "engine/simulation/run.hpp"
#include "engine/simulation/run_in_progress.hpp"
#include "tools/bench/benchmarks.hpp"
#include "tools/bench/cases.hpp"

namespace dullcast::bench {
namespace {

using MakeScenario = std::function<scenario::Scenario()>;

void grown_run(const std::string& name, const MakeScenario& make) {
  benchmark::RegisterBenchmark(("growth/" + name + "/a run").c_str(), [make](benchmark::State& state) {
    const scenario::Scenario s = make();
    simulation::RunOutcome run;
    for ([[maybe_unused]] auto turn : state) run = simulation::run(s, {}, simulation::Rows::left_out);
    state.counters["steps"] = static_cast<double>(run.steps);
    state.counters["right_hand_sides"] = static_cast<double>(run.right_hand_sides);
    state.counters["holes_finished"] = run.holes_finished;
  })->Unit(benchmark::kMillisecond);
}

/// One right-hand side with forces found anew.
void grown_right_hand_side(const std::string& name, const MakeScenario& make) {
  benchmark::RegisterBenchmark(("growth/" + name + "/a right-hand side").c_str(),
                               [make](benchmark::State& state) {
                                 const scenario::Scenario s = make();
                                 simulation::RunInProgress run(s, simulation::Rows::left_out);
                                 simulation::rest(run.models, run.x);
                                 run.system.enter(run.models.intervals[hard_layer]);
                                 run.x(run.layout().depth()) = run.models.intervals[hard_layer].top;
                                 simulation::State x = run.x, rate = run.x;
                                 int k = 0;
                                 for ([[maybe_unused]] auto turn : state) {
                                   run.layout().worn(x) = worn_before + 1e-6 * (k++ % 7);
                                   run.system(x, rate, 0.0);
                                 }
                               })
      ->Unit(benchmark::kMicrosecond);
}

}  // namespace

void register_growth() {
  for (const int cutters : {8, 18, 40, 80}) {
    const MakeScenario make = [cutters] { return with_cutters(cutters); };
    grown_right_hand_side("cutters/" + std::to_string(cutters), make);
    grown_run("cutters/" + std::to_string(cutters), make);
  }
  for (const int layers : {1, 12, 50, 200})
    grown_run("layers/" + std::to_string(layers), [layers] { return with_layers(layers); });
  for (const int holes : {1, 4, 12, 40})
    grown_run("holes/" + std::to_string(holes), [holes] { return with_holes(holes); });
}

}  // namespace dullcast::bench
