#include "engine/simulation/settled_stepper.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/simulation/rates_along_wear.hpp"

namespace dullcast::simulation {
namespace {

constexpr double most_wear = 1e-4;       // m, of any cutter in one step
constexpr double hazard_share = 0.1;     // of the error scale of chip hazards
constexpr double good_enough = 1.0;      // error over the tolerance with which a trapezoid will do
constexpr double first_wait = 1.0;       // s between the first two tries to settle
constexpr double share_of_cut = 0.5;     // of the depth of cut, that wear errors count by where it is less
constexpr double least_duration = 10.0;  // s: a shorter settled step is no gain
constexpr double longer_to_end = 1.1;
constexpr double greatest_growth = 5.0;

// Bogacki & Shampine's pair.
constexpr double b1 = 2.0 / 9.0, b2 = 1.0 / 3.0, b3 = 4.0 / 9.0;
constexpr double e1 = -5.0 / 72.0, e2 = 1.0 / 12.0, e3 = 1.0 / 9.0, e4 = -1.0 / 8.0;

/// Settled steps are long beside what moves an edge's chance to chip, which is far under 1 as a rule.
State scales_of(const DrillingSystem& system) {
  State scales = system.error_scale();
  system.layout().of(Block::chip_hazard, scales) *= hazard_share;
  return scales;
}

}  // namespace

SettledStepper::SettledStepper(DrillingSystem& system, double tolerance)
    : system_(&system),
      tolerance_(tolerance),
      fast_(system.layout().slow_from()),
      slow_(system.layout().size() - system.layout().slow_from()),
      scale_(scales_of(system)),
      usual_wear_scale_(scale_(system.layout().first(Block::worn))),
      balance_(system, tolerance, scale_),
      hazards_between_(system.layout().cutters) {
  const Eigen::Index n = system.layout().size();
  for (State& slope : slopes_) slope.setZero(slow_);
  for (State* v : {&missed_, &error_, &first_slope_, &added_, &gained_}) v->setZero(slow_);
  for (State* v : {&start_, &stage_, &slope_}) v->setZero(n);
}

void SettledStepper::restart() {
  settled_ = false;
  wait_ = first_wait;
  bend_ = 0.0;
  next_try_ = -std::numeric_limits<double>::infinity();
  next_size_ = std::numeric_limits<double>::infinity();
  missed_.setZero();
}

void SettledStepper::by_depth(const State& slope, std::size_t stage) {
  const double rate = system_->evaluation().rate_of_penetration;
  slopes_[stage] = slope.tail(slow_) / rate;
  pace_[stage] = 1.0 / rate;
}

bool SettledStepper::settle(State& x, double time, const State* slope) {
  next_try_ = time + wait_;
  wait_ *= 2.0;
  const double T_zero = system_->models().ground.inlet_temperature;
  stage_ = x;
  if (slope != nullptr) slope_.head(fast_) = slope->head(fast_);
  if (!balance_.find(stage_, slope_, slope != nullptr) || !balance_.is_plain(stage_) ||
      balance_.may_be_another(x, stage_))
    return false;
  if (!balance_.way_is_short(x, stage_, slope_, missed_)) return false;
  const double before = system_->stored_heat(x, T_zero);
  x = stage_;
  stored_ = system_->stored_heat(x, T_zero);
  const StateLayout& layout = system_->layout();
  // The stores' gain has not been carried off; what the work was other than at the balance is in missed_.
  x(layout.carried()) -= stored_ - before;
  missed_(layout.carried() - fast_) =
      missed_(layout.spent() - fast_) - missed_(layout.left_in_rock() - fast_);
  by_depth(slope_, 0);
  at_start_.note(*system_);
  settled_ = true;
  return true;
}

/// Nothing heals: of the way to the balance no more is made good than the step gains.
void SettledStepper::heal_nothing(State& end) const {
  const StateLayout& layout = system_->layout();
  layout.never_falling(end) = layout.never_falling(end).cwiseMax(layout.never_falling(start_));
}

/// Whether stage_ stands at a plain balance, the end of a step; puts its slopes in place.
bool SettledStepper::ends_balanced(double size) {
  heal_nothing(stage_);
  stage_(system_->layout().depth()) = start_(system_->layout().depth()) + size;
  if (!balance_.find(stage_, slope_) || !balance_.is_plain(stage_)) return false;
  by_depth(slope_, 3);
  at_end_.note(*system_);
  return !balance_.may_be_another(start_, stage_);
}

/// Errors of the slow entries and of time (which is a wrong depth at that time), over the tolerance.
double SettledStepper::worst_of_slow(double late) const {
  return std::max((error_.array().abs() / scale_.tail(slow_).array()).maxCoeff(),
                  late / scale_(system_->layout().depth())) /
         tolerance_;
}

/// From both ends' slopes, the far one at the end of a straight step (rates_along_wear.hpp): one balance
/// instead of three. The far slopes, and the temperatures, are those of the straight step's end, which is
/// nearer to the real one than the tolerance.
SettledStepper::Trial SettledStepper::attempt_straight(double size, State& end) {
  stage_ = start_;
  stage_.tail(slow_) += size * slopes_[0] + missed_;
  if (!ends_balanced(size)) return Trial::no_balance;
  const auto first = slopes_[0].array(), last = slopes_[3].array();
  const Eigen::Index worn = system_->layout().first(Block::worn) - fast_, n = system_->layout().cutters;
  const double bends = wear_bends(first.segment(worn, n), last.segment(worn, n));
  const double counts = count_of_far_end(bends);
  const Eigen::ArrayXd apart = (last - first).abs(), greater = first.abs().max(last.abs());
  error_ = (bend_left_open * size * apart * (apart / greater.max(1e-300)).max(std::abs(bends))).matrix();
  const bool summed = sum_hazards(size);
  if (summed) hazards(error_) = hazard_wrong_;
  const double later = std::abs(pace_[3] - pace_[0]);
  tried_error_ = worst_of_slow(bend_left_open * size * later *
                               std::max(later / std::max(pace_[0], pace_[3]), std::abs(bends)) / pace_[3]);
  bend_ = tried_error_ / (size * size);
  if (!(tried_error_ <= good_enough)) return Trial::too_wrong;
  end = stage_;
  gained_ = size * ((1.0 - counts) * slopes_[0] + counts * slopes_[3]);
  if (summed) hazards(gained_) = hazard_gained_;
  end.tail(slow_) = start_.tail(slow_) + gained_ + missed_;
  heal_nothing(end);
  end(system_->layout().depth()) = stage_(system_->layout().depth());
  duration_ = size * ((1.0 - counts) * pace_[0] + counts * pace_[3]);
  return Trial::accepted;
}

/// Hazards gained from start_ to stage_, a step's end; false where the trapezoid's will do.
bool SettledStepper::sum_hazards(double size) {
  return hazards_between_.gain(*system_, start_, at_start_, stage_, at_end_, size, hazards(slopes_[0]),
                               hazards(slopes_[3]), hazard_gained_, hazard_wrong_);
}

SettledStepper::Trial SettledStepper::attempt(double size, State& end) {
  // What bends by the square of the size, as seen last, tells whether it is worth a trial.
  if (bend_ * size * size <= 2.0 * good_enough && attempt_straight(size, end) == Trial::accepted)
    return Trial::accepted;
  stage_ = start_;
  stage_.tail(slow_) += 0.5 * size * slopes_[0];
  if (!balance_.find(stage_, slope_) || !balance_.is_plain(stage_)) return Trial::no_balance;
  by_depth(slope_, 1);
  stage_.tail(slow_) = start_.tail(slow_) + 0.75 * size * slopes_[1];
  if (!balance_.find(stage_, slope_) || !balance_.is_plain(stage_)) return Trial::no_balance;
  by_depth(slope_, 2);
  gained_ = size * (b1 * slopes_[0] + b2 * slopes_[1] + b3 * slopes_[2]);
  stage_.tail(slow_) = start_.tail(slow_) + gained_ + missed_;
  if (!ends_balanced(size)) return Trial::no_balance;
  end = stage_;
  duration_ = size * (b1 * pace_[0] + b2 * pace_[1] + b3 * pace_[2]);
  error_ = size * (e1 * slopes_[0] + e2 * slopes_[1] + e3 * slopes_[2] + e4 * slopes_[3]);
  if (sum_hazards(size)) {
    // Each edge's as it is known best.
    const auto by_pair = hazards(error_).abs();
    const Eigen::Array<bool, Eigen::Dynamic, 1> summed = hazard_wrong_ < by_pair;
    auto in_end = system_->layout().chip_hazard(end);
    in_end += summed.select(hazard_gained_ - hazards(gained_), 0.0);
    hazards(error_) = summed.select(hazard_wrong_, by_pair);
  }
  tried_error_ = worst_of_slow(
      std::abs(size * (e1 * pace_[0] + e2 * pace_[1] + e3 * pace_[2] + e4 * pace_[3])) / pace_[3]);
  return tried_error_ <= 1.0 ? Trial::accepted : Trial::too_wrong;
}

void SettledStepper::take(const State& end, double size, State& x, double& time) {
  const StateLayout& layout = system_->layout();
  size_ = size;
  first_slope_ = slopes_[0];
  first_pace_ = pace_[0];
  first_moment_ = at_start_;
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
  at_start_ = at_end_;
}

bool SettledStepper::step(State& x, double& time, double to_depth) {
  const StateLayout& layout = system_->layout();
  const double left = to_depth - x(layout.depth());
  start_ = x;
  start_time_ = time;
  begins_ = x(layout.depth());
  // What a cutter stands out by decides what it cuts: wear counts by what is cut in a turn where that is
  // less.
  const double cut = 1.0 / (pace_[0] * system_->interval().rotary_speed);
  layout.of(Block::worn, scale_) = std::min(usual_wear_scale_, share_of_cut * cut);
  // An edge goes from bevel to flat within some edge radii of wear: no step may pass that unseen.
  const double wearing = slopes_[0].segment(layout.first(Block::worn) - fast_, layout.cutters).maxCoeff();
  double size = std::min({next_size_, left, wearing > 0.0 ? most_wear / wearing : left});
  bool refused = false;
  State end;
  for (;;) {
    // The last, or the last two of one length, may be a little longer so that they end there.
    if (left <= 2.0 * longer_to_end * size) size = left / std::ceil(left / (longer_to_end * size));
    const Trial trial = attempt(size, end);
    if (trial == Trial::accepted && !balance_.keeps_up(start_, end, duration_)) break;
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
  at_start_ = first_moment_;
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
  const StateLayout& layout = system_->layout();
  layout.never_falling(x) =
      layout.never_falling(x).cwiseMax(layout.never_falling(start_)).cwiseMin(layout.never_falling(end));
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
