#pragma once

#include <Eigen/Core>

#include "models/materials/fluid.hpp"
#include "models/materials/saturated_water.hpp"
#include "models/thermal/boiling_curve.hpp"

namespace dullcast::thermal {

/// What decides how the fluid cools one bit and stays the same along the hole.
struct CoolingLaw {
  Eigen::ArrayXd radius;           // m, of each cutter from the axis
  Eigen::ArrayXd cutter_diameter;  // m, of each
  double bit_radius = 0.0;         // m
  double slot_diameter = 0.0;      // m, hydraulic: of a circle as wide open as one junk slot
  double slot_volume = 0.0;        // m3
  double wall_speed_share = 0.0;   // 1, of the body's speed that is left between its walls and their fluid
  double boiling_surface_factor = 0.0;  // 1, C_sf
  double steam_convection = 0.0;        // W/(m2 K), of surfaces that stand in steam
  double packed_void_share = 0.0;       // 1, of settled and packed cuttings
  double bed_grain = 0.0;               // m, their grains
  double dry_out_factor = 1.0;          // 1, dry-out flux of their bed over the published law's
  double renewal_turns = 0.0;    // turns in which the slots must fill anew for rotation to count as flow
  double still_expansion = 0.0;  // 1, loss of density at a surface in fluid that nothing moves
};

/// The bottom at one instant.
struct BottomConditions {
  materials::Fluid fluid;
  bool liquid = true;               // else a gas, which boils nothing but its own mist
  double pressure = 0.0;            // Pa
  double temperature = 0.0;         // K, of the fluid
  double water_share = 1.0;         // 1, water at the bottom over its full amount
  double full_mass = 0.0;           // kg, that amount
  double slot_velocity = 0.0;       // m/s
  double packing = 0.0;             // 1, 0 clean to 1 packed
  double buried = 0.0;              // 1, of the cutters' surfaces, in settled or packed cuttings
  double renewal = 0.0;             // 1/s, how often the flow fills the slots anew
  double rotary_speed = 0.0;        // rev/s
  double jet_wash = 0.0;            // m/s over the cutters
  double rock_conductivity = 0.0;   // W/(m K)
  double work = 0.0;                // W/m2, done at the bit, over the hole's area
  double rock_capacity_rate = 0.0;  // W/(m2 K), of the rock that is cut
  double rock_temperature = 0.0;    // K, undisturbed
};

/// How surfaces are cooled. Arrays have one entry per cutter and keep their storage.
struct Cooling {
  Eigen::ArrayXd convection;          // W/(m2 K), single phase
  Eigen::ArrayXd bare;                // W/(m2 K), of the part that no cuttings bury
  double buried = 0.0;                // 1, of the cutters' surfaces
  double bed_conductivity = 0.0;      // W/(m K), of the cuttings that bury the rest
  double dry_bed_conductivity = 0.0;  // W/(m K), of them when steam fills their pores
  double body = 0.0, bottom = 0.0;    // W/(m2 K), from the body's walls and from the hole's bottom
  bool boils = false;  // there is a saturation to boil at: a liquid below greatest_boiling_pressure
  materials::SaturatedWater water;  // at the bottom's pressure, where it boils
  Nucleation nucleation;            // of that water at the fluid's temperature
  double critical_flux = 0.0;       // W/m2, where it boils, of bare surfaces
  double dry_out_flux = 0.0;        // W/m2, where it boils, of buried surfaces
  double wetted_share = 1.0;        // 1, of the surfaces that water reaches
};

/// Saturated properties are known below this, Pa; nothing boils above the critical pressure, 22.064 MPa,
/// anyway.
inline constexpr double greatest_boiling_pressure = 20e6;

/// Cooling of cutters, body and bottom:
/// - cutters: cutter_convection at the speed past each, slot velocity and rotation with the ports' wash; what
///   cuttings bury of them loses heat as packed_bed_convection has it;
/// - body: slot_convection at slot velocity and wall_speed_share of the body's own speed, packed slots as
/// above;
///   bottom: the cutters' mean;
/// - rotation counts as flow in renewed_share; what it does not count for is left to free_convection;
/// - water that sinks into the slots bares the cutters: a smooth step of the water over what the slots hold;
/// bare
///   body and bottom lose heat to steam;
/// - bare surfaces boil up to the critical flux of an open pool. Buried ones share the dry-out flux of their
/// bed
///   (bed_dry_out_flux over the hole's area) with the work that is done in it, less what the rock cut takes
///   to warm to saturation: a bed in which more heat is set free than steam and water can pass each other is
///   dry whatever a cutter gives it. A fiftieth of the flux is always left them [asm].
/// Total where its parts are (convection.hpp, boiling.hpp).
void cool_bottom(const CoolingLaw& law, const BottomConditions& at, Cooling& cooling);

/// Heat flux from a surface and how it answers to the surface's temperature and, downward, to the fluid's.
struct SurfaceHeat {
  double flux = 0.0;           // W/m2
  double surface_slope = 0.0;  // W/(m2 K)
  double fluid_slope = 0.0;    // W/(m2 K), -d flux/d T_fluid
  BoilingRegime regime = BoilingRegime::single_phase;
  double past_peak = 0.0;  // K, as in BoilingFlux, of the part of the surface that is nearer to its peak
  double past_film = far_from_film;  // K, as there, of the larger part
};
/// K from where a film begins up to a surface at T_surface whose past_film tells nothing, below 0: about, as
/// if the nucleate flux alone (nucleation.hpp, over the cube of the excess) had to reach the critical one.
/// far_from_film where nothing boils.
double about_under_film(const Cooling& cooling, double T_surface);
/// From a surface of cutter i at T_surface to fluid at T_fluid, that of `cooling`. On its wetted share
/// boiling_flux where it is bare and bed_flux where it is buried; on the rest steam_convection and the dry
/// bed's conduction; plain convection where nothing boils. The regime is that of the larger part.
SurfaceHeat surface_heat(const CoolingLaw& law, const Cooling& cooling, Eigen::Index i, double T_surface,
                         double T_fluid);

/// With less than this of the surfaces wetted one speaks of dry, not of a film.
inline constexpr double least_wetted_share = 0.05;

}  // namespace dullcast::thermal
