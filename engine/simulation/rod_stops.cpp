#include "engine/simulation/rod_stops.hpp"

#include <algorithm>
#include <cmath>

#include "engine/simulation/event_policies.hpp"

namespace dullcast::simulation {
namespace {

constexpr double first_cooling = 0.5;  // s
constexpr double greatest_growth = 6.0;
constexpr int most_cooling_steps = 200;

}  // namespace

RodStops::RodStops(const RunModels& models, double tolerance)
    : tolerance_(tolerance),
      drilled_(models),
      lifted_(models),
      balance_(drilled_, tolerance, drilled_.error_scale()),
      coefficients_(ros34pw2()),
      fast_(drilled_.layout().slow_from()),
      slow_(drilled_.layout().size() - fast_) {
  drilled_.let_forces_stand(tolerance);
  for (State* v : {&slope_, &cold_, &trial_, &error_, &balanced_slope_, &missed_}) v->setZero(fast_ + slow_);
  for (std::size_t i = 0; i < 4; ++i) {
    increments_[i].setZero(fast_ + slow_);
    products_[i].setZero(fast_ + slow_);
  }
}

void RodStops::enter(const DrillingInterval& drilled, const DrillingInterval& lifted, double seconds) {
  drilled_.enter(drilled);
  lifted_.enter(lifted);
  seconds_ = seconds;
}

/// One step of the method; where the network is linear with f(x + v) = f(x) + A v, and A v of each increment
/// follows from the equation that it solves.
bool RodStops::cooling_step(const State& x, bool linear, double dt, double& error) {
  const Ros34Pw2& k = coefficients_;
  ThermalMatrix& matrix = lifted_.thermal_matrix();
  const double shift = 1.0 / (dt * k.gamma);
  matrix.factorise(shift);
  // Off bottom nothing slow moves.
  const auto fast = [this](auto& v) { return v.head(fast_); };
  for (std::size_t i = 0; i < 4; ++i) {
    State& u = increments_[i];
    if (linear || i == 0) {
      fast(u) = fast(slope_);
    } else {
      trial_ = x;
      for (std::size_t j = 0; j < i; ++j) fast(trial_) += k.a[i][j] * fast(increments_[j]);
      lifted_.find_fast_rates(trial_, u);
    }
    for (std::size_t j = 0; j < i; ++j) {
      if (linear) fast(u) += k.a[i][j] * fast(products_[j]);
      fast(u) += k.c[i][j] / dt * fast(increments_[j]);
    }
    fast(products_[i]) = -fast(u);
    u.tail(slow_).setZero();
    matrix.solve(u);
    fast(products_[i]) += shift * fast(u);
  }
  trial_ = x;
  fast(error_).setZero();
  for (std::size_t i = 0; i < 4; ++i) {
    fast(trial_) += k.m[i] * fast(increments_[i]);
    fast(error_) += k.error[i] * fast(increments_[i]);
  }
  error = (fast(error_).array().abs() / lifted_.error_scale().head(fast_).array()).maxCoeff() / tolerance_;
  return trial_.allFinite();
}

double RodStops::hottest(const State& x) const {
  const StateLayout& layout = lifted_.layout();
  return std::max({layout.parts(x).maxCoeff(), x(layout.fluid()), x(layout.body())});
}

bool RodStops::cool(State& x) {
  double t = 0.0, dt = std::min(first_cooling, seconds_);
  for (int steps = 0; steps < most_cooling_steps; ++steps) {
    lifted_.find_fast_rates(x, slope_);
    const Evaluation& now = lifted_.evaluation();
    // What would be told on the way has to be followed.
    if (lifted_.falls() || (now.heats.film > 0.0).any() || lifted_.near_boiling(x) >= 0.0) return false;
    const bool linear = !now.cooling.boils || hottest(x) < now.cooling.water.temperature;
    lifted_.linearise();
    for (;;) {
      double error = 0.0;
      if (!cooling_step(x, linear, dt, error)) return false;
      if (error <= 1.0) {
        x = trial_;
        t += dt;
        if (t >= seconds_) return true;
        const double growth = 0.9 * std::pow(std::max(error, 1e-9), -1.0 / 3.0);
        dt = std::min(dt * std::clamp(growth, 0.2, greatest_growth), seconds_ - t);
        break;
      }
      dt *= std::max(0.1, 0.9 * std::pow(error, -1.0 / 3.0));
      if (!(dt > 1e-3)) return false;
    }
  }
  return false;
}

bool RodStops::add_warming(const State& settled, const State& cold, State& gained) {
  drilled_(settled, balanced_slope_, 0.0);
  drilled_.linearise();
  if (!drilled_.thermal_matrix().factorise_at_rest()) return false;
  if (!balance_.way_is_short(cold, settled, balanced_slope_, missed_)) return false;
  gained += missed_;
  // The same depth, and as warm as before: what is spent more leaves.
  const StateLayout& layout = drilled_.layout();
  gained(layout.depth() - fast_) = 0.0;
  gained(layout.carried() - fast_) = gained(layout.spent() - fast_) - gained(layout.left_in_rock() - fast_);
  return true;
}

bool RodStops::stop(const State& x, Stop& done) {
  const StateLayout& layout = lifted_.layout();
  const BitModels& bit = lifted_.models().bit;
  const double inlet = lifted_.models().ground.inlet_temperature;
  cold_ = x;
  if (!cool(cold_)) return false;
  done.gained.setZero(slow_);
  if (!add_warming(x, cold_, done.gained)) return false;

  const Eigen::ArrayXd table = layout.table(cold_);
  done.hottest_table = table.maxCoeff(&done.hottest_cutter);
  auto hazards = done.gained.segment(layout.first(Block::chip_hazard) - fast_, layout.cutters).array();
  Eigen::ArrayXd struck = Eigen::ArrayXd::Zero(layout.cutters);
  done.flow_returns =
      drilled_.interval().flow_at_bit > policy::quenching_flow * lifted_.interval().flow_at_bit;
  if (done.flow_returns) {
    trial_ = cold_;
    trial_(layout.solids()) = trial_(layout.plug()) = 0.0;
    drilled_.find_fast_rates(trial_, slope_);
    failure::add_quench_hazards(bit.edges, {layout.worn(x), table, layout.damage(x), drilled_.lost()}, inlet,
                                drilled_.evaluation().cooling.convection, struck);
  }
  drilled_.find_fast_rates(cold_, slope_);
  const Evaluation& now = drilled_.evaluation();
  failure::add_touch_down_hazards(
      bit.edges, {layout.worn(x), now.heats.flat_temperature, layout.damage(x), drilled_.lost()},
      now.edge_cuts(), drilled_.interval().edge_ground, struck);
  hazards += struck;
  return true;
}

}  // namespace dullcast::simulation
