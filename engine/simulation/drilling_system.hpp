#pragma once

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/simulation/assembly.hpp"
#include "engine/simulation/evaluation.hpp"
#include "engine/simulation/state_layout.hpp"
#include "engine/simulation/thermal_matrix.hpp"
#include "models/common/constants.hpp"

namespace dullcast::simulation {

/// The right-hand side of one bit drilling one interval, and its stiff linear part: the components of models/
/// wired together. Each step of an evaluation takes what it needs and gives what it found. Allocates nothing
/// once built. One object per thread.
class DrillingSystem {
 public:
  explicit DrillingSystem(const RunModels& models);

  /// Lets forces stand while little of what decides them changes, in proportion to the relative tolerance
  /// that a run is stepped at: 10 um of wear, a thousandth of weight and efficiency, and a hundredth of what
  /// carbide's pressure makes of a contact for a tolerance of 1, a hundredth of what a step may be wrong by.
  /// Without it (0) they are found anew at every evaluation.
  void let_forces_stand(double relative_tolerance) {
    force_tolerance_ = {1e-5 * relative_tolerance, 1e-3 * relative_tolerance};
  }
  /// Holds forces as they were found last, whatever the state: for looking at other temperatures beside them.
  void hold_forces(bool hold) { forces_held_ = hold; }
  /// Chooses the interval that is drilled. It must outlive its use here.
  void enter(const DrillingInterval& interval);
  /// Which tables are ruined (wear like carbide), which cutters are gone.
  void set_ruined(Eigen::Index cutter) {
    ruined_(cutter) = true;
    memory_.forget();
  }
  bool ruined(Eigen::Index cutter) const { return ruined_(cutter); }
  void set_lost(Eigen::Index cutter) {
    lost_(cutter) = true;
    memory_.forget();
  }
  bool lost(Eigen::Index cutter) const { return lost_(cutter); }
  const wear::Flags& lost() const { return lost_; }
  Eigen::ArrayXi lost_cutters() const { return lost_.cast<int>(); }

  /// dx/dt at x; autonomous (t is what odeint hands over).
  void operator()(const State& x, State& dxdt, double t);
  /// The same in two: rates of what is fast (state_layout.hpp), with all that an Evaluation holds but the
  /// chip hazards' rates, and then, at the same x, rates of what is slow.
  void find_fast_rates(const State& x, State& dxdt);
  void find_slow_rates(const State& x, State& dxdt);
  /// Where the system stands: what its last evaluation found. It goes back there, as if it had not been away,
  /// from other states with the same forces (hold_forces).
  struct Stand {
    Evaluation found;
    thermal::HeatBalance heat{0};
  };
  /// What the flows of heat were goes into `stand` and is not here until the system goes back.
  void keep_stand(Stand& stand) {
    if (stand.heat.cutters().size() != heat_.cutters().size())
      stand.heat = thermal::HeatBalance(layout_.cutters);
    stand.found = now_;
    std::swap(heat_, stand.heat);
  }
  void go_back(Stand& stand) {
    now_ = stand.found;
    std::swap(heat_, stand.heat);
  }
  /// Brings what the slots hold at x to where it would stand at the depth of cut and the flow of the last
  /// evaluation, by Newton's method on it alone; leaves it where there is no such place.
  void settle_slots(State& x) const;
  /// Linearises at the state of the last evaluation.
  void linearise();
  ThermalMatrix& thermal_matrix() { return matrix_; }
  /// Error worth 1 per relative tolerance of 1, for each entry of the state (state_layout.hpp).
  const State& error_scale() const { return error_scale_; }

  const Evaluation& evaluation() const { return now_; }
  const StateLayout& layout() const { return layout_; }
  const DrillingInterval& interval() const { return *interval_; }
  const RunModels& models() const { return *models_; }
  long evaluations() const { return evaluations_; }

  /// Weight that the plan puts on the bit at depth z, N.
  double weight_at(double z) const;
  /// Above 0 where surplus heat at x starts to make steam instead of warming the fluid, K; far below it for
  /// air.
  double near_boiling(const State& x) const;
  /// Whether some surface boiled on the falling part of its curve at the last evaluation.
  bool falls() const { return heat_.any_falls(); }
  /// Whether flows of heat bent with temperature there: something boiled, or rock softened.
  bool bends() const { return heat_.bends(); }
  /// Longest step from a state with the slope dx/dt, evaluated last, s: where a surface boils on the falling
  /// part of its curve it runs away from there within some milliseconds, which a longer step may miss for
  /// ever; it is followed as long as it moves by 5 K in a step at least.
  double longest_step(const State& slope) const;
  /// s, what moves the fluid at the bottom by 10 K at its rate in `slope`: no first step of a changed hole is
  /// longer, for what begins to fill a dry one warms or cools it in some milliseconds and ever more slowly
  /// from then on, which an error's estimate over all of that may miss. Nor longer than what moves a table so
  /// far where one is past the peak of its boiling curve: it falls off its film as fast when flow returns.
  double first_step(const State& slope) const {
    double fastest = std::abs(slope(layout_.first(Block::fluid)));
    if (now_.heats.past_film > thermal::far_from_film)
      fastest = std::max(fastest, layout_.table(slope).abs().maxCoeff());
    return 10.0 / fastest;
  }
  /// Nothing heals, and no rock grows back: what never falls is brought up to where the step began. A step
  /// over a leap of the rates may end below, by what it may be wrong by; as the right end lies at or above
  /// the start, this only brings it nearer.
  void undo_nothing(const State& start, State& end) const {
    layout_.never_falling(end) = layout_.never_falling(end).cwiseMax(layout_.never_falling(start));
  }
  /// Whether something is colder than 200 K: no ground or fluid is given below 223 K, and drying mist cools
  /// by some kelvin. A step that is long beside the way to a balance far off can leap past it by so much that
  /// the error's estimate, which takes the rates to bend little, misses it.
  bool cannot_be(const State& x) const {
    constexpr double coldest = 200.0;  // K
    return (x.head(layout_.water()).array() < coldest).any();
  }
  /// Heat capacity of the rock's warm skin on this interval, J/K.
  double warm_capacity() const { return warm_capacity_; }
  /// Heat stored in cutters, body, warm rock and bottom-hole fluid at x, J, counted from the temperature
  /// T_zero (K).
  double stored_heat(const State& x, double T_zero) const;

 private:
  double pressure_at(double z) const;
  void find_forces(const State& x);
  void find_cooling(const State& x);
  thermal::CuttingHeat cutting_heat() const;
  thermal::RubbingHeat rubbing_heat(const thermal::SharedTemperatures& T) const;
  /// Rock that softens takes less work (W) than was counted so far.
  void take_back(double unmade) {
    if (!(unmade > 0.0)) return;
    now_.power -= unmade;
    now_.torque -= unmade / (two_pi * interval_->rotary_speed);
  }
  void balance_heat(const State& x);
  void put_heat_rates(const State& x, State& dxdt) const;
  void put_wear_rates(const State& x, State& dxdt);
  void put_body_rates(const State& x, State& dxdt) const;

  const RunModels* models_;
  const DrillingInterval* interval_ = nullptr;
  StateLayout layout_;
  geometry::WornProfile profile_;
  cutting::ForceMemory memory_;
  cutting::ForceTolerance force_tolerance_;
  bool forces_held_ = false;
  Evaluation now_;
  std::vector<thermal::BlockOfTouches> touches_;
  thermal::HeatBalance heat_;
  ThermalMatrix matrix_;
  double warm_capacity_ = 1.0;
  Eigen::ArrayXd most_worn_;  // m, one per cutter
  Eigen::ArrayXd worn_, leached_share_, carbide_share_;
  wear::Flags ruined_, lost_;
  State error_scale_;
  long evaluations_ = 0;
};

}  // namespace dullcast::simulation
