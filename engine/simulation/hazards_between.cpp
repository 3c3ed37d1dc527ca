#include "engine/simulation/hazards_between.hpp"

#include <cmath>

namespace dullcast::simulation {
namespace {

/// Where rates at both ends are as near as this share and no edge has worn so far, the trapezoid is wrong by
/// less than a thousandth of what it gives.
constexpr double near_rates = 0.05;
constexpr double little_wear = 2e-6;  // m
/// Nearer than this, and worn no further, two pieces do.
constexpr double rather_near_rates = 0.3;
constexpr double some_wear = 1e-5;  // m
/// What straight forces leave open, of what they change.
constexpr double open_share = 0.2;

}  // namespace

void EdgeMoment::note(const DrillingSystem& system) {
  const Evaluation& now = system.evaluation();
  flat_temperature = now.heats.flat_temperature;
  engaged_width = now.forces.loads.cutting_width;
  area = now.forces.loads.area;
  strength = now.forces.loads.cut_strength;
  pace = 1.0 / now.rate_of_penetration;
}

HazardsBetween::HazardsBetween(Eigen::Index cutters) {
  for (Eigen::ArrayXd* field : {&between_.flat_temperature, &between_.engaged_width, &between_.area,
                                &between_.strength, &worn_, &damage_, &rates_})
    field->setZero(cutters);
}

bool HazardsBetween::gain(const DrillingSystem& system, const State& start, const EdgeMoment& from,
                          const State& end, const EdgeMoment& to, double size,
                          const Eigen::Ref<const Eigen::ArrayXd>& first,
                          const Eigen::Ref<const Eigen::ArrayXd>& last, Eigen::ArrayXd& gained,
                          Eigen::ArrayXd& wrong) {
  const StateLayout& layout = system.layout();
  const auto worn_from = layout.worn(start), worn_to = layout.worn(end);
  const double wear = (worn_to - worn_from).maxCoeff();
  const auto near = [&](double share) { return ((last - first).abs() <= share * first.max(last)).all(); };
  if (wear <= little_wear && near(near_rates)) return false;
  const int pieces = wear <= some_wear && near(rather_near_rates) ? 2 : 4;
  const auto damage_from = layout.damage(start), damage_to = layout.damage(end);
  const failure::EdgeHazardLaw& law = system.models().bit.edges;
  gained = first + last;
  for (int k = 1; k < pieces; ++k) {
    const double s = static_cast<double>(k) / pieces;
    const auto at = [s](const auto& a, const auto& b) { return (1.0 - s) * a + s * b; };
    worn_ = at(worn_from, worn_to);
    damage_ = at(damage_from, damage_to);
    between_.flat_temperature = at(from.flat_temperature, to.flat_temperature);
    between_.engaged_width = at(from.engaged_width, to.engaged_width);
    between_.area = at(from.area, to.area);
    between_.strength = at(from.strength, to.strength);
    failure::edge_hazard_rates(
        law, {worn_, between_.flat_temperature, damage_, system.lost()},
        {between_.engaged_width, between_.area, system.evaluation().sliding_speed, between_.strength},
        system.interval().edge_ground, rates_);
    gained += (k % 2 == 1 ? 4.0 : 2.0) * at(from.pace, to.pace) * rates_;
  }
  gained *= size / (3.0 * pieces);
  wrong = open_share * (gained - 0.5 * size * (first + last)).abs();
  return true;
}

}  // namespace dullcast::simulation
