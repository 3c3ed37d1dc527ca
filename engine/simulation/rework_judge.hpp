#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "engine/simulation/hole_speed.hpp"
#include "engine/simulation/rework_rules.hpp"

namespace dullcast::simulation {

/// Holds a bit against the scenario's rules for when rework is due and when it is beyond repair.
class ReworkJudge {
 public:
  ReworkJudge(const scenario::ReworkRules& rules, const RunModels& models);

  /// Every given rule's share used at state x. `marks` holds what is lost and chipped by then.
  std::vector<RuleUse> uses(const State& x, const BitCondition& marks) const;
  struct Verdict {
    const ReworkRule* rule = nullptr;  // null when the scenario gives none
    double used = 0.0;                 // 1 = due
  };
  /// The rule of which most is used; `hole_done` also weighs what only a whole hole can tell.
  Verdict worst(const State& x, const BitCondition& marks, bool hole_done) const;
  const ReworkRule& beyond_repair() const { return *beyond_repair_; }
  /// The bit as rules see it. The references must outlive it.
  BitAtMoment at(const State& x, const BitCondition& marks) const;
  /// Dull grades and the rest of the bit's condition at x, with the marks carried over.
  BitCondition condition(const State& x, const BitCondition& marks) const;

  /// See HoleSpeed; nothing is worked out where no rule asks for it.
  void begin_hole();
  void enter(const DrillingSystem& system, double rotating_time);
  void note(const DrillingSystem& system, double rotating_time);

 private:
  const RunModels* models_;
  StateLayout layout_;
  RuleList rules_;
  std::unique_ptr<ReworkRule> beyond_repair_;
  std::optional<HoleSpeed> speed_;
};

}  // namespace dullcast::simulation
