#include "engine/simulation/resting_state.hpp"

namespace dullcast::simulation {

void rest(const RunModels& models, State& x) {
  const StateLayout layout(models.bit.bit.count());
  const DrillingInterval& first = models.intervals.front();
  const double T = models.ground.inlet_temperature;
  layout.parts(x) = T;
  layout.settled(x) = T;
  x(layout.body()) = x(layout.fluid()) = T;
  x(layout.warm()) = models.ground.rock_temperature(first.top);
  // A hole without flow above the standing water is dry from the start.
  const bool wet = !first.liquid || first.flow_at_bit > 0.0 || models.ground.standing_level <= first.top;
  x(layout.water()) = wet ? 1.0 : 0.0;
  x(layout.solids()) = x(layout.plug()) = 0.0;
  x(layout.depth()) = first.top;
  for (const Eigen::Index sum : {layout.spent(), layout.carried(), layout.left_in_rock()}) x(sum) = 0.0;
}

}  // namespace dullcast::simulation
