#pragma once

#include <Eigen/Core>
#include <vector>

#include "engine/run/assembly.hpp"
#include "engine/run/drilling_state.hpp"

namespace dullcast {

/// The linear part A of the right-hand side that is stiff: heat moving between tables, carbides, body and
/// bottom-hole fluid, the settling of flat temperatures, and the energies that follow from it. It is an
/// arrow: each cutter couples to the others only through body and fluid, so a solve costs O(cutters).
class ThermalMatrix {
 public:
  explicit ThermalMatrix(StateLayout layout);

  /// Conductances and capacities of one cutter at the instant of linearisation.
  struct Cutter {
    double table_capacity = 1.0;  // J/K
    double flat_to_rock = 0.0;    // W/K from table through the flat into rock
    double face_to_chip = 0.0;    // W/K from table through the face into chips
    double flat_follows = 0.0;    // d T_flat/d T_table, 1
  };

  /// Takes the conductances. `boiling_slope` is -d(dT_f/dt)/dT_f from boil-off (1/s) and `kept_share` the
  /// share of surplus heat that still warms the fluid.
  void linearise(const Stretch& stretch, const BitModels& bit, const std::vector<Cutter>& cutters,
                 double kept_share, double boiling_slope, double settling_time);

  /// Makes ready to solve (s I - A) y = b with s = `shift` (1/s).
  void factorise(double shift);

  /// Solves (s I - A) y = b in place; rows outside A give y = b/s.
  void solve(State& b) const;

 private:
  StateLayout layout_;
  double shift_ = 1.0;
  // A, row by row; one entry per cutter.
  Eigen::ArrayXd table_table_, table_carbide_, table_body_, table_fluid_;
  Eigen::ArrayXd carbide_table_, carbide_carbide_, carbide_body_, carbide_fluid_;
  Eigen::ArrayXd settled_table_;
  Eigen::ArrayXd body_table_, body_carbide_, fluid_table_, fluid_carbide_;
  Eigen::ArrayXd rock_table_;
  double settled_settled_ = 0.0, body_body_ = 0.0, body_fluid_ = 0.0, fluid_fluid_ = 0.0, fluid_body_ = 0.0;
  double carried_fluid_ = 0.0;
  // Factorisation: inverse 2 x 2 blocks of table and carbide, and the Schur complement of body and fluid.
  Eigen::ArrayXd inverse_tt_, inverse_tc_, inverse_ct_, inverse_cc_;
  Eigen::Matrix2d inverse_complement_;
};

}  // namespace dullcast
