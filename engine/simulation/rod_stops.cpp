#include "engine/simulation/rod_stops.hpp"

#include "engine/simulation/event_policies.hpp"
#include "engine/simulation/stand_kept.hpp"

namespace dullcast::simulation {

RodStops::RodStops(const RunModels& models, DrillingSystem& stepped, double tolerance)
    : tolerance_(tolerance),
      own_(models),
      lifted_(models),
      stepped_{stepped, BalancedHeat(stepped, tolerance, stepped.error_scale()), {}},
      elsewhere_{own_, BalancedHeat(own_, tolerance, own_.error_scale()), {}},
      cooling_(lifted_, tolerance),
      fast_(lifted_.layout().slow_from()),
      slow_(lifted_.layout().size() - fast_) {
  own_.let_forces_stand(tolerance);
  for (State* v : {&slope_, &hot_, &cold_, &trial_, &missed_}) v->setZero(fast_ + slow_);
}

void RodStops::enter(const DrillingInterval& drilled, const DrillingInterval& lifted, double seconds) {
  own_.enter(drilled);
  lifted_.enter(lifted);
  seconds_ = seconds;
  cooled_ = false;
}

/// Cools x off, into cold_.
bool RodStops::cool(const State& x) {
  const auto apart = (x.head(fast_) - hot_.head(fast_)).array().abs();
  if (cooled_ && (apart <= tolerance_ * lifted_.error_scale().head(fast_).array()).all()) {
    cold_.tail(slow_) = x.tail(slow_);
    return true;
  }
  hot_ = cold_ = x;
  cooled_ = cooling_.cool(cold_, seconds_);
  return cooled_;
}

bool RodStops::add_warming(Drilled& drilled, const State& settled, const State& slope, State& gained) {
  if (!drilled.balance.way_is_short(cold_, settled, slope, missed_)) return false;
  gained += missed_;
  // The same depth, and as warm as before: what is spent more leaves.
  const StateLayout& layout = lifted_.layout();
  gained(layout.depth() - fast_) = 0.0;
  gained(layout.carried() - fast_) = gained(layout.spent() - fast_) - gained(layout.left_in_rock() - fast_);
  return true;
}

bool RodStops::stop(const State& x, Stop& done) {
  own_(x, slope_, 0.0);
  own_.linearise();
  return own_.thermal_matrix().factorise_at_rest() && stop(elsewhere_, x, slope_, done);
}

bool RodStops::stop(Drilled& drilled, const State& x, const State& slope, Stop& done) {
  const StateLayout& layout = lifted_.layout();
  const BitModels& bit = lifted_.models().bit;
  const double inlet = lifted_.models().ground.inlet_temperature;
  DrillingSystem& system = drilled.system;
  if (!cool(x)) return false;
  done.gained.setZero(slow_);
  if (!add_warming(drilled, x, slope, done.gained)) return false;

  const StandKept kept(system, drilled.stand);
  const Eigen::ArrayXd table = layout.table(cold_);
  done.hottest_table = table.maxCoeff(&done.hottest_cutter);
  auto hazards = done.gained.segment(layout.first(Block::chip_hazard) - fast_, layout.cutters).array();
  Eigen::ArrayXd struck = Eigen::ArrayXd::Zero(layout.cutters);
  done.flow_returns = system.interval().flow_at_bit > policy::quenching_flow * lifted_.interval().flow_at_bit;
  if (done.flow_returns) {
    trial_ = cold_;
    trial_(layout.solids()) = trial_(layout.plug()) = 0.0;
    system.find_fast_rates(trial_, slope_);
    failure::add_quench_hazards(bit.edges, {layout.worn(x), table, layout.damage(x), system.lost()}, inlet,
                                system.evaluation().cooling.convection, struck);
  }
  system.find_fast_rates(cold_, slope_);
  const Evaluation& now = system.evaluation();
  failure::add_touch_down_hazards(
      bit.edges, {layout.worn(x), now.heats.flat_temperature, layout.damage(x), system.lost()},
      now.edge_cuts(), system.interval().edge_ground, struck);
  hazards += struck;
  return true;
}

}  // namespace dullcast::simulation
