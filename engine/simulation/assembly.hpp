#pragma once

#include <limits>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "models/cutting/blade_rubbing.hpp"
#include "models/cutting/cutting_force.hpp"
#include "models/cutting/drill_string.hpp"
#include "models/failure/chipping.hpp"
#include "models/failure/sudden_failure.hpp"
#include "models/hydraulics/hole_cleaning.hpp"
#include "models/materials/fluid.hpp"
#include "models/thermal/heat_network.hpp"
#include "models/wear/abrasion.hpp"
#include "models/wear/heat_damage.hpp"

namespace dullcast::simulation {

/// What holds the cutters and the blades, at median strength, and how strengths spread.
struct CutterRetention {
  failure::BrazeLaw braze;
  failure::BondLaw bond;
  failure::BladeSection blade;
  double bonded_area = 0.0;    // m2, of one pocket
  double pocket_depth = 0.0;   // m
  double body_strength = 0.0;  // Pa
  double cutter_spread = 0.0;  // 1, of ln(strength), seats and bonds
  double body_spread = 0.0;    // 1
};

/// The models of one bit, made from a scenario's central numbers: all that does not change along the hole.
struct BitModels {
  geometry::BitLayout bit;
  geometry::EdgeLaw edge;
  cutting::ForceDirections directions;
  cutting::BladeSurfaces surfaces;
  wear::AbrasionLaw abrasion;
  wear::HeatDamageLaw damage;
  thermal::CutterMaterials materials;
  thermal::CutterNetwork network;  // of every cutter
  failure::ChipLaw chips;
  CutterRetention retention;
  hydraulics::Slots slots;
  double hole_area = 0.0;               // m2
  double slot_diameter = 0.0;           // m, hydraulic: of a circle as wide open as one junk slot
  double annulus_diameter = 0.0;        // m, hydraulic: hole less pipe
  double wear_resistance = 1.0;         // 1, of the grade
  double blade_friction = 0.0;          // 1
  double chip_speed_share = 0.0;        // 1, r_c
  double body_capacity = 0.0;           // J/K
  double body_wetted_area = 0.0;        // m2
  double cuttings_spread = 1.0;         // 1, Rosin-Rammler
  double packed_share = 1.0;            // 1, of the drilling efficiency when packed
  double boiling_surface_factor = 0.0;  // 1, C_sf
  double steam_convection = 0.0;        // W/(m2 K)
  double erosion_coefficient = 0.0;     // m/s
  double erosion_resistance = 1.0;      // 1
  double rubbing_coefficient = 0.0;     // m2/N at CAI 1, of this body
  double blade_area = 0.0;              // m2, of all blades' faces towards the hole bottom
  double pad_area = 0.0;                // m2, of the pad that faces the imbalance
  double boundary_undulation = 0.0;     // m
};

/// A stretch of hole over which rock and settings stay the same.
struct DrillingInterval {
  double top = 0.0, bottom = 0.0;  // m
  int layer = 0;
  scenario::OperatingInterval settings;  // as planned, or as changed for a while
  bool off_bottom = false;               // lifted or not turning: the time does not count as rotating
  materials::Rock rock;
  cutting::RockResistance resistance;
  failure::Inclusions inclusions;
  double stickiness = 0.0;             // 1
  double wear_coefficient_cold = 0.0;  // m2/N of this rock on this grade, below the acceleration temperature
  double rubbing_coefficient = 0.0;    // m2/N of this rock on blades and pads
  double rotary_speed = 0.0;           // rev/s
  double flow = 0.0;                   // m3/s as the plan states it
  double most_depth_of_cut = 0.0;      // m/rev, feed limit; infinity for none
  // Weight on bit: stated as a whole, or from parts.
  bool weight_stated = false;
  double stated_weight = 0.0, pull_down = 0.0, holdback = 0.0;  // N
  materials::Fluid fluid;                                       // as it passes the bit
  double flow_at_bit = 0.0;                                     // m3/s that the pump sends
  bool liquid = true;                 // else a gas, which boils nothing but its own mist
  double mist_rate = 0.0;             // kg/s of water in the gas
  double gas_rate = 0.0;              // kg/s of the gas itself
  double string_fluid_density = 0.0;  // kg/m3, which buoys the string
  double fluid_capacity = 0.0;        // J/K, M c of the full hole bottom
  double fluid_mass = 0.0;            // kg, M when full
  double fluid_to_wall = 0.0;         // W/K, G
  double jet_wash = 0.0;              // m/s over the cutters, at the full flow
};

/// Whole-run settings that belong to the ground and the hole.
struct Ground {
  double surface_temperature = 0.0;   // K
  double temperature_gradient = 0.0;  // K/m
  double inlet_temperature = 0.0;     // K
  double standing_level = 0.0;        // m, where water stands with the pump off
  cutting::DrillString string;
  double rock_temperature(double z) const { return surface_temperature + temperature_gradient * z; }
};

struct RunModels {
  BitModels bit;
  Ground ground;
  std::vector<DrillingInterval> intervals;  // of one hole, from the surface down
};

/// Rock of a record's central values.
materials::Rock rock_of(const scenario::RockRecord& record);

/// Builds the models of a scenario. Bodies' mass scales with the bit: volume_share R^3 rho c. The bottom-hole
/// fluid is what fills the junk slots over one bit diameter and the hole one diameter above [asm]. Throws
/// what the models throw for values outside their range.
RunModels assemble(const scenario::Scenario& scenario);

/// The stretch with the settings of `interval` in place of its own, over the same depths in the same rock.
DrillingInterval with_settings(const scenario::Scenario& scenario, const BitModels& models,
                               const DrillingInterval& stretch, const scenario::OperatingInterval& interval);

}  // namespace dullcast::simulation
