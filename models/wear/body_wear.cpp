#include "models/wear/body_wear.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/bounds.hpp"
#include "models/common/constants.hpp"

namespace dullcast::wear {

double erosion_rate(double coefficient, double slot_velocity, double solids_fraction,
                    double erosion_resistance) {
  constexpr double least_resistance = 1e-3;
  const double v = at_least(slot_velocity, 0.0);
  return at_least(coefficient, 0.0) * within(solids_fraction, 0.0, 1.0) * v * v * std::sqrt(v) /
         at_least(erosion_resistance, least_resistance);
}

double rubbing_wear_rate(double coefficient, double force, double area, double v) {
  constexpr double least_area = 1e-6;  // m2
  return at_least(coefficient, 0.0) * at_least(force, 0.0) * at_least(v, 0.0) / at_least(area, least_area);
}

double body_rubbing_coefficient(double coefficient, double abrasivity, double abrasivity_exponent) {
  return coefficient * std::pow(abrasivity, abrasivity_exponent);
}

BodyWearRates body_wear_rates(const BodyWearLaw& law, const BodyLoads& loads) {
  const double omega = two_pi * loads.rotary_speed;
  return {
      erosion_rate(law.erosion_coefficient, loads.grain_speed, loads.solids_fraction, law.erosion_resistance),
      rubbing_wear_rate(loads.rubbing_coefficient, loads.blade_weight, law.blade_area,
                        omega * loads.rubbing_radius),
      rubbing_wear_rate(loads.rubbing_coefficient, loads.pad_force, law.pad_area, omega * law.bit_radius)};
}

double pocket_depth(const geometry::BitLayout& bit) {
  const Eigen::ArrayXd radius = geometry::cutter_radii(bit);
  return (2.0 * radius - bit.exposure).max(0.1 * radius).mean();
}

double grain_speed(double v, double fluid_density, double grain_density, double size, double length) {
  return v * fluid_density / (fluid_density + grain_density * size / length);
}

double pocket_fit(double eroded, double blade_rubbed, double pocket_depth) {
  constexpr double least_depth = 1e-6;  // m
  const double taken = at_least(eroded, 0.0) + at_least(blade_rubbed, 0.0);
  const double left = 1.0 - at_most(taken / at_least(pocket_depth, least_depth), 1.0);
  return left * left;
}

}  // namespace dullcast::wear
