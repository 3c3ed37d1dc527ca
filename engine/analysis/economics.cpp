#include "engine/analysis/economics.hpp"

#include <algorithm>

#include "models/condition/cost.hpp"

namespace dullcast::analysis {

std::optional<RunCost> run_cost(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome) {
  const bool due = outcome.rework_due.has_value();
  RunCost cost;
  cost.footage = due ? outcome.rework_due->footage : outcome.footage;
  if (!(cost.footage > 0.0)) return std::nullopt;
  const double rotating = due ? outcome.rework_due->rotating_time : outcome.rotating_time;
  // A bit that falls due must still be tripped out; a finished run's time has all its trips.
  const double elapsed =
      due ? outcome.rework_due->elapsed_time + scenario.repeat.trip_time : outcome.elapsed_time;
  cost.energy = due ? outcome.rework_due->energy : outcome.energy;
  const scenario::Costs& money = scenario.costs;
  // Connections and trips are kept as one idle time; the formula only needs their sum.
  cost.per_metre = condition::cost_per_length(money.bit, money.rig_per_second, rotating,
                                              std::max(0.0, elapsed - rotating),  // but for rounding
                                              0.0, cost.footage);
  cost.rig = money.rig_per_second * elapsed;
  if (money.fuel_energy > 0.0 && money.engine_efficiency > 0.0) {
    cost.fuel = condition::fuel_volume(cost.energy, money.engine_efficiency, money.fuel_energy);
  }
  if (money.replacement > 0.0 || money.rework > 0.0) cost.waiting = money.replacement - money.rework;
  return cost;
}

std::optional<MethodComparison> compare_methods(const scenario::Scenario& scenario,
                                                const simulation::RunOutcome& outcome) {
  const std::optional<RunCost> cost = run_cost(scenario, outcome);
  if (!scenario.other_method || !cost) return std::nullopt;
  const scenario::OtherMethod& method = *scenario.other_method;
  if (!(method.rate_of_penetration > 0.0)) return std::nullopt;
  const bool due = outcome.rework_due.has_value();
  const double rotating = due ? outcome.rework_due->rotating_time : outcome.rotating_time;
  const double elapsed =
      due ? outcome.rework_due->elapsed_time + scenario.repeat.trip_time : outcome.elapsed_time;
  MethodComparison compared;
  compared.bit.rotating = rotating / cost->footage;
  compared.bit.elapsed = elapsed / cost->footage;
  compared.fuel_known = scenario.costs.engine_efficiency > 0.0;
  compared.bit.fuel_heat = cost->energy / cost->footage;
  if (compared.fuel_known) compared.bit.fuel_heat /= scenario.costs.engine_efficiency;
  compared.bit.money = cost->per_metre;
  compared.other.rotating = 1.0 / method.rate_of_penetration;
  compared.other.elapsed = compared.other.rotating + (compared.bit.elapsed - compared.bit.rotating);
  compared.other.fuel_heat = method.power * compared.other.rotating;
  compared.other.money = method.consumables + method.rig_per_second * compared.other.elapsed;
  return compared;
}

}  // namespace dullcast::analysis
