#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/simulation/bit_models.hpp"
#include "engine/simulation/outcome.hpp"
#include "engine/simulation/state_layout.hpp"
#include "models/condition/dull_grade.hpp"

namespace dullcast::simulation {

/// The bit as rules see it: its state x, and what is lost and chipped by then.
struct BitAtMoment {
  const BitModels& models;
  const StateLayout& layout;
  const State& x;
  const BitCondition& marks;
  double hole_speed_share;  // speed of this hole so far over what the same bit new would have made

  /// 1 for a cutter that is there, 0 for a lost one.
  Eigen::ArrayXd there() const { return (1 - marks.lost).cast<double>(); }
};

/// IADC dull grades; a lost cutter counts as worn away.
condition::DullGrade grade(const BitAtMoment& bit);
/// Hole diameter lost to wear of the cutters that reach the gauge, m: twice what their outermost reach has
/// lost.
double gauge_loss(const BitAtMoment& bit);

/// One rule of the scenario for what may become of a bit.
class ReworkRule {
 public:
  ReworkRule() = default;
  ReworkRule(const ReworkRule&) = delete;
  ReworkRule& operator=(const ReworkRule&) = delete;
  virtual ~ReworkRule() = default;

  /// As scenarios and results call it.
  virtual std::string name() const = 0;
  /// Share of its allowance that is used: 1 is due.
  virtual double used(const BitAtMoment& bit) const = 0;
  /// What tells the cutters that it points at from the others: theirs is the greatest. Worn heights, unless a
  /// rule says otherwise; none where it is about the whole bit.
  virtual std::optional<Eigen::ArrayXd> by_cutter(const BitAtMoment& bit) const;
  /// Whether only a whole hole can tell.
  virtual bool of_whole_hole() const { return false; }

  /// The cutters it points at: those past 95 % of the worst one's measure.
  std::vector<int> cutters(const BitAtMoment& bit) const;
};
using RuleList = std::vector<std::unique_ptr<ReworkRule>>;

/// Those of the rules for when rework is due that the scenario gives, in the order of scenario::ReworkRules.
RuleList rework_rules(const scenario::ReworkRules& given);
/// Worn height over exposure, of the worst cutter that is there, or erosion over the pockets' depth, over the
/// share at which pockets start to go.
std::unique_ptr<ReworkRule> beyond_repair_rule(const scenario::ReworkRules& given);

}  // namespace dullcast::simulation
