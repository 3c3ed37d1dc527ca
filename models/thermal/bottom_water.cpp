#include "models/thermal/bottom_water.hpp"

#include <algorithm>
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

/// What surplus heat does to the water; each with its slope by whichever of temperature and share is the
/// variable.
struct WaterFlows {
  Dual warming;                                 // W
  Dual share_rate;                              // 1/s
  double kept = 1.0, flash = 0.0, steam = 0.0;  // 1 of the surplus, W, kg/s
};

WaterFlows water_flows(const BottomWaterLaw& law, const BottomWater& water, double surplus, Dual T,
                       Dual share) {
  const Dual there = share > 0.0 ? share : 0.0 * share;
  Dual warms = 1.0, flash, steam;  // 1, W, kg/s
  if (water.boils) {
    const double saturation = water.saturation.temperature;
    // Surplus heat goes over from warming water to making steam within the band.
    if (surplus > 0.0) {
      const Dual makes_steam = cubic_step((T - (saturation - boiling_band)) / boiling_band);
      warms = 1.0 - makes_steam * there / (there + last_water);
    }
    if (water.temperature > saturation)
      flash = water.full_capacity / law.flash_time * there * (T - saturation);
    steam = ((1.0 - warms) * surplus + flash) / water.saturation.latent_heat;
  }
  Dual filling, fall_back;  // 1/s
  if (water.liquid) {
    filling = water.pumped / water.full_mass * (1.0 - share);
    if (water.boils && water.share < 1.0) {
      const double covered = cubic_step(water.below_level / law.level_band);
      const double most = (1.0 - law.packed_pores_loss * water.packing) *
                          flooding_steam_rate(water.saturation, law.annulus_area, law.annulus_diameter) /
                          water.full_mass;
      const Dual freely = (1.0 - share) / law.fall_back_time;
      fall_back = covered * most * freely / (most + freely);
    }
  }
  WaterFlows flows;
  flows.warming = warms * surplus - flash - water.full_capacity * fall_back * (T - water.inlet_temperature);
  if (water.liquid) flows.share_rate = filling + fall_back - steam / water.full_mass;
  flows.kept = warms.value;
  flows.flash = flash.value;
  flows.steam = steam.value;
  return flows;
}

}  // namespace

BottomWaterRates bottom_water_rates(const BottomWaterLaw& law, const BottomWater& water, double surplus) {
  const WaterFlows flows = water_flows(law, water, surplus, variable(water.temperature), water.share);
  const WaterFlows by_share = water_flows(law, water, surplus, water.temperature, variable(water.share));
  const double capacity = water.full_capacity * (std::max(water.share, 0.0) + law.dry_capacity_share);
  BottomWaterRates rates;
  rates.temperature = flows.warming.value / capacity;
  rates.share = flows.share_rate.value;
  rates.steam = flows.steam;
  rates.carried = (1.0 - flows.kept) * surplus + flows.flash +
                  water.heat_capacity * (water.temperature - water.inlet_temperature) * flows.steam;
  // Water about to boil dry keeps a trace, so that what follows can divide by it.
  rates.per_heat = std::max(flows.kept, 1e-6) / capacity;
  rates.own_decay = -flows.warming.slope / capacity;
  rates.share_decay = -by_share.share_rate.slope;
  return rates;
}

double past_boiling_onset(double T_fluid, double pressure) {
  if (!(pressure < greatest_boiling_pressure)) return -std::numeric_limits<double>::infinity();
  return T_fluid - (materials::saturation_temperature(pressure) - boiling_band);
}

}  // namespace dullcast::thermal
