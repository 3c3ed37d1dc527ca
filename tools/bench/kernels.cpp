// What a step of a run is made of, each on a settled bit in the target's hard layer.
#include <benchmark/benchmark.h>

#include <functional>

#include "engine/simulation/resting_state.hpp"
#include "engine/simulation/run_in_progress.hpp"
#include "models/geometry/worn_profile.hpp"
#include "tools/bench/benchmarks.hpp"
#include "tools/bench/cases.hpp"

namespace dullcast::bench {
namespace {

using simulation::RunInProgress;
using simulation::State;

struct SettledBit {
  SettledBit() : scenario(target(with_rods().sets)), run(scenario, simulation::Rows::left_out) {
    const simulation::DrillingInterval& interval = run.models.intervals[hard_layer];
    simulation::rest(run.models, run.x);
    run.schedule.begin_hole(0, 0.0);
    run.schedule.follow(interval);
    run.system.enter(interval);
    run.x(run.layout().depth()) = interval.top;
    run.layout().worn(run.x) = worn_before;
    rested = run.x;
    run.begin_afresh();
    settles = run.settled.settle(run.x, 0.0);
    rate = run.x;
    run.system(run.x, rate, 0.0);
  }
  /// A state whose wear differs by more than forces may stand for.
  const State& worn_a_little() {
    constexpr double by = 1e-6;  // m
    changed = run.x;
    run.layout().worn(changed) += by * (turn++ % 7);
    return changed;
  }

  scenario::Scenario scenario;
  RunInProgress run;
  State rested, rate, changed;
  bool settles = false;
  int turn = 0;
};

void kernel(const std::string& name, const std::function<bool(SettledBit&)>& act) {
  benchmark::RegisterBenchmark(("kernel/" + name).c_str(), [act](benchmark::State& state) {
    SettledBit bit;
    bool worked = bit.settles;
    for ([[maybe_unused]] auto turn : state) worked = act(bit) && worked;
    if (!worked) state.SkipWithError("did not find what it should");
  })->Unit(benchmark::kMicrosecond);
}

void register_evaluations() {
  kernel("fast rates, forces anew", [](SettledBit& bit) {
    bit.run.system.find_fast_rates(bit.worn_a_little(), bit.rate);
    return true;
  });
  kernel("fast rates, forces stand", [](SettledBit& bit) {
    bit.run.system.find_fast_rates(bit.run.x, bit.rate);
    return true;
  });
  kernel("slow rates", [](SettledBit& bit) {
    bit.run.system.find_slow_rates(bit.run.x, bit.rate);
    return true;
  });
  kernel("linearise, factorise, solve", [](SettledBit& bit) {
    bit.run.system.linearise();
    bit.run.system.thermal_matrix().factorise(1.0);
    bit.changed = bit.rate;
    bit.run.system.thermal_matrix().solve(bit.changed);
    return true;
  });
  kernel("outlines", [profile = std::optional<geometry::WornProfile>(),
                      worn = Eigen::ArrayXd()](SettledBit& bit) mutable {
    const auto& models = bit.run.models.bit;
    if (!profile) profile.emplace(models.bit, models.edge, geometry::usual_spacing(models.bit));
    worn = bit.run.layout().worn(bit.worn_a_little());
    profile->update(worn);
    return true;
  });
}

void register_steps() {
  kernel("a balance found from rest", [](SettledBit& bit) {
    bit.run.settled.restart();
    bit.changed = bit.rested;
    return bit.run.settled.settle(bit.changed, 0.0);
  });
  kernel("a settled step", [](SettledBit& bit) {
    double time = 0.0;
    const bool taken = bit.run.settled.step(bit.run.x, time, bit.run.system.interval().bottom);
    if (taken) bit.run.settled.undo(bit.run.x);
    return taken;
  });
  kernel("a stop for a rod", [done = simulation::RodStops::Stop()](SettledBit& bit) mutable {
    return bit.run.rod_stops().stop(bit.run.x, done);
  });
}

void register_making() {
  kernel("assemble", [](SettledBit& bit) {
    benchmark::DoNotOptimize(simulation::assemble(bit.scenario));
    return true;
  });
  kernel("the run object", [](SettledBit& bit) {
    const RunInProgress made(bit.scenario, simulation::Rows::left_out);
    return made.x.size() > 0;
  });
}

}  // namespace

void register_kernels() {
  register_evaluations();
  register_steps();
  register_making();
}

}  // namespace dullcast::bench
