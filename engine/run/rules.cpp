#include "engine/run/rules.hpp"

#include "models/dull_grade.hpp"

namespace dullcast {

NewBitReference::NewBitReference(const RunModels& models)
    : bit_(&models.bit), profile_(models.bit.bit, models.bit.edge, usual_spacing(models.bit.bit.shape)) {
  const Eigen::Index n = models.bit.bit.count();
  profile_.update(Eigen::ArrayXd::Zero(n));
  rubbing_ = rubbing_limit(profile_, bit_->surfaces);
  carbide_share_.setConstant(n, 1.0 / bit_->abrasion.carbide_ratio);
}

double NewBitReference::rate_of_penetration(const Stretch& stretch, double weight) {
  const Balance balance = balance_weight(profile_, stretch.resistance, bit_->directions, carbide_share_,
                                         weight, stretch.most_depth_of_cut, rubbing_, guess_);
  guess_ = balance.depth_of_cut;
  return balance.depth_of_cut * stretch.rotary_speed;
}

ReworkJudge::ReworkJudge(const ReworkRules& rules, const RunModels& models)
    : rules_(rules), models_(&models), layout_{models.bit.bit.count()}, new_bit_(models) {}

BitCondition ReworkJudge::condition(const State& x) const {
  BitCondition condition;
  condition.worn_height = layout_.worn(x);
  condition.heat_damage = layout_.damage(x);
  const BitLayout& bit = models_->bit.bit;
  const DullGrade grade = dull_grade(bit.radius, bit.bit_radius, condition.worn_height, bit.exposure);
  condition.inner_dull_grade = grade.inner;
  condition.outer_dull_grade = grade.outer;
  return condition;
}

void ReworkJudge::begin_hole() {
  hole_time_ = new_bit_time_ = 0.0;
}

void ReworkJudge::enter(const DrillingSystem& system, double rotating_time) {
  last_time_ = rotating_time;
  if (!rules_.speed_share_of_new) return;
  const double when_new = new_bit_.rate_of_penetration(system.stretch(), system.instant().weight_asked);
  last_ratio_ = when_new > 0.0 ? system.instant().rate_of_penetration / when_new : 1.0;
}

void ReworkJudge::note(const DrillingSystem& system, double rotating_time) {
  if (!rules_.speed_share_of_new) return;
  const double elapsed = rotating_time - last_time_, ratio_before = last_ratio_;
  enter(system, rotating_time);
  hole_time_ += elapsed;
  new_bit_time_ += elapsed * 0.5 * (ratio_before + last_ratio_);
}

std::vector<RuleUse> ReworkJudge::uses(const State& x) const {
  std::vector<RuleUse> uses;
  if (rules_.worn_height) uses.push_back({"worn_height", layout_.worn(x).maxCoeff() / *rules_.worn_height});
  if (rules_.outer_dull_grade) {
    uses.push_back(
        {"outer_dull_grade", condition(x).outer_dull_grade.value_or(0.0) / *rules_.outer_dull_grade});
  }
  if (rules_.heat_damage) uses.push_back({"heat_damage", layout_.damage(x).maxCoeff() / *rules_.heat_damage});
  if (rules_.speed_share_of_new) {
    uses.push_back({"speed_share_of_new", (1.0 - speed_share()) / (1.0 - *rules_.speed_share_of_new)});
  }
  return uses;
}

RuleUse ReworkJudge::worst(const State& x, bool with_speed) const {
  RuleUse worst{"none", 0.0};
  for (const RuleUse& use : uses(x)) {
    if (!with_speed && use.rule == "speed_share_of_new") continue;
    if (use.used > worst.used || worst.rule == "none") worst = use;
  }
  return worst;
}

double ReworkJudge::beyond_repair_use(const State& x) const {
  return (layout_.worn(x) / models_->bit.bit.exposure).maxCoeff() / rules_.beyond_repair_share;
}

std::vector<int> ReworkJudge::cutters_of(const std::string& rule, const State& x) const {
  const BitLayout& bit = models_->bit.bit;
  const Eigen::ArrayXd measure = rule == "heat_damage"     ? Eigen::ArrayXd(layout_.damage(x))
                                 : rule == "beyond_repair" ? Eigen::ArrayXd(layout_.worn(x) / bit.exposure)
                                                           : Eigen::ArrayXd(layout_.worn(x));
  std::vector<int> cutters;
  const double worst = measure.maxCoeff();
  for (Eigen::Index i = 0; i < measure.size(); ++i) {
    if (worst > 0.0 && measure(i) >= 0.95 * worst) cutters.push_back(static_cast<int>(i));
  }
  return cutters;
}

}  // namespace dullcast
