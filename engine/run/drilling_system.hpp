#pragma once

#include <vector>

#include "engine/run/assembly.hpp"
#include "engine/run/drilling_state.hpp"
#include "engine/run/thermal_matrix.hpp"
#include "models/weight_balance.hpp"

namespace dullcast {

/// Everything the right-hand side works out at one state. Arrays have one entry per cutter.
struct Instant {
  double weight_asked = 0.0;  // N
  Balance balance;
  RubbingLimit rubbing;
  CutterLoads loads;
  double torque = 0.0;                                                              // N m, blades included
  double rate_of_penetration = 0.0;                                                 // m/s
  double power = 0.0;                                                               // W, W ROP + T Omega
  double rock_temperature = 0.0;                                                    // K
  Eigen::ArrayXd flat_heat, face_heat;                                              // W made
  Eigen::ArrayXd flat_temperature;                                                  // K
  Eigen::ArrayXd flat_into_table, face_into_table, flat_into_rock, face_into_chip;  // W
  Eigen::ArrayXd sliding_speed;                                                     // m/s
};

/// The right-hand side of one bit drilling one stretch, and its stiff linear part. Allocates nothing once
/// built. One object per thread; it remembers the last depth of cut as the first guess for the next.
class DrillingSystem {
 public:
  explicit DrillingSystem(const RunModels& models);

  /// Chooses the stretch that is drilled and which tables are ruined (1) or whole (0).
  void enter(const Stretch& stretch);
  void set_ruined(Eigen::Index cutter) { ruined_(cutter) = true; }
  bool ruined(Eigen::Index cutter) const { return ruined_(cutter); }

  /// dx/dt at x; autonomous (t is what odeint hands over).
  void operator()(const State& x, State& dxdt, double t);
  /// Linearises at the state of the last evaluation.
  void linearise();
  ThermalMatrix& thermal_matrix() { return matrix_; }
  /// Error worth 1 per relative tolerance of 1, for each entry of the state: 100 K, 1 mm, damage 1, 1 m. The
  /// settled flat temperatures serve only the load share of carbide, a weak function of them: 1,000 K.
  /// Energies follow from the rest and do not steer the step (infinity).
  const State& error_scale() const { return error_scale_; }

  const Instant& instant() const { return instant_; }
  const StateLayout& layout() const { return layout_; }
  const Stretch& stretch() const { return *stretch_; }
  const RunModels& models() const { return *models_; }
  long evaluations() const { return evaluations_; }

  /// Weight that the plan puts on the bit at depth z, N.
  double weight_at(double z) const;
  /// Above 0 where surplus heat at x starts to make steam instead of warming the fluid, K; far below it for
  /// air.
  double near_boiling(const State& x) const;
  /// Heat stored in cutters, body and bottom-hole fluid at x, J, counted from the temperature T_zero (K).
  double stored_heat(const State& x, double T_zero) const;

 private:
  double saturation_at(double z) const;
  void balance_forces(const State& x);
  bool rubbing_is_far() const;
  void find_rubbing();
  void share_heats(const State& x);
  void heat_rates(const State& x, State& dxdt);
  void wear_rates(State& dxdt);

  const RunModels* models_;
  const Stretch* stretch_ = nullptr;
  StateLayout layout_;
  WornProfile profile_;
  Instant instant_;
  ThermalMatrix matrix_;
  std::vector<ThermalMatrix::Cutter> linear_;
  Eigen::ArrayXd worn_, rubbing_worn_, carbide_share_;
  bool rubbing_known_ = false;
  Eigen::Array<bool, Eigen::Dynamic, 1> ruined_;
  State error_scale_;
  double kept_share_ = 1.0, boiling_slope_ = 0.0;
  long evaluations_ = 0;
};

}  // namespace dullcast
