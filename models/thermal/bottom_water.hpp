#pragma once

#include "models/materials/saturated_water.hpp"

namespace dullcast::thermal {

/// What decides how water at a bit's bottom boils away and comes back.
struct BottomWaterLaw {
  double dry_capacity_share =
      0.0;                  // 1, heat capacity that stays without water (cuttings, steam), of the full one's
  double flash_time = 0.0;  // s, in which water hotter than it can be boils itself cool
  double fall_back_time = 0.0;     // s, in which standing water falls back where no steam hinders it
  double level_band = 0.0;         // m below the standing level within which water begins to cover the bit
  double packed_pores_loss = 0.0;  // 1, of the room of steam and water that packed cuttings take away
  double annulus_area = 0.0;       // m2
  double annulus_diameter = 0.0;   // m, hydraulic: hole less pipe
};

/// The water at the bottom at one instant.
struct BottomWater {
  double temperature = 0.0;    // K
  double share = 1.0;          // 1, of its full amount
  double full_capacity = 0.0;  // J/K of the full amount
  double full_mass = 0.0;      // kg
  double heat_capacity = 0.0;  // J/(kg K)
  bool liquid = true;          // a gas always fills the bottom
  bool boils = false;          // there is a saturation to boil at
  materials::SaturatedWater saturation;
  double inlet_temperature = 0.0;  // K
  double pumped = 0.0;             // kg/s
  double below_level = 0.0;        // m that the bottom lies below the standing level
  double packing = 0.0;            // 1
};

/// What surplus heat (W) and the pump do to it.
struct BottomWaterRates {
  double temperature = 0.0;  // K/s
  double share = 0.0;        // 1/s
  double carried = 0.0;      // W that leaves with steam
  double steam = 0.0;        // kg/s
  double per_heat = 0.0;     // K/J, d temperature rate/d surplus
  double own_decay = 0.0;    // 1/s, -d temperature rate/d temperature at one surplus
  double share_decay = 0.0;  // 1/s, -d share rate/d share
};

/// Surplus heat warms the water, M c dT/dt = surplus, until at saturation it makes steam instead, h_fg dM/dt
/// = -surplus (evaporation over the last 2 K below saturation, a band and not a corner so that steps may stay
/// long [asm]). Water past saturation flashes. The pump fills what is missing; below the standing level water
/// falls back cold as fast as steam in the open annulus, or in the pores of packed cuttings, lets it
/// (flooding_steam_rate). Water that leaves takes its warmth along. The last hundredth boils away ever more
/// slowly, so that there is never less than none. Rates and decays come from one expression each (Dual,
/// models/common).
BottomWaterRates bottom_water_rates(const BottomWaterLaw& law, const BottomWater& water, double surplus);

/// Above 0 where surplus heat starts to make steam instead of warming water at T_fluid (K) under a pressure
/// (Pa), K. Minus infinity where nothing boils.
double past_boiling_onset(double T_fluid, double pressure);

}  // namespace dullcast::thermal
