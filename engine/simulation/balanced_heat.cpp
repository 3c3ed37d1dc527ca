#include "engine/simulation/balanced_heat.hpp"

#include <cmath>
#include <exception>
#include <limits>

#include "engine/simulation/stand_kept.hpp"

namespace dullcast::simulation {
namespace {

/// A balance is found when what is wrong with it is this share of what the tolerance allows.
constexpr double found_to = 0.01;
/// A correction of this share is made without another look: what it leaves is of its square, and rates hardly
/// feel it.
constexpr double last_correction = 0.1;
/// A greater one is made by a matrix of its own: what one of near by leaves of it would take another look.
constexpr double far_for_known = 2.0;
constexpr int most_corrections = 12;
constexpr double short_way = 0.1;      // of the error scale of temperatures: 10 K
constexpr double little_water = 0.01;  // 1, of its full amount, that may be missing
constexpr double little_packing = 0.01;

}  // namespace

BalancedHeat::BalancedHeat(DrillingSystem& system, double tolerance, const State& scale)
    : system_(&system),
      tolerance_(tolerance),
      fast_(system.layout().slow_from()),
      slow_(system.layout().size() - fast_),
      scale_(scale) {
  for (State* v : {&change_, &moved_, &moved_slope_}) v->setZero(fast_ + slow_);
}

double BalancedHeat::worst_of_fast(const State& change) const {
  return (change.head(fast_).array().abs() / scale_.head(fast_).array()).maxCoeff() / tolerance_;
}

/// Newton's correction at the last evaluation, into change_; how great it is. NaN where none holds.
double BalancedHeat::correction(const State& slope, bool matrix_anew) {
  ThermalMatrix& matrix = system_->thermal_matrix();
  change_.head(fast_) = slope.head(fast_);
  change_.tail(slow_).setZero();
  if (matrix_anew) {
    system_->linearise();
    if (!matrix.factorise_at_rest()) return std::numeric_limits<double>::quiet_NaN();
  }
  matrix.solve(change_);
  return worst_of_fast(change_);
}

bool BalancedHeat::find(State& x, State& slope, bool evaluated) {
  try {
    for (int k = 0; k < most_corrections; ++k) {
      if (k > 0 || !evaluated) system_->find_fast_rates(x, slope);
      // Without boiling the balance is linear, and the first correction all there is to make; a matrix of
      // near by leaves some hundredths of it.
      const bool known = system_->thermal_matrix().rests_plainly() && !system_->bends();
      double wrong = correction(slope, k == 0 && !known);
      const double enough = !known ? found_to : k == 0 ? far_for_known : last_correction;
      if ((k > 0 || known) && wrong > enough) wrong = correction(slope, true);
      if (!std::isfinite(wrong)) return false;
      if (wrong > found_to) x.head(fast_) += change_.head(fast_);
      // Slots answer to nothing but the cut, and bend: they are brought all the way at once.
      if (k == 0 && wrong > last_correction) system_->settle_slots(x);
      if (wrong <= last_correction) {
        system_->find_slow_rates(x, slope);
        return true;
      }
    }
  } catch (const std::exception&) {
    // a trial state that no model knows; what is wrong with the run itself shows where it is followed
  }
  return false;
}

bool BalancedHeat::is_plain(const State& x) const {
  const Evaluation& now = system_->evaluation();
  const StateLayout& layout = system_->layout();
  // Without flow nothing is carried off: what Newton's method finds then is no state of slots.
  return now.rate_of_penetration > 0.0 && system_->near_boiling(x) < 0.0 &&
         std::abs(x(layout.water()) - 1.0) < little_water && now.bottom.slot.packing < little_packing &&
         x(layout.solids()) >= -little_packing && std::abs(x(layout.plug())) < little_packing;
}

bool BalancedHeat::may_be_another(const State& from, const State& to) const {
  const bool past_critical = system_->falls() || (system_->evaluation().heats.film > 0.0).any();
  return past_critical && worst_of_fast(to - from) * tolerance_ > short_way;
}

bool BalancedHeat::way_is_short(const State& from, const State& x, const State& slope, State& missed) {
  missed.setZero(slow_);
  change_.head(fast_) = from.head(fast_) - x.head(fast_);
  change_.tail(slow_).setZero();
  const double away = worst_of_fast(change_);
  if (away <= found_to) return true;
  system_->thermal_matrix().solve(change_);
  const double reach = worst_of_fast(change_);
  if (!std::isfinite(reach) || !(reach > 0.0)) return false;
  const double eta = away / reach;  // 1/s
  moved_ = x;
  moved_.head(fast_) += eta * change_.head(fast_);
  try {
    const StandKept kept(*system_, stand_);
    (*system_)(moved_, moved_slope_, 0.0);
  } catch (const std::exception&) {
    return false;
  }
  missed = (moved_slope_.tail(slow_) - slope.tail(slow_)) / eta;
  return (missed.array().abs() / scale_.tail(slow_).array()).maxCoeff() <= tolerance_;
}

bool BalancedHeat::keeps_up(const State& from, const State& to, double duration) {
  change_.head(fast_) = (to.head(fast_) - from.head(fast_)) / duration;
  change_.tail(slow_).setZero();
  system_->thermal_matrix().solve(change_);
  return worst_of_fast(change_) <= 1.0;
}

}  // namespace dullcast::simulation
