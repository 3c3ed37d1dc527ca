#pragma once

#include <cmath>

#include "engine/simulation/assembly.hpp"
#include "engine/simulation/drilling_system.hpp"
#include "engine/simulation/random_states.hpp"
#include "models/thermal/heat.hpp"

/// The right-hand side of one bit on one interval, ready to be tried at any state.
namespace dullcast::testing {

using namespace simulation;  // the room that is tested

/// A state at rest at one temperature, unworn, the hole bottom full and clean.
inline State resting_state(const StateLayout& layout, double T, double depth) {
  State x = State::Zero(layout.size());
  layout.parts(x) = T;
  layout.settled(x) = T;
  x(layout.body()) = x(layout.fluid()) = x(layout.warm()) = T;
  x(layout.water()) = 1.0;
  x(layout.depth()) = depth;
  return x;
}

/// A system on one interval of a scenario.
struct Bench {
  explicit Bench(const scenario::Scenario& scenario, std::size_t interval = 0)
      : models(assemble(scenario)), system(models), slope(State::Zero(system.layout().size())) {
    system.enter(models.intervals[interval]);
  }
  const State& evaluate(const State& x) {
    system(x, slope, 0.0);
    return slope;
  }
  RandomStates random(double worn = 4e-3) { return {system.layout(), 1.0, worn}; }
  RunModels models;
  DrillingSystem system;
  State slope;
};

/// Rate at which heat is stored: each part's capacity times its rate. Adds the flows' sizes to `flows`.
inline double storing(const Bench& bench, const State& x, const State& rate, double& flows) {
  const StateLayout& layout = bench.system.layout();
  double sum = 0.0;
  const auto add = [&](double capacity, double kelvins_per_second) {
    sum += capacity * kelvins_per_second;
    flows += std::abs(capacity * kelvins_per_second);
  };
  const DrillingInterval& s = bench.system.interval();
  for (Eigen::Index i = 0; i < layout.cutters; ++i) {
    const thermal::CutterNetwork& n = bench.models.bit.cutter_heat.networks.of(i);
    const thermal::PartArray parts = layout.parts(x).row(i).transpose(),
                             rates = layout.parts(rate).row(i).transpose();
    for (Eigen::Index k = 0; k < 2; ++k) {
      add(n.table_mass(k) * thermal::diamond_heat_capacity(parts(k)), rates(k));
      add(n.carbide_capacity(k), rates(2 + k));
    }
  }
  add(bench.models.bit.bottom_heat.body_capacity, rate(layout.body()));
  // M c (w + 5 %) of the bottom-hole fluid, counted from the inlet's temperature, which water brings along.
  add(s.fluid_capacity * (x(layout.water()) + 0.05), rate(layout.fluid()));
  add(s.fluid_capacity * (x(layout.fluid()) - bench.models.ground.inlet_temperature), rate(layout.water()));
  add(bench.system.warm_capacity(), rate(layout.warm()));
  return sum;
}

/// Heat flow that the ledger does not account for at x, over the sum of all flows' sizes.
inline double ledger_gap(Bench& bench, const State& x) {
  const State rate = bench.evaluate(x);
  const StateLayout& layout = bench.system.layout();
  double flows = rate(layout.spent()) + std::abs(rate(layout.carried()));
  const double stored = storing(bench, x, rate, flows);
  return (rate(layout.spent()) - rate(layout.carried()) - rate(layout.left_in_rock()) - stored) / flows;
}

}  // namespace dullcast::testing
