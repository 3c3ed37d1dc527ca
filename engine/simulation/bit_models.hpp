#pragma once

#include <optional>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "models/cutting/bit_forces.hpp"
#include "models/cutting/friction_heat.hpp"
#include "models/failure/edge_hazard.hpp"
#include "models/failure/retention.hpp"
#include "models/hydraulics/bottom_cleaning.hpp"
#include "models/thermal/bottom_heat.hpp"
#include "models/thermal/bottom_water.hpp"
#include "models/wear/body_wear.hpp"
#include "models/wear/cutter_wear.hpp"

namespace dullcast::simulation {

/// The models of one bit, made from a scenario's central numbers: all that does not change along the hole.
struct BitModels {
  geometry::BitLayout bit;
  geometry::EdgeLaw edge;
  cutting::BitMechanics mechanics;
  hydraulics::CleaningLaw cleaning;
  std::vector<thermal::CutterMaterials> materials;  // one per kind of cutter
  thermal::CutterHeatLaw cutter_heat;
  thermal::CoolingLaw cooling;
  thermal::BottomHeatLaw bottom_heat;
  thermal::BottomWaterLaw bottom_water;
  wear::CutterWearLaw wear;
  wear::BodyWearLaw body_wear;
  failure::EdgeHazardLaw edges;
  failure::CutterRetention retention;
  cutting::RateLaw rate;
  cutting::ChipHeatLaw chip_heat;
  // The unworn bit's outlines, for others to begin from, and where its blades begin to bear.
  std::optional<geometry::WornProfile> unworn;
  cutting::RubbingLimit unworn_rubbing;
  double pad_width = 0.0;            // m, along travel
  double rubbing_coefficient = 0.0;  // m2/N at CAI 1, of this body
  double settling_time = 0.0;     // s: the load share of carbide follows the flat's temperature with this lag
  double bottom_volume = 0.0;     // m3 of fluid that takes part in the bottom's heat
  double wall_conductance = 0.0;  // W/K from that fluid into the hole's wall
  double jet_path = 0.0;          // m along the bottom from where the jets strike to the cutters
};

/// Builds the models of a scenario's bit. A body's mass scales with the bit: volume_share R^3 rho c. Throws
/// what the models throw for values outside their range.
BitModels bit_models(const scenario::Scenario& scenario);

}  // namespace dullcast::simulation
