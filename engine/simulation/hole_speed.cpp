#include "engine/simulation/hole_speed.hpp"

#include <algorithm>

namespace dullcast::simulation {

NewBitReference::NewBitReference(const RunModels& models)
    : bit_(&models.bit), profile_(models.bit.bit, models.bit.edge, geometry::usual_spacing(models.bit.bit)) {
  const Eigen::Index n = models.bit.bit.count();
  profile_.update(Eigen::ArrayXd::Zero(n));
  const cutting::BitMechanics& mechanics = bit_->mechanics;
  blades_ = {&mechanics.surfaces, mechanics.blade_thickness, 0.0,
             cutting::rubbing_limit(profile_, mechanics.surfaces)};
  carbide_share_.setConstant(n, 1.0 / bit_->wear.abrasion.carbide_ratio);
}

double NewBitReference::rate_of_penetration(const DrillingInterval& interval,
                                            const cutting::RockResistance& rock, double weight,
                                            const cutting::Balance& worn) {
  const double most_depth_of_cut = std::min(interval.most_depth_of_cut, bit_->bit.bit_radius);
  // Where a worn bit drills as fast as it is let, a new one does too.
  if (worn.feed_limited) return most_depth_of_cut * interval.rotary_speed;
  const Question asked{rock, weight, most_depth_of_cut};
  const auto known = std::find_if(answers_.begin(), answers_.end(),
                                  [&](const Answer& answer) { return answer.question == asked; });
  if (known != answers_.end()) return known->depth_of_cut * interval.rotary_speed;
  constexpr double close_enough = 1e-3;  // 1: leaves the share of a hole's speed known to some 1e-5
  const cutting::Balance balance = cutting::balance_weight(
      profile_, rock, bit_->mechanics.directions, carbide_share_, weight, most_depth_of_cut, blades_,
      worn.force_slope > 0.0 ? worn.depth_of_cut : 0.0, worn.force_slope, &storage_, close_enough);
  if (answers_.size() < most_answers) {
    answers_.push_back({asked, balance.depth_of_cut});
  } else {
    answers_[next_forgotten_] = {asked, balance.depth_of_cut};
    next_forgotten_ = (next_forgotten_ + 1) % most_answers;
  }
  return balance.depth_of_cut * interval.rotary_speed;
}

void HoleSpeed::enter(const DrillingSystem& system, double rotating_time) {
  last_time_ = rotating_time;
  const double when_new =
      new_bit_.rate_of_penetration(system.interval(), system.evaluation().resistance,
                                   system.evaluation().weight_asked, system.evaluation().forces.balance);
  last_ratio_ = when_new > 0.0 ? system.evaluation().rate_of_penetration / when_new : 1.0;
}

void HoleSpeed::note(const DrillingSystem& system, double rotating_time) {
  const double elapsed = rotating_time - last_time_, ratio_before = last_ratio_;
  enter(system, rotating_time);
  hole_time_ += elapsed;
  new_bit_time_ += elapsed * 0.5 * (ratio_before + last_ratio_);
}

}  // namespace dullcast::simulation
