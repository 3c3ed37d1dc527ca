#pragma once

#include <vector>

#include "engine/run/drilling_system.hpp"
#include "engine/run/outcome.hpp"

namespace dullcast {

/// What the same bit would do new: its speed at the same settings.
class NewBitReference {
 public:
  explicit NewBitReference(const RunModels& models);
  /// Rate of penetration of the unworn bit under a weight (N) on a stretch, m/s.
  double rate_of_penetration(const Stretch& stretch, double weight);

 private:
  const BitModels* bit_;
  WornProfile profile_;
  RubbingLimit rubbing_;
  Eigen::ArrayXd carbide_share_;
  double guess_ = 0.0;
};

/// The scenario's rules for when rework is due and when the bit is beyond repair, as shares used: 1 = due.
class ReworkJudge {
 public:
  ReworkJudge(const ReworkRules& rules, const RunModels& models);

  /// Every given rule's share used at state x; `instant` must be of that state.
  std::vector<RuleUse> uses(const State& x, const DrillingSystem& system);
  /// The greatest share used, and which rule it is.
  RuleUse worst(const State& x, const DrillingSystem& system);
  /// Worn height over exposure, of the worst cutter, over the share at which pockets start to go.
  double beyond_repair_use(const State& x) const;
  /// Cutters that a rule points at: those past 95 % of the worst one's share.
  std::vector<int> cutters_of(const std::string& rule, const State& x) const;
  /// Dull grades and the rest of the bit's condition at x.
  BitCondition condition(const State& x) const;

 private:
  ReworkRules rules_;
  const RunModels* models_;
  StateLayout layout_;
  NewBitReference new_bit_;
};

}  // namespace dullcast
