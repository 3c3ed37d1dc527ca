#pragma once

#include "engine/simulation/balanced_heat.hpp"
#include "engine/simulation/linearly_implicit_stepper.hpp"

namespace dullcast::simulation {

/// What a stop for a rod does to a bit whose heat stands settled before it and settles again after it: the
/// bit is lifted and cools, cold flow may meet what is still hot, it is set on bottom again and warms.
/// Nothing but edges and damage is moved by that, and how much changes slowly with depth; so a long step of
/// the settled bit goes over many stops and adds what they do, instead of following each.
///
/// The cooling is stepped in time with the linearly implicit method (linearly_implicit_stepper.hpp). Where no
/// surface boils the network is linear but for diamond's heat capacity, since off bottom nothing is made: it
/// is stepped as linearised at each step's start, which costs one evaluation. What the warming again misses
/// is estimated as BalancedHeat has it.
class RodStops {
 public:
  RodStops(const RunModels& models, double tolerance);

  /// The interval that is drilled, and the same as it is while a rod is added, for `seconds`. Both must
  /// outlive their use here.
  void enter(const DrillingInterval& drilled, const DrillingInterval& lifted, double seconds);

  struct Stop {
    State gained;                // of the slow entries of the state
    double hottest_table = 0.0;  // K, as the flow comes back
    Eigen::Index hottest_cutter = 0;
    bool flow_returns = false;
  };
  /// One stop at the settled state x. False where it has to be followed: water might boil, or more would be
  /// missed than the tolerance allows.
  bool stop(const State& x, Stop& done);

  /// Carries what has become of cutters over to the systems used here.
  void on_systems(const auto& act) {
    act(drilled_);
    act(lifted_);
  }

 private:
  bool cool(State& x);
  double hottest(const State& x) const;
  bool cooling_step(const State& x, bool linear, double dt, double& error);
  bool add_warming(const State& settled, const State& cold, State& gained);

  double tolerance_, seconds_ = 0.0;
  DrillingSystem drilled_, lifted_;
  BalancedHeat balance_;
  Ros34Pw2 coefficients_;
  Eigen::Index fast_, slow_;
  State slope_, cold_, trial_, error_, balanced_slope_, missed_;
  std::array<State, 4> increments_, products_;
};

}  // namespace dullcast::simulation
