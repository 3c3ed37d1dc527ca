#include "models/wear/heat_damage.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/constants.hpp"

namespace dullcast::wear {
namespace {
constexpr double kelvin_at_700 = 700.0 + celsius_zero;

/// B of the Arrhenius law, K, from the two lives.
double activation(const HeatDamageLaw& law) {
  return std::log(law.life_at_700 / law.life_at_750) / (1.0 / kelvin_at_700 - 1.0 / kelvin_at_750);
}

double rate(const HeatDamageLaw& law, double T, double reference) {
  const double bounded = std::clamp(T, 200.0, 3000.0);
  return std::exp(-activation(law) * (1.0 / bounded - 1.0 / reference)) / law.life_at_750;
}
}  // namespace

HeatDamageLaw heat_damage_law(double life_at_750, double life_at_700, double leached_limit) {
  return {life_at_750, std::max(life_at_700, least_life_ratio * life_at_750), leached_limit};
}

double cobalt_damage_rate(const HeatDamageLaw& law, double T) {
  return rate(law, T, kelvin_at_750);
}

double leached_damage_rate(const HeatDamageLaw& law, double T) {
  return rate(law, T, law.leached_limit);
}

double table_damage_rate(const HeatDamageLaw& law, double T_w, double q, double leached_share, double depth,
                         double conductivity) {
  if (!(leached_share > 0.0)) return cobalt_damage_rate(law, T_w);
  // The order of the arguments lets a NaN through both maxima.
  const double under = T_w - std::max(q, 0.0) * depth / conductivity;
  const double leached = std::max(cobalt_damage_rate(law, under), leached_damage_rate(law, T_w));
  return leached_share * leached + (1.0 - leached_share) * cobalt_damage_rate(law, T_w);
}

}  // namespace dullcast::wear
