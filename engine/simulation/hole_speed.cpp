#include "engine/simulation/hole_speed.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace dullcast::simulation {

NewBitReference::NewBitReference(const RunModels& models) : bit_(&models.bit), profile_(*models.bit.unworn) {
  const cutting::BitMechanics& mechanics = bit_->mechanics;
  blades_ = {&mechanics.surfaces, mechanics.blade_thickness, 0.0, models.bit.unworn_rubbing};
  carbide_share_.setConstant(models.bit.bit.count(), 1.0 / bit_->wear.abrasion.carbide_ratio);
}

namespace {

/// Shares of weight and of drilling efficiency by which a question may differ from one that has been
/// answered.
constexpr double near_weight = 5e-3, near_efficiency = 1e-3;

/// By how much one question differs from another in the same ground, in shares of what is near; infinity
/// elsewhere.
double apart(const cutting::RockResistance& asked, double weight, const cutting::RockResistance& known,
             double known_weight) {
  cutting::RockResistance as_clean = asked;
  as_clean.drilling_efficiency = known.drilling_efficiency;
  if (!(as_clean == known)) return std::numeric_limits<double>::infinity();
  return std::abs(weight / known_weight - 1.0) / near_weight +
         std::abs(asked.drilling_efficiency / known.drilling_efficiency - 1.0) / near_efficiency;
}

}  // namespace

const NewBitReference::Answer* NewBitReference::nearest(const Question& asked) const {
  const Answer* best = nullptr;
  double least = std::numeric_limits<double>::infinity();
  for (const Answer& answer : answers_) {
    if (answer.question.most_depth_of_cut != asked.most_depth_of_cut) continue;
    const double far = apart(asked.rock, asked.weight, answer.question.rock, answer.question.weight);
    if (!(far < least)) continue;
    least = far;
    best = &answer;
  }
  return best;
}

double NewBitReference::rate_of_penetration(const DrillingInterval& interval,
                                            const cutting::RockResistance& rock, double weight,
                                            const cutting::Balance& worn) {
  const double most_depth_of_cut = std::min(interval.most_depth_of_cut, bit_->bit.bit_radius);
  if (weight <= 0.0) return 0.0;
  // Where a worn bit drills as fast as it is let, a new one does too.
  if (worn.feed_limited) return most_depth_of_cut * interval.rotary_speed;
  const Question asked{rock, weight, most_depth_of_cut};
  // A close guess for what is asked: near enough it is the answer.
  double guess = worn.force_slope > 0.0 ? worn.depth_of_cut : 0.0, slope = worn.force_slope;
  if (const Answer* known = nearest(asked)) {
    const double far = apart(rock, weight, known->question.rock, known->question.weight);
    if (far == 0.0) return known->depth_of_cut * interval.rotary_speed;
    if (known->slope > 0.0) {
      slope = known->slope;
      guess = known->depth_of_cut * rock.drilling_efficiency / known->question.rock.drilling_efficiency +
              (weight - known->question.weight) / slope;
      if (far <= 1.0) return std::clamp(guess, 0.0, most_depth_of_cut) * interval.rotary_speed;
      guess = std::max(guess, 0.1 * known->depth_of_cut);
    }
  }
  // Shares of the depth of cut: what is left of them leaves the share of a hole's speed known to a
  // thousandth.
  constexpr double close_enough = 1e-3, reach = 0.05;
  storage_.reach = reach;
  const cutting::Balance balance =
      cutting::balance_weight(profile_, rock, bit_->mechanics.directions, carbide_share_, weight,
                              most_depth_of_cut, blades_, guess, slope, &storage_, close_enough);
  const Answer answer{asked, balance.depth_of_cut, balance.force_slope};
  if (answers_.size() < most_answers) {
    answers_.push_back(answer);
  } else {
    answers_[next_forgotten_] = answer;
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
