#include "models/wear/abrasion.hpp"

#include <algorithm>
#include <cmath>

namespace dullcast::wear {

namespace {

double acceleration_above(const AbrasionLaw& law, double T, double start) {
  const double over = (T - start) / law.acceleration_scale;
  // The exponent is bounded before exp() so that a wild trial temperature cannot overflow.
  return over <= 0.0 ? 1.0 : std::exp(std::min(over, std::log(law.carbide_ratio)));
}

}  // namespace

double heat_acceleration(const AbrasionLaw& law, double T) {
  return acceleration_above(law, T, law.acceleration_temperature);
}

double flat_acceleration(const AbrasionLaw& law, double T, double leached_share) {
  const double bound_by_cobalt = heat_acceleration(law, T);
  if (!(leached_share > 0.0)) return bound_by_cobalt;
  const double leached = acceleration_above(law, T, law.leached_acceleration_temperature);
  return 1.0 / (leached_share / leached + (1.0 - leached_share) / bound_by_cobalt);
}

double diamond_wear_coefficient(const AbrasionLaw& law, double abrasivity, double wear_resistance, double T,
                                bool ruined) {
  const double acceleration = ruined ? law.carbide_ratio : heat_acceleration(law, T);
  return law.coefficient * std::pow(abrasivity, law.abrasivity_exponent) * acceleration / wear_resistance;
}

double shared_wear_coefficient(double ground, double stones, double load_on_stones) {
  return (1.0 - load_on_stones) * ground + load_on_stones * stones;
}

double carbide_pressure_share(const AbrasionLaw& law, double T, double leached_share, bool ruined) {
  return ruined ? 1.0
                : std::max(flat_acceleration(law, T, leached_share) / law.carbide_ratio,
                           std::min(law.carbide_load_least, 1.0));
}

double worn_height_rate(double wear_coefficient, double contact_strength, double mobilisation, double v,
                        double back_rake) {
  return wear_coefficient * contact_strength * mobilisation * v / std::cos(back_rake);
}

double cutting_wear_rate(const AbrasionLaw& law, double wear_coefficient, double pressure, double area_of_cut,
                         double v, double diamond_area, double back_rake) {
  if (!(diamond_area > 0.0)) return 0.0;
  return wear_coefficient * law.cutting_share * pressure * area_of_cut * v /
         (diamond_area * std::cos(back_rake));
}

}  // namespace dullcast::wear
