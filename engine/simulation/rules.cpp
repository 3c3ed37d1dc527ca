#include "engine/simulation/rules.hpp"

#include <algorithm>
#include <cmath>

#include "models/cutting/gauge.hpp"
#include "models/wear/body_wear.hpp"

namespace dullcast::simulation {

NewBitReference::NewBitReference(const RunModels& models)
    : bit_(&models.bit),
      profile_(models.bit.bit, models.bit.edge, geometry::usual_spacing(models.bit.bit.shape)) {
  const Eigen::Index n = models.bit.bit.count();
  profile_.update(Eigen::ArrayXd::Zero(n));
  rubbing_ = cutting::rubbing_limit(profile_, bit_->mechanics.surfaces);
  carbide_share_.setConstant(n, 1.0 / bit_->wear.abrasion.carbide_ratio);
}

double NewBitReference::rate_of_penetration(const DrillingInterval& stretch,
                                            const cutting::RockResistance& rock, double weight) {
  const cutting::Balance balance =
      cutting::balance_weight(profile_, rock, bit_->mechanics.directions, carbide_share_, weight,
                              stretch.most_depth_of_cut, rubbing_, guess_);
  guess_ = balance.depth_of_cut;
  return balance.depth_of_cut * stretch.rotary_speed;
}

ReworkJudge::ReworkJudge(const scenario::ReworkRules& rules, const RunModels& models)
    : rules_(rules), models_(&models), layout_(models.bit.bit.count()), new_bit_(models) {}

BitCondition ReworkJudge::condition(const State& x, const BitCondition& marks) const {
  BitCondition condition = marks;
  condition.worn_height = layout_.worn(x);
  condition.heat_damage = layout_.damage(x);
  condition.chip_hazard = layout_.chip_hazard(x);
  condition.eroded = x(layout_.eroded());
  condition.blade_wear = x(layout_.blade_wear());
  condition.pad_wear = x(layout_.pad_wear());
  condition.gauge_loss = gauge_loss(x, marks);
  const condition::DullGrade dull = grade(x, marks);
  condition.inner_dull_grade = dull.inner;
  condition.outer_dull_grade = dull.outer;
  return condition;
}

condition::DullGrade ReworkJudge::grade(const State& x, const BitCondition& marks) const {
  const geometry::BitLayout& bit = models_->bit.bit;
  const Eigen::ArrayXd gone = marks.lost.cast<double>();
  return condition::dull_grade(bit.radius, bit.bit_radius,
                               (1.0 - gone) * layout_.worn(x) + gone * bit.exposure, bit.exposure);
}

double ReworkJudge::gauge_loss(const State& x, const BitCondition& marks) const {
  return cutting::hole_diameter_loss(models_->bit.bit, layout_.worn(x), marks.lost);
}

void ReworkJudge::begin_hole() {
  hole_time_ = new_bit_time_ = 0.0;
}

void ReworkJudge::enter(const DrillingSystem& system, double rotating_time) {
  last_time_ = rotating_time;
  if (!rules_.speed_share_of_new) return;
  const double when_new = new_bit_.rate_of_penetration(system.interval(), system.evaluation().resistance,
                                                       system.evaluation().weight_asked);
  last_ratio_ = when_new > 0.0 ? system.evaluation().rate_of_penetration / when_new : 1.0;
}

void ReworkJudge::note(const DrillingSystem& system, double rotating_time) {
  if (!rules_.speed_share_of_new) return;
  const double elapsed = rotating_time - last_time_, ratio_before = last_ratio_;
  enter(system, rotating_time);
  hole_time_ += elapsed;
  new_bit_time_ += elapsed * 0.5 * (ratio_before + last_ratio_);
}

std::vector<RuleUse> ReworkJudge::uses(const State& x, const BitCondition& marks) const {
  std::vector<RuleUse> uses;
  const Eigen::ArrayXd there = (1 - marks.lost).cast<double>();
  if (rules_.worn_height)
    uses.push_back({"worn_height", (layout_.worn(x) * there).maxCoeff() / *rules_.worn_height});
  if (rules_.outer_dull_grade) {
    uses.push_back({"outer_dull_grade", grade(x, marks).outer.value_or(0.0) / *rules_.outer_dull_grade});
  }
  if (rules_.heat_damage) uses.push_back({"heat_damage", layout_.damage(x).maxCoeff() / *rules_.heat_damage});
  if (rules_.speed_share_of_new) {
    uses.push_back({"speed_share_of_new", (1.0 - speed_share()) / (1.0 - *rules_.speed_share_of_new)});
  }
  if (rules_.chip_probability) {
    uses.push_back(
        {"chip_probability", -std::expm1(-layout_.chip_hazard(x).maxCoeff()) / *rules_.chip_probability});
  }
  if (rules_.gauge_loss) uses.push_back({"gauge_loss", gauge_loss(x, marks) / *rules_.gauge_loss});
  if (rules_.lost_cutters)
    uses.push_back(
        {"lost_cutters", static_cast<double>(marks.lost.max(marks.table_gone).sum()) / *rules_.lost_cutters});
  return uses;
}

RuleUse ReworkJudge::worst(const State& x, const BitCondition& marks, bool with_speed) const {
  RuleUse worst{"none", 0.0};
  for (const RuleUse& use : uses(x, marks)) {
    if (!with_speed && use.rule == "speed_share_of_new") continue;
    if (use.used > worst.used || worst.rule == "none") worst = use;
  }
  return worst;
}

double ReworkJudge::beyond_repair_use(const State& x, const BitCondition& marks) const {
  const BitModels& bit = models_->bit;
  const Eigen::ArrayXd there = (1 - marks.lost).cast<double>();
  const double worn = (layout_.worn(x) * there / bit.bit.exposure).maxCoeff();
  return std::max(worn, x(layout_.eroded()) / bit.retention.pocket_depth) / rules_.beyond_repair_share;
}

std::vector<int> ReworkJudge::cutters_of(const std::string& rule, const State& x,
                                         const BitCondition& marks) const {
  std::vector<int> cutters;
  // These are about the whole bit.
  if (rule == "gauge_loss" || rule == "blade_sheared") return cutters;
  const geometry::BitLayout& bit = models_->bit.bit;
  const Eigen::ArrayXd there = (1 - marks.lost).cast<double>();
  const Eigen::ArrayXd measure =
      rule == "heat_damage"        ? Eigen::ArrayXd(layout_.damage(x))
      : rule == "beyond_repair"    ? Eigen::ArrayXd(layout_.worn(x) * there / bit.exposure)
      : rule == "chip_probability" ? Eigen::ArrayXd(layout_.chip_hazard(x))
      : rule == "lost_cutters"     ? Eigen::ArrayXd(marks.lost.max(marks.table_gone).cast<double>())
                                   : Eigen::ArrayXd(layout_.worn(x) * there);
  const double worst = measure.maxCoeff();
  for (Eigen::Index i = 0; i < measure.size(); ++i) {
    if (worst > 0.0 && measure(i) >= 0.95 * worst) cutters.push_back(static_cast<int>(i));
  }
  return cutters;
}

}  // namespace dullcast::simulation
