#pragma once

#include <Eigen/Core>
#include <vector>

#include "engine/simulation/assembly.hpp"
#include "engine/simulation/drilling_state.hpp"

namespace dullcast::simulation {

/// The linear part A of the right-hand side that is stiff: heat moving between the cutters' parts, body,
/// bottom-hole fluid and the rock's warm skin, the settling of flat temperatures, the energies that follow
/// from it, and the filling of water and slots. It is an arrow: each cutter couples to the others only
/// through body, fluid and rock, so a solve costs O(cutters).
class ThermalMatrix {
 public:
  explicit ThermalMatrix(StateLayout layout);

  /// Conductances and capacities of one cutter at the instant of linearisation.
  struct Cutter {
    thermal::PartArray capacity = thermal::PartArray::Ones();  // J/K
    thermal::CutterLinks links;
    double flat_to_rock = 0.0;  // W/K from table through the flat into rock
    double face_to_chip = 0.0;  // W/K from table through the face into chips
    double flat_follows = 0.0;  // d T_flat/d T_table, 1
    thermal::PartArray to_fluid =
        thermal::PartArray::Zero();  // W/K, d heat/d T of the part; boiling makes it steep
    thermal::PartArray from_fluid = thermal::PartArray::Zero();  // W/K, -d heat/d T_fluid
  };

  /// The same of what all cutters share.
  struct Hole {
    double fluid_capacity = 1.0;    // J/K, over the share of surplus heat that warms the fluid
    double body_to_fluid = 0.0;     // W/K
    double warm_capacity = 1.0;     // J/K of the rock's warm skin
    double warm_to_fluid = 0.0;     // W/K by convection
    double warm_by_cuttings = 0.0;  // W/K that cut rock takes along into the fluid
    double warm_to_rock = 0.0;      // W/K into the undisturbed rock
    double carried = 0.0;           // W/K that leaves with fluid, cuttings and mist or through the wall
    double ledger = 0.0;         // W/K of it that the ledger counts as carried: what fills the bottom stays
    double boiling_slope = 0.0;  // 1/s, -d(dT_f/dt)/dT_f of boil-off and of cold water that falls back
    double water_rate = 0.0;     // 1/s, -d(dw/dt)/dw of the water's refilling
    double plug_rate = 0.0;      // 1/s, -d(dp/dt)/dp of the plug's flushing
    double solids_rate = 0.0;    // 1/s, -d(dc/dt)/dc of the slots' clearing
  };

  void linearise(const BitModels& bit, const std::vector<Cutter>& cutters, const Hole& hole,
                 double settling_time);

  /// Makes ready to solve (s I - A) y = b with s = `shift` (1/s).
  void factorise(double shift);

  /// Solves (s I - A) y = b in place; rows outside A give y = b/s.
  void solve(State& b) const;

 private:
  StateLayout layout_;
  double shift_ = 1.0;
  // A, of each cutter: its parts on each other, the hubs on them, they on the hubs.
  std::vector<Eigen::Matrix4d> own_;
  std::vector<Eigen::Matrix<double, thermal::cutter_parts, 3>> from_hubs_;
  std::vector<Eigen::Matrix<double, 3, thermal::cutter_parts>> to_hubs_;
  Eigen::ArrayXd settled_table_, settled_warm_;
  double settled_settled_ = 0.0;
  Eigen::Matrix3d hubs_;  // body, fluid, warm rock on each other
  double carried_fluid_ = 0.0, rock_warm_ = 0.0, water_rate_ = 0.0, solids_rate_ = 0.0, plug_rate_ = 0.0;
  // Factorisation: inverse blocks of the cutters, and the Schur complement of the hubs.
  std::vector<Eigen::Matrix4d> inverse_;
  Eigen::Matrix3d inverse_complement_;
};

}  // namespace dullcast::simulation
