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
                                            const cutting::RockResistance& rock, double weight) {
  const double most_depth_of_cut = std::min(interval.most_depth_of_cut, bit_->bit.bit_radius);
  const Question asked{rock, weight, most_depth_of_cut};
  if (!(known_ && asked == asked_)) {
    known_ = false;  // until it is found
    balance_ = cutting::balance_weight(profile_, rock, bit_->mechanics.directions, carbide_share_, weight,
                                       most_depth_of_cut, blades_, balance_.depth_of_cut,
                                       balance_.force_slope, &sums_);
    asked_ = asked;
    known_ = true;
  }
  return balance_.depth_of_cut * interval.rotary_speed;
}

void HoleSpeed::enter(const DrillingSystem& system, double rotating_time) {
  last_time_ = rotating_time;
  const double when_new = new_bit_.rate_of_penetration(system.interval(), system.evaluation().resistance,
                                                       system.evaluation().weight_asked);
  last_ratio_ = when_new > 0.0 ? system.evaluation().rate_of_penetration / when_new : 1.0;
}

void HoleSpeed::note(const DrillingSystem& system, double rotating_time) {
  const double elapsed = rotating_time - last_time_, ratio_before = last_ratio_;
  enter(system, rotating_time);
  hole_time_ += elapsed;
  new_bit_time_ += elapsed * 0.5 * (ratio_before + last_ratio_);
}

}  // namespace dullcast::simulation
