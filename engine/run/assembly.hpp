#pragma once

#include <limits>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "models/abrasion.hpp"
#include "models/blade_rubbing.hpp"
#include "models/cooling.hpp"
#include "models/cutting_force.hpp"
#include "models/drill_string.hpp"
#include "models/heat_damage.hpp"
#include "models/heat_network.hpp"

namespace dullcast {

/// The models of one bit, made from a scenario's central numbers: all that does not change along the hole.
struct BitModels {
  BitLayout bit;
  EdgeLaw edge;
  ForceDirections directions;
  BladeSurfaces surfaces;
  AbrasionLaw abrasion;
  HeatDamageLaw damage;
  CutterMaterials materials;
  double wear_resistance = 1.0;   // 1, of the grade
  double blade_friction = 0.0;    // 1
  double chip_speed_share = 0.0;  // 1, r_c
  double body_capacity = 0.0;     // J/K
};

/// A stretch of hole over which rock and settings stay the same.
struct Stretch {
  double top = 0.0, bottom = 0.0;  // m
  int layer = 0;
  Rock rock;
  RockResistance resistance;
  double wear_coefficient_cold = 0.0;  // m2/N of this rock on this grade, below the acceleration temperature
  double rotary_speed = 0.0;           // rev/s
  double flow = 0.0;                   // m3/s as the plan states it
  double most_depth_of_cut = 0.0;      // m/rev, feed limit; infinity for none
  // Weight on bit: stated as a whole, or from parts.
  bool weight_stated = false;
  double stated_weight = 0.0, pull_down = 0.0, holdback = 0.0;  // N
  double string_fluid_density = 0.0;                            // kg/m3, which buoys the string
  std::vector<CutterNetwork> networks;  // one per cutter: convection differs with radius
  double body_to_fluid = 0.0;           // W/K
  double fluid_capacity = 0.0;          // J/K, M c at the hole bottom
  double fluid_flow_capacity = 0.0;     // W/K, rho c Q
  double fluid_to_wall = 0.0;           // W/K, G
  bool can_boil = true;  // a liquid; air takes its mist's heat capacity only, which is on the hot side
};

/// Whole-run settings that belong to the ground and the hole.
struct Ground {
  double surface_temperature = 0.0;   // K
  double temperature_gradient = 0.0;  // K/m
  double inlet_temperature = 0.0;     // K
  double standing_level = 0.0;        // m, where water stands with the pump off
  DrillString string;
  double rock_temperature(double z) const { return surface_temperature + temperature_gradient * z; }
};

struct RunModels {
  BitModels bit;
  Ground ground;
  std::vector<Stretch> stretches;  // of one hole, from the surface down
};

/// Rock of a record's central values.
Rock rock_of(const RockRecord& record);

/// Builds the models of a scenario. Bodies' mass scales with the bit: volume_share R^3 rho c. The bottom-hole
/// fluid is what fills the junk slots over one bit diameter and the hole one diameter above [asm]. Throws
/// what the models throw for values outside their range.
RunModels assemble(const Scenario& scenario);

}  // namespace dullcast
