#include "models/thermal/bottom_water.hpp"

#include <algorithm>
#include <boost/math/differentiation/autodiff.hpp>
#include <limits>

#include "models/common/bounds.hpp"
#include "models/thermal/bottom_cooling.hpp"
#include "models/thermal/pool.hpp"

namespace dullcast::thermal {
namespace {

/// Boiling sets in over this band below saturation [asm].
constexpr double boiling_band = 2.0;  // K

/// Of the water, as a share of its full amount: the last that boils away ever more slowly.
constexpr double last_water = 0.01;

/// Share of surplus heat that still warms water at T: 1 before the band, 0 at its end.
template <class Number>
Number share_that_warms(const Number& T, double saturation) {
  const Number x = (T - (saturation - boiling_band)) / boiling_band;
  if (x <= 0.0) return 0.0 * x + 1.0;
  if (x >= 1.0) return 0.0 * x;
  return 1.0 - x * x * (3.0 - 2.0 * x);
}

}  // namespace

BottomWaterRates bottom_water_rates(const BottomWaterLaw& law, const BottomWater& water, double surplus) {
  const auto [T, share] =
      boost::math::differentiation::make_ftuple<double, 1, 1>(water.temperature, water.share);
  using Number = decltype(T * share);
  const Number none = 0.0 * T * share;
  const Number there = water.share > 0.0 ? Number(share + none) : none;
  const double capacity = water.full_capacity * (std::max(water.share, 0.0) + law.dry_capacity_share);

  Number warms = none + 1.0, flash = none, steam = none;  // 1, W, kg/s
  if (water.boils) {
    const double saturation = water.saturation.temperature;
    if (surplus > 0.0) warms = 1.0 - (1.0 - share_that_warms(T, saturation)) * there / (there + last_water);
    if (water.temperature > saturation)
      flash = water.full_capacity / law.flash_time * there * (T - saturation);
    steam = ((1.0 - warms) * surplus + flash) / water.saturation.latent_heat;
  }
  Number filling = none, fall_back = none;  // 1/s
  if (water.liquid) {
    filling = water.pumped / water.full_mass * (1.0 - share);
    if (water.boils && water.share < 1.0) {
      const double covered = cubic_step(water.below_level / law.level_band);
      const double most = (1.0 - law.packed_pores_loss * water.packing) *
                          flooding_steam_rate(water.saturation, law.annulus_area, law.annulus_diameter) /
                          water.full_mass;
      const Number freely = (1.0 - share) / law.fall_back_time;
      fall_back = covered * most * freely / (most + freely);
    }
  }
  const Number warming =
      warms * surplus - flash - water.full_capacity * fall_back * (T - water.inlet_temperature);  // W
  Number share_rate = none;
  if (water.liquid) share_rate = filling + fall_back - steam / water.full_mass;

  const double kept = warms.derivative(0, 0), made = steam.derivative(0, 0);
  BottomWaterRates rates;
  rates.temperature = warming.derivative(0, 0) / capacity;
  rates.share = share_rate.derivative(0, 0);
  rates.steam = made;
  rates.carried = (1.0 - kept) * surplus + flash.derivative(0, 0) +
                  water.heat_capacity * (water.temperature - water.inlet_temperature) * made;
  // Water about to boil dry keeps a trace, so that what follows can divide by it.
  rates.per_heat = std::max(kept, 1e-6) / capacity;
  rates.own_decay = -warming.derivative(1, 0) / capacity;
  rates.share_decay = -share_rate.derivative(0, 1);
  return rates;
}

double past_boiling_onset(double T_fluid, double pressure) {
  if (!(pressure < greatest_boiling_pressure)) return -std::numeric_limits<double>::infinity();
  return T_fluid - (materials::saturation_temperature(pressure) - boiling_band);
}

}  // namespace dullcast::thermal
