#pragma once

#include "engine/scenario/quantity.hpp"

namespace dullcast::scenario {

/// Numbers of the models themselves, from scenarios/library/models.yaml.
struct ModelNumbers {
  Quantity drilling_efficiency;  // 1, e: 1 in a clean hole, lower for regrinding
  Quantity flat_friction;        // 1, mu
  Quantity blade_friction;       // 1, of a rubbing blade
  Quantity blade_bearing_ratio;  // 1, pressure under a blade that sinks in over the rock's strength
  Quantity land_reference;       // m, b_0
  Quantity psi_at_reference;     // rad
  Quantity psi_slope;            // rad/rad
  Quantity psi_least;            // rad
  // The edge with which land_reference was fitted:
  Quantity land_bevel_width;  // m
  Quantity land_bevel_angle;  // rad
  Quantity land_back_rake;    // rad
  Quantity edge_radius;       // m
  // Strength at the rate of deformation (models/cutting/rate_strength.hpp), with the speed and depth at which
  // it is the rock's own:
  Quantity rate_exponent;              // 1, a
  Quantity rate_speed;                 // m/s, v_0
  Quantity rate_depth;                 // m, h_0
  Quantity chip_friction_speed_share;  // 1, r_c
  Quantity crushed_heat_share;         // 1, of the work of cutting, in the rock that meets face and flat
  Quantity rock_softens, rock_melts;   // K, between which friction under a flat falls from whole to none
  Quantity abrasion_coefficient;       // m2/N (m3 per N m), w_0 at CAI 1
  Quantity abrasivity_exponent;        // 1, n
  Quantity bit_to_bit_wear;            // 1, wear of one bit over the mean of its like in the same ground
  Quantity cutting_wear_share;         // 1, kappa: of the force of cutting that abrades the edge
  Quantity carbide_wear_ratio;         // 1, w_c/w_d cold
  Quantity carbide_load_share;         // 1, least pressure on the carbide of a flat over that on its diamond
  Quantity acceleration_temperature;   // K, g = 1 below
  Quantity acceleration_scale;         // K, Delta
  Quantity leached_acceleration_temperature;  // K, of leached diamond
  Quantity damage_seconds_at_750;             // s of life of cobalt-bearing diamond at 750 C
  Quantity damage_seconds_at_700;             // s of life at 700 C
  Quantity leached_limit;  // K: the leached layer lasts here as long as cobalt-bearing diamond at 750 C
  Quantity spreading_edge_factor;    // 1, on the spot resistance 1/(4 k a_eq)
  Quantity pocket_conductance;       // W/(m2 K), braze film between carbide and body
  Quantity exposed_share;            // 1, share of the cutter's side outside its pocket
  Quantity junk_slot_share;          // 1, open slot area over hole area
  Quantity body_wetted_share;        // 1, wetted body area over bit-radius squared
  Quantity bottom_hole_conductance;  // W/(m2 K), hole wall to bottom-hole fluid, per hole bottom area
  // Heat around the cutters (models/thermal):
  Quantity settling_time;       // s, lag of the load share of carbide behind the flat's temperature
  Quantity warm_skin_depth;     // m, of the rock's warm skin at rest
  Quantity dry_capacity_share;  // 1, heat capacity that stays at the bottom without water, of the full one's
  Quantity wall_speed_share;    // 1, of the body's speed that is left between its walls and their fluid
  Quantity jet_path_share;      // 1, of the bit's radius, from where the jets strike to the cutters
  // Chipping (models/failure/chipping.hpp):
  Quantity weibull_modulus;      // 1
  Quantity edge_hot_share;       // 1, of the cold edge strength at 700 C
  Quantity edge_damaged_share;   // 1, of the edge strength at heat damage 1
  Quantity roughness_impacts;    // 1/m of sliding
  Quantity roughness_overload;   // 1, depth met over mean depth of cut
  Quantity load_variation;       // 1, of the load on a cutter in the hardest rock: deviation over mean
  Quantity brittle_strength;     // Pa, of rock in which the load varies half as much
  Quantity bottom_unevenness;    // m, by which the bottom stands over the mean depth of cut at a peak
  Quantity stone_protrusion;     // 1, of their size by which hard stones stand out of soft ground
  Quantity touch_down_overload;  // 1, load as the bit is set on bottom over the load afterwards
  Quantity impact_impedance;     // Pa s/m
  Quantity chip_size_share;      // 1, height of a chip over the depth of cut met
  Quantity shock_share;          // 1, of the full thermal stress that a quench brings to the edge
  Quantity boundary_undulation;  // m, height over which a harder layer's top comes and goes under the bit
  Quantity table_modulus;        // Pa, of the diamond table
  Quantity table_expansion;      // 1/K
  Quantity table_poisson;        // 1
  // Retention of the cutters (models/failure/sudden_failure.hpp):
  Quantity braze_strength;            // Pa, cold, in shear, median
  Quantity braze_softening;           // K
  Quantity braze_solidus;             // K
  Quantity bond_mismatch;             // Pa/K
  Quantity bond_neutral_temperature;  // K
  // Flow and cleaning (models/hydraulics/hole_cleaning.hpp):
  Quantity port_discharge;        // 1, C_d
  Quantity cuttings_spread;       // 1, exponent of the Rosin-Rammler law
  Quantity packed_fraction;       // 1, solids in a packed slot
  Quantity packed_share;          // 1, of the drilling efficiency that is left when slots are packed
  Quantity slot_height;           // 1, of the junk slots over the bit's diameter
  Quantity suspending_transport;  // 1, transport ratio in the slots from which cuttings stay in suspension
  Quantity burying_height;        // 1, of settled cuttings that bury the cutters, over their diameter
  Quantity bed_grain;             // m, grains of settled and packed cuttings
  Quantity water_height;  // 1, over the bit's diameter, of the fluid above it that takes part in its heat
  // Boiling (models/thermal/boiling.hpp):
  Quantity boiling_surface_factor;  // 1, C_sf
  Quantity steam_convection;        // W/(m2 K), from surfaces that stand in steam
  Quantity fall_back_time;          // s, in which standing water falls back where no steam hinders it
  Quantity flash_time;              // s, in which water hotter than it can be boils itself cool
  Quantity level_band;              // m below the standing level within which water begins to cover the bit
  Quantity dry_out_factor;          // 1, dry-out flux of settled and packed cuttings over the published law's
  Quantity packed_pores_loss;       // 1, of the room of steam and water that packed cuttings take away
  Quantity packed_void_share;       // 1, of settled and packed cuttings
  // Water that does not move (models/thermal/convection.hpp):
  Quantity renewal_turns;    // 1, turns in which the slots must fill anew for rotation to count as flow
  Quantity still_expansion;  // 1, loss of density at a hot surface in fluid that nothing moves
  // Body (models/wear/body_wear.hpp):
  Quantity erosion_coefficient;  // m/s at 1 m/s, unit solids fraction
  Quantity rubbing_coefficient;  // m2/N, blades and pads of hardened steel on rock of CAI 1
  Quantity pad_seating;          // m: pads that stand back a few times this leave the wall to the cutters
};

}  // namespace dullcast::scenario
