#include "engine/simulation/settled_stepper.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace dullcast::simulation {
namespace {

/// A balance is found when Newton's correction is this share of what the tolerance allows: what is left of it
/// then is its square.
constexpr double found_to = 0.01;
constexpr int most_corrections = 12;

constexpr double most_wear = 1e-4;       // m, of any cutter in one step
constexpr double hazard_share = 0.1;     // of the error scale of chip hazards
constexpr double good_enough = 0.3;      // error over the tolerance with which a trapezoid will do
constexpr double first_wait = 1.0;       // s between the first two tries to settle
constexpr double least_duration = 10.0;  // s: a shorter settled step is no gain
constexpr double greatest_growth = 5.0;
constexpr double little_water = 0.01;  // 1, of its full amount, that may be missing
constexpr double little_packing = 0.01;

// Bogacki & Shampine's pair.
constexpr double b1 = 2.0 / 9.0, b2 = 1.0 / 3.0, b3 = 4.0 / 9.0;
constexpr double e1 = -5.0 / 72.0, e2 = 1.0 / 12.0, e3 = 1.0 / 9.0, e4 = -1.0 / 8.0;

}  // namespace

SettledStepper::SettledStepper(DrillingSystem& system, double tolerance)
    : system_(&system),
      tolerance_(tolerance),
      fast_(system.layout().slow_from()),
      slow_(system.layout().size() - system.layout().slow_from()),
      scale_(system.error_scale()) {
  // Its steps are long beside what moves an edge's chance to chip, which is far under 1 as a rule.
  system.layout().of(Block::chip_hazard, scale_) *= hazard_share;
  const Eigen::Index n = system.layout().size();
  for (State& slope : slopes_) slope.setZero(slow_);
  for (State* v : {&missed_, &error_, &first_slope_, &added_}) v->setZero(slow_);
  for (State* v : {&start_, &stage_, &slope_, &newton_}) v->setZero(n);
}

void SettledStepper::restart() {
  settled_ = false;
  wait_ = first_wait;
  bend_ = 0.0;
  next_try_ = -std::numeric_limits<double>::infinity();
  next_size_ = std::numeric_limits<double>::infinity();
  missed_.setZero();
}

double SettledStepper::worst_of_fast(const State& change) const {
  return (change.head(fast_).array().abs() / scale_.head(fast_).array()).maxCoeff() / tolerance_;
}

bool SettledStepper::find_balance(State& x, State& slope) {
  ThermalMatrix& matrix = system_->thermal_matrix();
  try {
    for (int k = 0; k < most_corrections; ++k) {
      system_->find_fast_rates(x, slope);
      newton_.head(fast_) = slope.head(fast_);
      newton_.tail(slow_).setZero();
      // Without boiling the balance is linear, and the first correction all there is to make.
      if (k != 1) {
        system_->linearise();
        if (!matrix.factorise_at_rest()) return false;
      }
      matrix.solve(newton_);
      const double wrong = worst_of_fast(newton_);
      if (!std::isfinite(wrong)) return false;
      if (wrong <= found_to) {
        system_->find_slow_rates(x, slope);
        return true;
      }
      x.head(fast_) += newton_.head(fast_);
    }
  } catch (const std::domain_error&) {
    // a trial temperature that no model knows
  }
  return false;
}

bool SettledStepper::plain() const {
  const Evaluation& now = system_->evaluation();
  const StateLayout& layout = system_->layout();
  // Without flow nothing is carried off: what Newton's method finds then is no state of slots.
  return now.rate_of_penetration > 0.0 && system_->near_boiling(stage_) < 0.0 &&
         std::abs(stage_(layout.water()) - 1.0) < little_water && now.bottom.slot.packing < little_packing &&
         stage_(layout.solids()) >= -little_packing && std::abs(stage_(layout.plug())) < little_packing;
}

/// Where a surface boils past its critical flux there may be other balances, and only a short way is sure to
/// lead to this one.
bool SettledStepper::may_be_another(double worst_change) const {
  constexpr double short_way = 0.1;  // of the error scale of temperatures: 10 K
  const bool past_critical = system_->falls() || (system_->evaluation().heats.film > 0.0).any();
  return past_critical && worst_change * tolerance_ > short_way;
}

void SettledStepper::by_depth(const State& slope, std::size_t stage) {
  const double rate = system_->evaluation().rate_of_penetration;
  slopes_[stage] = slope.tail(slow_) / rate;
  pace_[stage] = 1.0 / rate;
}

bool SettledStepper::way_is_short(const State& from, State& x, State& slope) {
  newton_.head(fast_) = from.head(fast_) - x.head(fast_);
  newton_.tail(slow_).setZero();
  const double away = worst_of_fast(newton_);
  missed_.setZero();
  if (away <= found_to) return true;
  system_->thermal_matrix().solve(newton_);
  const double reach = worst_of_fast(newton_);
  if (!std::isfinite(reach) || !(reach > 0.0)) return false;
  const double eta = away / reach;  // 1/s
  start_ = x;
  start_.head(fast_) += eta * newton_.head(fast_);
  system_->hold_forces(true);
  (*system_)(start_, stage_, 0.0);
  missed_ = (stage_.tail(slow_) - slope.tail(slow_)) / eta;
  (*system_)(x, slope, 0.0);
  system_->hold_forces(false);
  return (missed_.array().abs() / scale_.tail(slow_).array()).maxCoeff() <= tolerance_;
}

bool SettledStepper::settle(State& x, double time) {
  next_try_ = time + wait_;
  wait_ *= 2.0;
  const double T_zero = system_->models().ground.inlet_temperature;
  State& balanced = stage_;
  balanced = x;
  if (!find_balance(balanced, slope_) || !plain()) return false;
  newton_.head(fast_) = balanced.head(fast_) - x.head(fast_);
  if (may_be_another(worst_of_fast(newton_))) return false;
  State settled = balanced;
  if (!way_is_short(x, settled, slope_)) return false;
  const double before = system_->stored_heat(x, T_zero);
  x = settled;
  stored_ = system_->stored_heat(x, T_zero);
  const StateLayout& layout = system_->layout();
  // The stores' gain has not been carried off; what the work was other than at the balance is in missed_.
  x(layout.carried()) -= stored_ - before;
  missed_(layout.carried() - fast_) =
      missed_(layout.spent() - fast_) - missed_(layout.left_in_rock() - fast_);
  by_depth(slope_, 0);
  settled_ = true;
  return true;
}

/// Nothing heals: of the way to the balance no more is made good than the step gains.
void SettledStepper::heal_nothing(State& end) const {
  const Eigen::Index from = system_->layout().slow_from(), n = system_->layout().depth() - from;
  end.segment(from, n) = end.segment(from, n).cwiseMax(start_.segment(from, n));
}

/// Whether stage_ stands at a plain balance, the end of a step; puts its slopes in place.
bool SettledStepper::ends_balanced(double size) {
  heal_nothing(stage_);
  stage_(system_->layout().depth()) = start_(system_->layout().depth()) + size;
  if (!find_balance(stage_, slope_) || !plain()) return false;
  by_depth(slope_, 3);
  newton_.head(fast_) = stage_.head(fast_) - start_.head(fast_);
  return !may_be_another(worst_of_fast(newton_));
}

/// Errors of the slow entries and of time (which is a wrong depth at that time), over the tolerance.
double SettledStepper::worst_of_slow(double late) const {
  return std::max((error_.array().abs() / scale_.tail(slow_).array()).maxCoeff(),
                  late / scale_(system_->layout().depth())) /
         tolerance_;
}

/// The trapezoid from both ends' slopes, the far one at the end of a straight step: one balance instead of
/// three. Between rates that differ by a share r it is wrong by about r times what separates it from the
/// straight step. The far slopes, and the temperatures, are those of the straight step's end, which is nearer
/// to the trapezoid's than the tolerance.
SettledStepper::Trial SettledStepper::attempt_straight(double size, State& end) {
  stage_ = start_;
  stage_.tail(slow_) += size * slopes_[0] + missed_;
  if (!ends_balanced(size)) return Trial::no_balance;
  const auto first = slopes_[0].array(), last = slopes_[3].array();
  const Eigen::ArrayXd apart = (last - first).abs(), greater = first.abs().max(last.abs());
  error_ = (0.5 * size * apart.square() / greater.max(1e-300)).matrix();
  const double later = std::abs(pace_[3] - pace_[0]);
  tried_error_ = worst_of_slow(0.5 * size * later * later / (pace_[3] * std::max(pace_[0], pace_[3])));
  bend_ = tried_error_ / (size * size);
  if (!(tried_error_ <= good_enough)) return Trial::too_wrong;
  end = stage_;
  end.tail(slow_) = start_.tail(slow_) + 0.5 * size * (slopes_[0] + slopes_[3]) + missed_;
  heal_nothing(end);
  end(system_->layout().depth()) = stage_(system_->layout().depth());
  duration_ = 0.5 * size * (pace_[0] + pace_[3]);
  return Trial::accepted;
}

SettledStepper::Trial SettledStepper::attempt(double size, State& end) {
  // What bends by the square of the size, as seen last, tells whether it is worth a trial.
  if (bend_ * size * size <= 2.0 * good_enough && attempt_straight(size, end) == Trial::accepted)
    return Trial::accepted;
  stage_ = start_;
  stage_.tail(slow_) += 0.5 * size * slopes_[0];
  if (!find_balance(stage_, slope_) || !plain()) return Trial::no_balance;
  by_depth(slope_, 1);
  stage_.tail(slow_) = start_.tail(slow_) + 0.75 * size * slopes_[1];
  if (!find_balance(stage_, slope_) || !plain()) return Trial::no_balance;
  by_depth(slope_, 2);
  stage_.tail(slow_) =
      start_.tail(slow_) + size * (b1 * slopes_[0] + b2 * slopes_[1] + b3 * slopes_[2]) + missed_;
  if (!ends_balanced(size)) return Trial::no_balance;
  end = stage_;
  duration_ = size * (b1 * pace_[0] + b2 * pace_[1] + b3 * pace_[2]);
  error_ = size * (e1 * slopes_[0] + e2 * slopes_[1] + e3 * slopes_[2] + e4 * slopes_[3]);
  tried_error_ = worst_of_slow(
      std::abs(size * (e1 * pace_[0] + e2 * pace_[1] + e3 * pace_[2] + e4 * pace_[3])) / pace_[3]);
  return tried_error_ <= 1.0 ? Trial::accepted : Trial::too_wrong;
}

/// The temperatures lag behind their balance by as much as the network needs to follow it.
bool SettledStepper::keeps_up(const State& end, double duration) {
  newton_.head(fast_) = (end.head(fast_) - start_.head(fast_)) / duration;
  newton_.tail(slow_).setZero();
  system_->thermal_matrix().solve(newton_);
  return worst_of_fast(newton_) <= 1.0;
}

void SettledStepper::take(const State& end, double size, State& x, double& time) {
  const StateLayout& layout = system_->layout();
  size_ = size;
  first_slope_ = slopes_[0];
  first_pace_ = pace_[0];
  added_ = missed_;
  missed_.setZero();
  start_stored_ = stored_;
  stored_ = system_->stored_heat(end, system_->models().ground.inlet_temperature);
  x = end;
  const auto gained = [&](Eigen::Index k) { return x(k) - start_(k); };
  x(layout.carried()) = start_(layout.carried()) + gained(layout.spent()) - gained(layout.left_in_rock()) -
                        (stored_ - start_stored_);
  time = start_time_ + duration_;
  slopes_[0] = slopes_[3];
  pace_[0] = pace_[3];
}

bool SettledStepper::step(State& x, double& time, double to_depth) {
  const StateLayout& layout = system_->layout();
  const double left = to_depth - x(layout.depth());
  start_ = x;
  start_time_ = time;
  begins_ = x(layout.depth());
  // An edge goes from bevel to flat within some edge radii of wear: no step may pass that unseen.
  const double wearing = slopes_[0].segment(layout.first(Block::worn) - fast_, layout.cutters).maxCoeff();
  double size = std::min({next_size_, left, wearing > 0.0 ? most_wear / wearing : left});
  bool refused = false;
  State end;
  for (;;) {
    if (left - size < 0.1 * size) size = left;
    const Trial trial = attempt(size, end);
    if (trial == Trial::accepted && !keeps_up(end, duration_)) break;
    if (trial == Trial::accepted) {
      ++steps_;
      // What soon fails again is no reason to try soon again.
      if (duration_ > 4.0 * wait_) wait_ = first_wait;
      take(end, size, x, time);
      if (size == left) x(layout.depth()) = to_depth;
      const double growth = 0.9 * std::pow(std::max(tried_error_, 1e-6), -1.0 / 3.0);
      const double next = size * std::clamp(growth, 0.2, refused ? 1.0 : greatest_growth);
      // A step cut short by its end says little against longer ones.
      next_size_ = size < next_size_ ? std::max(next, std::min(next_size_, greatest_growth * size)) : next;
      return true;
    }
    ++refused_;
    refused = true;
    next_size_ = size;
    size *= trial == Trial::no_balance ? 0.25 : std::max(0.1, 0.9 * std::pow(tried_error_, -1.0 / 3.0));
    if (!(size * pace_[0] > least_duration)) break;
  }
  give_up(time);
  x = start_;
  return false;
}

void SettledStepper::undo(State& x) {
  x = start_;
  slopes_[0] = first_slope_;
  pace_[0] = first_pace_;
  missed_ = added_;
  stored_ = start_stored_;
}

void SettledStepper::between(double at, const State& end, State& x) const {
  const double h = size_, s = (at - begins_) / h;
  const double h00 = (1.0 + 2.0 * s) * (1.0 - s) * (1.0 - s), h10 = s * (1.0 - s) * (1.0 - s);
  const double h01 = s * s * (3.0 - 2.0 * s), h11 = s * s * (s - 1.0);
  x.head(fast_) = (1.0 - s) * start_.head(fast_) + s * end.head(fast_);
  x.tail(slow_) =
      h00 * start_.tail(slow_) + h10 * h * first_slope_ + h01 * end.tail(slow_) + h11 * h * slopes_[0];
  x(system_->layout().depth()) = at;
  // Where the way to the balance took from what a step gained, the cubic may pass its end: nothing heals.
  const Eigen::Index from = system_->layout().slow_from(), n = system_->layout().depth() - from;
  x.segment(from, n) = x.segment(from, n).cwiseMax(start_.segment(from, n)).cwiseMin(end.segment(from, n));
}

double SettledStepper::time_at(double at) const {
  const double h = size_, s = (at - begins_) / h;
  return start_time_ + s * s * (3.0 - 2.0 * s) * duration_ +
         h * s * ((1.0 - s) * (1.0 - s) * first_pace_ + s * (s - 1.0) * pace_[0]);
}

void SettledStepper::retake(double size, State& x, double& time) {
  State inside = x, end;
  between(begins_ + size, x, inside);
  const double then = time_at(begins_ + size);
  undo(x);
  if (attempt(size, end) != Trial::no_balance) return take(end, size, x, time);
  // By a hair there is no balance on this way: then where the step as it was says, and no longer settled.
  x = inside;
  time = then;
  size_ = size;
  duration_ = then - start_time_;
  (*system_)(x, slope_, 0.0);
  give_up(time);
}

void SettledStepper::give_up(double time) {
  settled_ = false;
  next_try_ = time + wait_;
}

}  // namespace dullcast::simulation
