#pragma once

#include <Eigen/Core>

#include "models/cutting/friction_heat.hpp"
#include "models/failure/edge_cuts.hpp"
#include "models/hydraulics/bottom_cleaning.hpp"
#include "models/thermal/bottom_water.hpp"
#include "models/thermal/cutter_heat.hpp"

namespace dullcast::simulation {

/// Everything that the right-hand side works out at one state, component by component. Arrays have one entry
/// per cutter.
struct Evaluation {
  double weight_asked = 0.0;           // N
  cutting::RockResistance resistance;  // with what buried cutters leave of the drilling efficiency
  cutting::BitForces forces;
  double torque = 0.0;               // N m, blades, pads and wall included
  double rate_of_penetration = 0.0;  // m/s
  double power = 0.0;                // W, W ROP + T Omega
  hydraulics::BottomFlow bottom;
  hydraulics::Bed bed;
  Eigen::ArrayXd sliding_speed;                      // m/s
  Eigen::ArrayXd contact_strength, specific_energy;  // Pa, at each cutter's speed and depth of cut
  cutting::FrictionHeat friction;
  double rock_temperature = 0.0;  // K, undisturbed
  thermal::Cooling cooling;
  thermal::CutterHeats heats;
  thermal::BottomWaterRates water;
  hydraulics::SolidsRates solids;
  Eigen::ArrayXd chip_hazard_rate;  // 1/s

  failure::EdgeCuts edge_cuts() const {
    return {forces.loads.cutting_width, forces.loads.area, sliding_speed, forces.loads.cut_strength};
  }

  void resize(Eigen::Index cutters) {
    forces.resize(cutters);
    heats.resize(cutters);
    for (Eigen::ArrayXd* field :
         {&sliding_speed, &contact_strength, &specific_energy, &friction.flat, &friction.face,
          &friction.rock_rise, &friction.crushed, &cooling.convection, &cooling.bare, &chip_hazard_rate})
      field->setZero(cutters);
  }
};

}  // namespace dullcast::simulation
