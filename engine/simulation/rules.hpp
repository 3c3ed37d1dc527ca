#pragma once

#include <vector>

#include "engine/simulation/drilling_system.hpp"
#include "engine/simulation/outcome.hpp"
#include "models/condition/dull_grade.hpp"

namespace dullcast::simulation {

/// What the same bit would do new: its speed at the same settings.
class NewBitReference {
 public:
  explicit NewBitReference(const RunModels& models);
  /// Rate of penetration of the unworn bit under a weight (N) on a stretch, m/s, in its rock as clean or
  /// packed slots leave it.
  double rate_of_penetration(const DrillingInterval& stretch, const cutting::RockResistance& rock,
                             double weight);

 private:
  const BitModels* bit_;
  geometry::WornProfile profile_;
  cutting::RubbingLimit rubbing_;
  Eigen::ArrayXd carbide_share_;
  double guess_ = 0.0;
};

/// The scenario's rules for when rework is due and when the bit is beyond repair, as shares used: 1 = due.
class ReworkJudge {
 public:
  ReworkJudge(const scenario::ReworkRules& rules, const RunModels& models);

  /// Every given rule's share used at state x. `marks` holds what is lost and chipped by then.
  std::vector<RuleUse> uses(const State& x, const BitCondition& marks) const;
  /// The greatest share used, and which rule it is; `with_speed` also weighs the speed rule, which only a
  /// whole hole can tell.
  RuleUse worst(const State& x, const BitCondition& marks, bool with_speed) const;

  /// The speed rule compares the time that this hole has taken with what the same bit new would have taken,
  /// so that one thin hard bed does not condemn a bit. Call begin_hole() at the collar, enter() at the top of
  /// a stretch and note() after each step, with `system` evaluated at that state.
  void begin_hole();
  void enter(const DrillingSystem& system, double rotating_time);
  void note(const DrillingSystem& system, double rotating_time);
  /// Time a new bit would have taken over time taken, in this hole so far; 1 before it begins.
  double speed_share() const { return hole_time_ > 0.0 ? new_bit_time_ / hole_time_ : 1.0; }

  /// Worn height over exposure, of the worst cutter that is there, or erosion over the pockets' depth, over
  /// the share at which pockets start to go.
  double beyond_repair_use(const State& x, const BitCondition& marks) const;
  /// Cutters that a rule points at: those past 95 % of the worst one's share.
  std::vector<int> cutters_of(const std::string& rule, const State& x, const BitCondition& marks) const;
  /// Dull grades and the rest of the bit's condition at x, with the marks carried over. A lost cutter counts
  /// as worn away.
  BitCondition condition(const State& x, const BitCondition& marks) const;
  condition::DullGrade grade(const State& x, const BitCondition& marks) const;
  /// Hole diameter lost to wear of the cutters that reach the gauge, m: twice what their outermost reach has
  /// lost.
  double gauge_loss(const State& x, const BitCondition& marks) const;

 private:
  scenario::ReworkRules rules_;
  const RunModels* models_;
  StateLayout layout_;
  NewBitReference new_bit_;
  double last_time_ = 0.0, last_ratio_ = 1.0, hole_time_ = 0.0, new_bit_time_ = 0.0;
};

}  // namespace dullcast::simulation
