#include "engine/forecast/resting_bit.hpp"

#include "engine/run/resting_state.hpp"

namespace dullcast {

RestingBit::RestingBit(const Scenario& scenario)
    : scenario_(&scenario),
      models_(assemble(scenario)),
      system_(models_),
      x_(State::Zero(system_.layout().size())),
      slope_(x_) {
  rest(models_, x_);
  system_.layout().worn(x_) = scenario.bit.starting_wear;
  for (Eigen::Index i = 0; i < scenario.bit.starting_lost.size(); ++i) {
    if (scenario.bit.starting_lost(i)) system_.set_lost(i);
  }
}

const Instant& RestingBit::on(const Stretch& planned) {
  x_(system_.layout().depth()) = planned.top;
  system_.enter(planned);
  system_(x_, slope_, 0.0);
  return system_.instant();
}

const Instant& RestingBit::on(const Stretch& planned, double flow) {
  OperatingInterval interval = planned.settings;
  interval.flow = flow;
  changed_ = with_settings(*scenario_, models_.bit, planned, interval);
  return on(changed_);
}

}  // namespace dullcast
