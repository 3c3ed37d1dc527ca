#pragma once

#include "engine/simulation/drawn_strengths.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::simulation {

/// What has broken of a bit so far and what it has borne: marks that no rate describes, and the strengths
/// that decide what breaks next.
class BitDamage {
 public:
  /// As the scenario's bit starts; `hazard` is its edges' chip hazard then.
  BitDamage(const scenario::Scenario& scenario, const failure::CutterRetention& retention,
            const Eigen::ArrayXd& hazard);

  /// Chips, lost cutters and tables and greatest loads; the rest of the condition is in the state.
  const BitCondition& marks() const { return marks_; }
  /// Notes the loads at the last evaluation of `system`, which evaluated x; returns the greatest of any
  /// pocket, bond or blade, over median strength. Throws std::runtime_error when one is not a number.
  double note_loads(const DrillingSystem& system, const State& x);
  /// What is nearest to letting go at the last evaluation of `system`, which evaluated x.
  failure::WeakestLink weakest(const DrillingSystem& system, const State& x) const;
  /// Hazard at which an edge chips next.
  double chips_at(Eigen::Index cutter) const { return chips_at_(cutter); }

  void count_chip(Eigen::Index cutter);
  void mark_lost(Eigen::Index cutter) { marks_.lost(cutter) = 1; }
  void mark_table_gone(Eigen::Index cutter) { marks_.table_gone(cutter) = 1; }

 private:
  scenario::RandomEvents random_events_;
  failure::RetentionStrengths strengths_;
  failure::RetentionLoads loads_;
  mutable failure::RetentionLoads trial_;  // storage of weakest(), which allocates nothing that way
  BitCondition marks_;
  Eigen::ArrayXd chips_at_;
};

}  // namespace dullcast::simulation
