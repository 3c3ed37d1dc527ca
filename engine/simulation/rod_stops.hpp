#pragma once

#include "engine/simulation/balanced_heat.hpp"
#include "engine/simulation/cooling_off.hpp"

namespace dullcast::simulation {

/// What a stop for a rod does to a bit whose heat stands settled before it and settles again after it: the
/// bit is lifted and cools, cold flow may meet what is still hot, it is set on bottom again and warms.
/// Nothing but edges and damage is moved by that, and how much changes slowly with depth; so a long step of
/// the settled bit goes over many stops and adds what they do, instead of following each.
///
/// The cooling is CoolingOff's; bits that begin it alike end it more so, and are cooled once. What the
/// warming again misses is estimated as BalancedHeat has it. Forces are those before the stop.
class RodStops {
 public:
  /// `stepped`: the system that stands where the settled stepper does.
  RodStops(const RunModels& models, DrillingSystem& stepped, double tolerance);

  /// The interval that is drilled, and the same as it is while a rod is added, for `seconds`. Both must
  /// outlive their use here.
  void enter(const DrillingInterval& drilled, const DrillingInterval& lifted, double seconds);

  struct Stop {
    State gained;                // of the slow entries of the state
    double hottest_table = 0.0;  // K, as the flow comes back
    Eigen::Index hottest_cutter = 0;
    bool flow_returns = false;
  };
  /// One stop at the settled state x, with dx/dt there, where the stepped system stands and has its matrix at
  /// rest. False where it has to be followed: water might boil, or more would be missed than the tolerance
  /// allows.
  bool stop_here(const State& x, const State& slope, Stop& done) { return stop(stepped_, x, slope, done); }
  /// The same at any settled state.
  bool stop(const State& x, Stop& done);

  /// Carries what has become of cutters over to the systems used here.
  void on_systems(const auto& act) {
    act(own_);
    act(lifted_);
  }

 private:
  /// A system that drills, and what looks at other temperatures in its place.
  struct Drilled {
    DrillingSystem& system;
    BalancedHeat balance;
    DrillingSystem::Stand stand;
  };
  bool stop(Drilled& drilled, const State& x, const State& slope, Stop& done);
  bool cool(const State& x);
  bool add_warming(Drilled& drilled, const State& settled, const State& slope, State& gained);

  double tolerance_, seconds_ = 0.0;
  DrillingSystem own_, lifted_;
  Drilled stepped_, elsewhere_;
  CoolingOff cooling_;
  Eigen::Index fast_, slow_;
  State slope_, hot_, cold_, trial_, missed_;
  bool cooled_ = false;  // cold_ is what becomes of hot_
};

}  // namespace dullcast::simulation
