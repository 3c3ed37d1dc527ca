#pragma once

#include <array>
#include <limits>

#include "engine/simulation/balanced_heat.hpp"
#include "engine/simulation/hazards_between.hpp"
#include "engine/simulation/step_taken.hpp"

namespace dullcast::simulation {

/// Steps a bit whose heat has settled, in depth. After a change of rock or settings heat moves within seconds
/// to minutes; from then on temperatures, water and slots stand at a balance that wear moves over hours.
/// There only what is slow is stepped:
///   dy/dz = f_slow(T*(y), y)/ROP,  f_fast(T*(y), y) = 0,
/// y wear, damage, hazards, losses of steel, energies and time, T* the balance, found by Newton's method from
/// the last one with the matrix of the linearly implicit stepper, whose shift goes to 0. Where rates change
/// little over a step the rates at both ends do (rates_along_wear.hpp); else a pair of third order with an
/// embedded second (Bogacki & Shampine, Appl. Math. Letters 2, 1989 [pub]). The last stage is the next step's
/// first. Steps end on a depth, so that an interval's end needs no root.
///
/// What it leaves out is estimated (BalancedHeat) and refused where it is past the tolerance, each entry of
/// the state by its error scale (state_layout.hpp): the way to the balance from where heat stood, of which
/// what slow entries missed is added to the first step, and the lag behind a balance that moves. Where there
/// is no balance that holds, or none that is plain (water is missing or about to boil, slots pack, nothing is
/// cut), heat is followed in time instead; past a critical flux there may be several balances, and the one
/// that a short way leads to is taken.
/// A settled step keeps the heat ledger exact: what its stages' fluxes miss of the heat that stores gained
/// leaves with the fluid.
class SettledStepper final : public StepTaken {
 public:
  SettledStepper(DrillingSystem& system, double tolerance);

  /// Whether the state handed out last stands at its balance; system() has evaluated it.
  bool settled() const { return settled_; }
  /// dx/dt at the balance that system() stands at.
  const State& slope() const { return slope_; }
  /// The state or the system has jumped.
  void restart();
  /// Whether to try now to settle (time in s): at once after a restart, then ever more seldom while it fails.
  bool worth_trying(double time) const { return !settled_ && time >= next_try_; }
  /// Moves x to its balance where what that leaves out is within the tolerance; false leaves x as it is.
  /// `slope`: rates of what is fast at x, where the system has just evaluated it.
  bool settle(State& x, double time, const State* slope = nullptr);
  /// One step of a settled bit, `to_depth` (m) at most. False, and no longer settled, where it fails: x
  /// stays.
  bool step(State& x, double& time, double to_depth);
  /// Goes back to where the last step began: x moves there. Only right after it, before anything has been
  /// made of it; the system is left where the step ended.
  void undo(State& x);

  double begins() const override { return begins_; }
  double ends() const override { return begins_ + size_; }
  void between(double at, const State& end, State& x) const override;
  double time_at(double at) const override;
  void retake(double size, State& x, double& time) override;

  long steps() const { return steps_; }
  long refused() const { return refused_; }

 private:
  enum class Trial { accepted, too_wrong, no_balance };

  void heal_nothing(State& end) const;
  auto hazards(State& slow) const {
    return slow.segment(system_->layout().first(Block::chip_hazard) - fast_, system_->layout().cutters)
        .array();
  }
  bool ends_balanced(double size);
  double worst_of_slow(double late) const;
  bool sum_hazards(double size);
  Trial attempt_straight(double size, State& end);
  Trial attempt(double size, State& end);
  void take(const State& end, double size, State& x, double& time);
  /// Slow slopes by depth and time by depth (s/m).
  void by_depth(const State& slope, std::size_t stage);
  void give_up(double time);

  DrillingSystem* system_;
  double tolerance_;
  Eigen::Index fast_, slow_;  // entries of each
  State scale_;
  double usual_wear_scale_;  // m
  BalancedHeat balance_;
  bool settled_ = false;
  double next_try_ = -std::numeric_limits<double>::infinity();  // s
  double wait_ = 1.0;                                           // s, from one try to the next
  double stored_ = 0.0;                                         // J in the stores at the last settled state
  double next_size_ = std::numeric_limits<double>::infinity();  // m
  double bend_ = 0.0;  // 1/m2, error of the last trapezoid over the tolerance and its size squared
  State missed_;       // of the slow entries, to be added to the first step
  // The last step, or the one tried: its stages' slopes by depth, and time by depth.
  std::array<State, 4> slopes_;
  std::array<double, 4> pace_{};
  State start_, stage_, slope_, error_, first_slope_, gained_;
  double begins_ = 0.0, size_ = 0.0, start_time_ = 0.0, duration_ = 0.0, first_pace_ = 0.0;
  double start_stored_ = 0.0, tried_error_ = 0.0;
  State added_;  // of missed_, to the last step
  HazardsBetween hazards_between_;
  EdgeMoment at_start_, at_end_, first_moment_;
  Eigen::ArrayXd hazard_gained_, hazard_wrong_;
  long steps_ = 0, refused_ = 0;
};

}  // namespace dullcast::simulation
