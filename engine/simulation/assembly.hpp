#pragma once

#include <vector>

#include "engine/scenario/operating_weight.hpp"
#include "engine/simulation/bit_models.hpp"
#include "models/materials/rock.hpp"

namespace dullcast::simulation {

/// A part of the hole over which rock and settings stay the same.
struct DrillingInterval {
  double top = 0.0, bottom = 0.0;  // m
  int layer = 0;
  scenario::OperatingInterval settings;  // as planned, or as changed for a while
  bool off_bottom = false;               // lifted or not turning: the time does not count as rotating
  materials::Rock rock;
  cutting::RockResistance resistance;  // stones' share in it
  failure::EdgeGround edge_ground;
  double stickiness = 0.0;  // 1
  double wear_coefficient_cold =
      0.0;  // m2/N of this rock on the reference grade, below the acceleration temperature
  double rubbing_coefficient = 0.0;  // m2/N of this rock on blades and pads
  double rotary_speed = 0.0;         // rev/s
  double flow = 0.0;                 // m3/s as the plan states it
  double most_depth_of_cut = 0.0;    // m/rev, feed limit; infinity for none
  materials::Fluid fluid;            // as it passes the bit, which buoys the string too
  double flow_at_bit = 0.0;          // m3/s that the pump sends
  bool liquid = true;                // else a gas, which boils nothing but its own mist
  double mist_rate = 0.0;            // kg/s of water in the gas
  double gas_rate = 0.0;             // kg/s of the gas itself
  double fluid_capacity = 0.0;       // J/K, M c of the full hole bottom
  double fluid_mass = 0.0;           // kg, M when full
  double jet_wash = 0.0;             // m/s over the cutters, at the full flow
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

/// Builds the models of a scenario. The bottom-hole fluid is what fills the junk slots and the hole above
/// them (slot_height and water_height of the library). Throws what the models throw for values outside their
/// range.
RunModels assemble(const scenario::Scenario& scenario);

/// The interval with the settings of `settings` in place of its own, over the same depths in the same rock.
DrillingInterval with_settings(const scenario::Scenario& scenario, const BitModels& models,
                               const DrillingInterval& interval, const scenario::OperatingInterval& settings);

}  // namespace dullcast::simulation
