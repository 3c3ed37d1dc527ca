#include "engine/simulation/rework_rules.hpp"

#include <algorithm>
#include <cmath>

#include "models/cutting/gauge.hpp"

namespace dullcast::simulation {
namespace {

Eigen::ArrayXd worn_height(const BitAtMoment& bit) {
  return bit.layout.worn(bit.x) * bit.there();
}

class WornHeightRule : public ReworkRule {
 public:
  explicit WornHeightRule(double most) : most_(most) {}
  std::string name() const override { return "worn_height"; }
  double used(const BitAtMoment& bit) const override { return worn_height(bit).maxCoeff() / most_; }

 private:
  double most_;  // m
};

class OuterGradeRule : public ReworkRule {
 public:
  explicit OuterGradeRule(double most) : most_(most) {}
  std::string name() const override { return "outer_dull_grade"; }
  double used(const BitAtMoment& bit) const override { return grade(bit).outer.value_or(0.0) / most_; }

 private:
  double most_;  // eighths
};

class HeatDamageRule : public ReworkRule {
 public:
  explicit HeatDamageRule(double most) : most_(most) {}
  std::string name() const override { return "heat_damage"; }
  double used(const BitAtMoment& bit) const override { return bit.layout.damage(bit.x).maxCoeff() / most_; }
  std::optional<Eigen::ArrayXd> by_cutter(const BitAtMoment& bit) const override {
    return bit.layout.damage(bit.x);
  }

 private:
  double most_;
};

class SpeedRule : public ReworkRule {
 public:
  explicit SpeedRule(double least_share) : least_share_(least_share) {}
  std::string name() const override { return "speed_share_of_new"; }
  double used(const BitAtMoment& bit) const override {
    return (1.0 - bit.hole_speed_share) / (1.0 - least_share_);
  }
  bool of_whole_hole() const override { return true; }

 private:
  double least_share_;
};

class ChipProbabilityRule : public ReworkRule {
 public:
  explicit ChipProbabilityRule(double most) : most_(most) {}
  std::string name() const override { return "chip_probability"; }
  double used(const BitAtMoment& bit) const override {
    return -std::expm1(-bit.layout.chip_hazard(bit.x).maxCoeff()) / most_;
  }
  std::optional<Eigen::ArrayXd> by_cutter(const BitAtMoment& bit) const override {
    return bit.layout.chip_hazard(bit.x);
  }

 private:
  double most_;
};

class GaugeLossRule : public ReworkRule {
 public:
  explicit GaugeLossRule(double most) : most_(most) {}
  std::string name() const override { return "gauge_loss"; }
  double used(const BitAtMoment& bit) const override { return gauge_loss(bit) / most_; }
  std::optional<Eigen::ArrayXd> by_cutter(const BitAtMoment&) const override { return std::nullopt; }

 private:
  double most_;  // m
};

/// Cutters that are lost, or bared of their diamond.
class LostCuttersRule : public ReworkRule {
 public:
  explicit LostCuttersRule(double most) : most_(most) {}
  std::string name() const override { return "lost_cutters"; }
  double used(const BitAtMoment& bit) const override { return spent(bit).sum() / most_; }
  std::optional<Eigen::ArrayXd> by_cutter(const BitAtMoment& bit) const override { return spent(bit); }

 private:
  static Eigen::ArrayXd spent(const BitAtMoment& bit) {
    return bit.marks.lost.max(bit.marks.table_gone).cast<double>();
  }
  double most_;
};

class BeyondRepairRule : public ReworkRule {
 public:
  explicit BeyondRepairRule(double share) : share_(share) {}
  std::string name() const override { return "beyond_repair"; }
  double used(const BitAtMoment& bit) const override {
    const double eroded = bit.x(bit.layout.eroded()) / bit.models.retention.pocket_depth;
    return std::max(by_exposure(bit).maxCoeff(), eroded) / share_;
  }
  std::optional<Eigen::ArrayXd> by_cutter(const BitAtMoment& bit) const override { return by_exposure(bit); }

 private:
  static Eigen::ArrayXd by_exposure(const BitAtMoment& bit) {
    return worn_height(bit) / bit.models.bit.exposure;
  }
  double share_;
};

template <class Rule>
void add(RuleList& rules, const std::optional<double>& allowance) {
  if (allowance) rules.push_back(std::make_unique<Rule>(*allowance));
}

}  // namespace

condition::DullGrade grade(const BitAtMoment& bit) {
  const geometry::BitLayout& layout = bit.models.bit;
  const Eigen::ArrayXd gone = bit.marks.lost.cast<double>();
  return condition::dull_grade(layout.radius, layout.bit_radius, worn_height(bit) + gone * layout.exposure,
                               layout.exposure);
}

double gauge_loss(const BitAtMoment& bit) {
  return cutting::hole_diameter_loss(bit.models.bit, bit.layout.worn(bit.x), bit.marks.lost);
}

std::optional<Eigen::ArrayXd> ReworkRule::by_cutter(const BitAtMoment& bit) const {
  return worn_height(bit);
}

std::vector<int> ReworkRule::cutters(const BitAtMoment& bit) const {
  std::vector<int> cutters;
  const std::optional<Eigen::ArrayXd> measure = by_cutter(bit);
  if (!measure) return cutters;
  const double worst = measure->maxCoeff();
  for (Eigen::Index i = 0; i < measure->size(); ++i) {
    if (worst > 0.0 && (*measure)(i) >= 0.95 * worst) cutters.push_back(static_cast<int>(i));
  }
  return cutters;
}

RuleList rework_rules(const scenario::ReworkRules& given) {
  RuleList rules;
  add<WornHeightRule>(rules, given.worn_height);
  add<OuterGradeRule>(rules, given.outer_dull_grade);
  add<HeatDamageRule>(rules, given.heat_damage);
  add<SpeedRule>(rules, given.speed_share_of_new);
  add<ChipProbabilityRule>(rules, given.chip_probability);
  add<GaugeLossRule>(rules, given.gauge_loss);
  add<LostCuttersRule>(rules, given.lost_cutters);
  return rules;
}

std::unique_ptr<ReworkRule> beyond_repair_rule(const scenario::ReworkRules& given) {
  return std::make_unique<BeyondRepairRule>(given.beyond_repair_share);
}

}  // namespace dullcast::simulation
