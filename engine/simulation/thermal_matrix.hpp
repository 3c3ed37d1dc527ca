#pragma once

#include <Eigen/Core>
#include <vector>

#include "engine/simulation/cutter_blocks.hpp"
#include "engine/simulation/state_layout.hpp"
#include "models/hydraulics/bottom_cleaning.hpp"
#include "models/thermal/bottom_water.hpp"
#include "models/thermal/heat_balance.hpp"

namespace dullcast::simulation {

/// The linear part A of the right-hand side that is stiff: heat moving between the cutters' parts, body,
/// bottom-hole fluid and the rock's warm skin (the slopes of the heat balance over the stores' capacities),
/// the settling of flat temperatures, the energies that follow from it, and the filling of water and slots.
/// It is an arrow: each cutter couples to the others only through body, fluid and rock, so a solve costs
/// O(cutters).
class ThermalMatrix {
 public:
  explicit ThermalMatrix(const StateLayout& layout);

  /// What turns flows of heat into rates, and what dies away by itself.
  struct Scales {
    const std::vector<thermal::PartArray>& capacity;  // J/K, of each cutter's parts
    const Eigen::ArrayXd& flat_follows;               // 1, d T_flat/d T_table; the rest follows the warm rock
    double settling_time = 1.0;                       // s
    double body_per_heat = 0.0, warm_per_heat = 0.0;  // K/J
    const thermal::BottomWaterRates& water;
    const hydraulics::Solids& solids_decay;  // 1/s
  };
  void linearise(const thermal::HeatBalance& balance, const Scales& scales);

  /// Makes ready to solve (s I - A) y = b with s = `shift` (1/s). A part whose surface boils on the falling
  /// part of its curve (HeatBalance::falls) runs away from there, at a rate a, onto a branch that is steep
  /// the other way. A step that does not resolve that (a past a fifth of the shift) is damped the wrong way,
  /// overshoots and comes back to where it began: for such a step what falls is left out of A, of the part's
  /// row and of the fluid's. The stepper is a W method, whose order does not rest on A.
  void factorise(double shift);
  /// The same for a step without end, as Newton's method towards a balance takes it, with everything left in.
  /// False where A is not that of a balance that holds: some store would run away from it. Checked by
  /// elimination without pivoting: each cutter's block is symmetric but for the scaling by its capacities, so
  /// that it decays where all pivots are above 0 (Sylvester), and so does the rest through its complement.
  bool factorise_at_rest();
  /// Whether it stands so, of a balance at which flows run straight. The same matrix then serves Newton's
  /// method near by in the same interval: what its corrections miss is by as little as the flows differ.
  bool rests_plainly() const { return rests_plainly_; }
  /// Another interval: what the matrix is of no longer counts.
  void forget() { rests_plainly_ = false; }

  /// Solves (s I - A) y = b in place; rows outside A give y = b/s.
  void solve(State& b) const;

 private:
  void factorise(double shift, bool leave_out);

  StateLayout layout_;
  double shift_ = 1.0;
  bool any_falls_ = false, bends_ = false, rests_plainly_ = false;
  CutterBlocks blocks_;
  Eigen::ArrayXd settled_table_, settled_warm_;
  double settled_decay_ = 0.0;
  Eigen::Matrix3d shared_;
  Eigen::RowVector3d carried_, left_in_rock_;
  double water_decay_ = 0.0, solids_decay_ = 0.0, plug_decay_ = 0.0;
  // The Schur complement of the shared stores.
  Eigen::Matrix3d complement_, inverse_complement_;
};

}  // namespace dullcast::simulation
