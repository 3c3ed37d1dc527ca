#pragma once

#include "models/materials/fluid.hpp"
#include "models/thermal/cutter_heat.hpp"
#include "models/thermal/warm_rock.hpp"

namespace dullcast::thermal {

/// What decides the heat that all cutters of one bit share and stays the same along the hole.
struct BottomHeatLaw {
  double body_capacity = 0.0;     // J/K
  double body_wetted_area = 0.0;  // m2
  double hole_area = 0.0;         // m2
  double warm_skin_depth = 0.0;   // m, of warm rock at rest
};

/// The bottom at one instant.
struct BottomHeatDemand {
  double power = 0.0;              // W, work done at the bit
  double rubbing_into_body = 0.0;  // W of it that enters the body by blades and pads
  double rubbing_into_rock = 0.0;  // W of it that enters the rock under them, in a gas; 0 in a liquid
  WarmRock warm_rock;              // at the rate of penetration
  double water_share = 1.0;        // 1, of what flows through, that was there before; 1 for a gas
  double flow_capacity = 0.0;      // W/K, density times heat capacity times flow
  double fluid_to_wall = 0.0;      // W/K
  double mist_rate = 0.0;          // kg/s of water in a gas
  double gas_rate = 0.0;           // kg/s of the gas itself
  double inlet_temperature = 0.0;  // K
  double rock_temperature = 0.0;   // K, undisturbed
};

/// Faces of the body that rub on rock, alike.
struct RubbingFaces {
  double heat = 0.0;    // W that friction on cold rock makes at all of them
  double count = 1.0;   // of them, that share it
  double area = 0.0;    // m2, of each
  double length = 0.0;  // m, along travel
  double v = 0.0;       // m/s
};
struct RubbingHeat {
  double into_body = 0.0;  // W
  double into_rock = 0.0;  // W
  double unmade = 0.0;     // W of the heat that softened rock does not make after all
};

/// What of rubbing faces' heat enters the body: the body's spot (uniform_spot_resistance) and the moving rock
/// (rock_contact_conductance) share it as their conductances, which is Blok's flash temperature (1937) with
/// both sides at rest temperature [hb]. Rock under them softens as it does under flats (softened_heat), from
/// body and warm rock at T_body and T_warm (K) on. 0 without heat, area or length. Throws what those throw.
RubbingHeat rubbing_heat(const RubbingFaces& faces, double body_conductivity, const materials::Rock& rock,
                         const Softening& softening, double T_body, double T_warm);

/// Writes down every flow of heat between body, fluid and warm rock and out of them: work becomes heat in the
/// fluid, but for what rubbing blades and pads put into the body and, in a gas, into the rock (a liquid's
/// film takes it from there within some kelvins, and it counts as in the liquid [asm]); the body's walls and
/// the hole's bottom give theirs to it; cut rock takes the warm skin's heat into the fluid and leaves at the
/// fluid's temperature; the flow, the wall and evaporating mist carry heat off.
void exchange_bottom_heat(const BottomHeatLaw& law, const Cooling& cooling, const BottomHeatDemand& demand,
                          const SharedTemperatures& T, HeatBalance& balance);

}  // namespace dullcast::thermal
