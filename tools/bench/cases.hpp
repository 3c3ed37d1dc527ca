#pragma once

#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/assembly.hpp"
#include "engine/simulation/drilling_system.hpp"

/// Scenarios that are measured: the target (target.yaml) and what is made of it.
namespace dullcast::bench {

/// The target with changes of its text ("key=value").
scenario::Scenario target(const std::vector<std::string>& sets = {});

/// A way in which the target is drilled.
struct Variant {
  std::string name;
  std::vector<std::string> sets;
};
const std::vector<Variant>& variants();
/// A rod every 20 ft, 5 min each.
const Variant& with_rods();

/// The target's layer that most is asked in, hard sandstone, with 0.3 mm worn off.
inline constexpr std::size_t hard_layer = 4;
inline constexpr double worn_before = 3e-4;  // m
/// The target of that layer alone: what general solvers are measured on beside the engine.
scenario::Scenario hard_layer_alone();

/// A bit of about `cutters` cutters, the fewer the larger; the rest stays the target's.
scenario::Scenario with_cutters(int cutters);
/// The same depth in `layers` layers of one thickness, the target's rocks in turn, one setting for all.
scenario::Scenario with_layers(int layers);

/// That many holes with one bit, which ground a fortieth as abrasive lets it last.
scenario::Scenario with_holes(int holes);

/// The hard layer alone as an initial value problem: dx/dt = f(x), autonomous, from a rested bit.
class LayerProblem {
 public:
  LayerProblem();
  void slope(const simulation::State& x, simulation::State& rate) { system_(x, rate, 0.0); }
  simulation::DrillingSystem& system() { return system_; }
  const simulation::State& start() const { return start_; }
  /// DrillingSystem::error_scale, with a large number for what steers nothing, so that sums stay finite.
  const simulation::State& scale() const { return scale_; }
  long evaluations() const { return system_.evaluations(); }

 private:
  scenario::Scenario scenario_;
  simulation::RunModels models_;
  simulation::DrillingSystem system_;
  simulation::State start_, scale_;
};

/// How far it is drilled, and the state there: by the engine's stepper at a tolerance of 1e-8 with forces
/// found anew at each evaluation. Worked out once.
struct LayerEnd {
  double time = 0.0;  // s
  simulation::State x;
  simulation::StateLayout layout;
};
const LayerEnd& layer_end();

/// Errors relative to what the layer gained.
struct LayerErrors {
  double drilled = 0.0, worn = 0.0, chip_hazard = 0.0;
};
LayerErrors errors_of(const simulation::State& x);

}  // namespace dullcast::bench
