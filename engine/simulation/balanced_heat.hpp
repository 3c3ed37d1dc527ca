#pragma once

#include "engine/simulation/drilling_system.hpp"

namespace dullcast::simulation {

/// The balance at which temperatures, water and slots stand where nothing but slow wear moves them,
/// f_fast(T*, y) = 0, and what is left out by taking them to stand there. Works on one system; allocates on
/// construction only.
class BalancedHeat {
 public:
  /// `scale`: error of each entry of the state that is worth 1 per relative tolerance of 1.
  BalancedHeat(DrillingSystem& system, double tolerance, const State& scale);

  /// Moves the fast entries of x to their balance, by Newton's method with the matrix of the linearly
  /// implicit stepper, its shift gone to 0, to a hundredth of what the tolerance allows; the system has
  /// evaluated x then, or a state no further from it than a tenth of that, and `slope` is dx/dt there.
  /// `evaluated`: the system stands at x already, and the fast entries of `slope` are those there. False
  /// where no balance is found, or none that holds.
  bool find(State& x, State& slope, bool evaluated = false);
  /// Whether the balance x, evaluated last, is a plain one: the bit drills, the bottom is full of water that
  /// is not about to boil, slots are clear.
  bool is_plain(const State& x) const;
  /// Where a surface boils past its critical flux there may be other balances than the one evaluated last,
  /// and only a short way is sure to lead to it.
  bool may_be_another(const State& from, const State& to) const;
  /// What slow entries have missed after all the time that the way from `from` to the balance x (with its
  /// slope) takes, had they gone on as at x: for a linear network the integral of T - T* is theta = (-A)^-1
  /// (T_0 - T*), and what rates make of that is f_slow(T* + eta theta) - f_slow(T*) over eta, with eta so
  /// that T moves by no more than it was away. Forces are held. False where it is past the tolerance.
  bool way_is_short(const State& from, const State& x, const State& slope, State& missed);
  /// Whether temperatures that go from one balance to another in `duration` (s) lag behind by no more than
  /// the tolerance: (-A)^-1 dT*/dt.
  bool keeps_up(const State& from, const State& to, double duration);

 private:
  double worst_of_fast(const State& change) const;
  double correction(const State& slope, bool matrix_anew);

  DrillingSystem* system_;
  double tolerance_;
  Eigen::Index fast_, slow_;  // entries of each
  State scale_, change_, moved_, moved_slope_;
  DrillingSystem::Stand stand_;
};

}  // namespace dullcast::simulation
