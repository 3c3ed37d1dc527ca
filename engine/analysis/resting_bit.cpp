#include "engine/analysis/resting_bit.hpp"

#include "engine/simulation/resting_state.hpp"

namespace dullcast::analysis {

RestingBit::RestingBit(const scenario::Scenario& scenario)
    : scenario_(&scenario),
      models_(simulation::assemble(scenario)),
      system_(models_),
      x_(simulation::State::Zero(system_.layout().size())),
      slope_(x_) {
  simulation::rest(models_, x_);
  system_.layout().worn(x_) = scenario.bit.starting_wear;
  for (Eigen::Index i = 0; i < scenario.bit.starting_lost.size(); ++i) {
    if (scenario.bit.starting_lost(i)) system_.set_lost(i);
  }
}

const simulation::Evaluation& RestingBit::on(const simulation::DrillingInterval& planned) {
  x_(system_.layout().depth()) = planned.top;
  system_.enter(planned);
  system_(x_, slope_, 0.0);
  return system_.evaluation();
}

const simulation::Evaluation& RestingBit::on(const simulation::DrillingInterval& planned, double flow) {
  scenario::OperatingInterval interval = planned.settings;
  interval.flow = flow;
  changed_ = simulation::with_settings(*scenario_, models_.bit, planned, interval);
  return on(changed_);
}

}  // namespace dullcast::analysis
