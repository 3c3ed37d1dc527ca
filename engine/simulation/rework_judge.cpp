#include "engine/simulation/rework_judge.hpp"

#include <algorithm>

namespace dullcast::simulation {

ReworkJudge::ReworkJudge(const scenario::ReworkRules& rules, const RunModels& models)
    : models_(&models),
      layout_(models.bit.bit.count()),
      rules_(rework_rules(rules)),
      beyond_repair_(beyond_repair_rule(rules)) {
  if (rules.speed_share_of_new) speed_.emplace(models);
}

BitAtMoment ReworkJudge::at(const State& x, const BitCondition& marks) const {
  return {models_->bit, layout_, x, marks, speed_ ? speed_->share_of_new() : 1.0};
}

BitCondition ReworkJudge::condition(const State& x, const BitCondition& marks) const {
  const BitAtMoment bit = at(x, marks);
  BitCondition condition = marks;
  condition.worn_height = layout_.worn(x);
  condition.heat_damage = layout_.damage(x);
  condition.chip_hazard = layout_.chip_hazard(x);
  condition.eroded = x(layout_.eroded());
  condition.blade_wear = x(layout_.blade_wear());
  condition.pad_wear = x(layout_.pad_wear());
  condition.gauge_loss = gauge_loss(bit);
  const condition::DullGrade dull = grade(bit);
  condition.inner_dull_grade = dull.inner;
  condition.outer_dull_grade = dull.outer;
  return condition;
}

std::vector<RuleUse> ReworkJudge::uses(const State& x, const BitCondition& marks) const {
  const BitAtMoment bit = at(x, marks);
  std::vector<RuleUse> uses;
  // A worn bit that makes more progress than a new one has used nothing of what it may lose.
  for (const auto& rule : rules_) uses.push_back({rule->name(), std::max(0.0, rule->used(bit))});
  return uses;
}

ReworkJudge::Verdict ReworkJudge::worst(const State& x, const BitCondition& marks, bool hole_done) const {
  const BitAtMoment bit = at(x, marks);
  Verdict worst;
  for (const auto& rule : rules_) {
    if (!hole_done && rule->of_whole_hole()) continue;
    const double used = rule->used(bit);
    if (worst.rule == nullptr || used > worst.used) worst = {rule.get(), used};
  }
  return worst;
}

void ReworkJudge::begin_hole() {
  if (speed_) speed_->begin();
}

void ReworkJudge::enter(const DrillingSystem& system, double rotating_time) {
  if (speed_) speed_->enter(system, rotating_time);
}

void ReworkJudge::note(const DrillingSystem& system, double rotating_time) {
  if (speed_) speed_->note(system, rotating_time);
}

}  // namespace dullcast::simulation
