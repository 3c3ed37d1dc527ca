#include "engine/forecast/economics.hpp"

#include "models/cost.hpp"

namespace dullcast {

std::optional<RunCost> run_cost(const Scenario& scenario, const RunOutcome& outcome) {
  const bool due = outcome.rework_due.has_value();
  RunCost cost;
  cost.footage = due ? outcome.rework_due->footage : outcome.footage;
  if (!(cost.footage > 0.0)) return std::nullopt;
  const double rotating = due ? outcome.rework_due->rotating_time : outcome.rotating_time;
  // A bit that falls due must still be tripped out; a finished run's time has all its trips.
  const double elapsed =
      due ? outcome.rework_due->elapsed_time + scenario.repeat.trip_time : outcome.elapsed_time;
  cost.energy = due ? outcome.rework_due->energy : outcome.energy;
  const Costs& money = scenario.costs;
  // Connections and trips are kept as one idle time; the formula only needs their sum.
  cost.per_metre =
      cost_per_length(money.bit, money.rig_per_second, rotating, elapsed - rotating, 0.0, cost.footage);
  cost.rig = money.rig_per_second * elapsed;
  if (money.fuel_energy > 0.0 && money.engine_efficiency > 0.0) {
    cost.fuel = fuel_volume(cost.energy, money.engine_efficiency, money.fuel_energy);
  }
  if (money.replacement > 0.0 || money.rework > 0.0) cost.waiting = money.replacement - money.rework;
  return cost;
}

}  // namespace dullcast
