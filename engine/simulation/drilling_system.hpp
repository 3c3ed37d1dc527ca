#pragma once

#include <vector>

#include "engine/simulation/assembly.hpp"
#include "engine/simulation/drilling_state.hpp"
#include "engine/simulation/thermal_matrix.hpp"
#include "models/cutting/weight_balance.hpp"
#include "models/materials/saturated_water.hpp"
#include "models/thermal/boiling_curve.hpp"
#include "models/thermal/warm_rock.hpp"
#include "models/wear/body_wear.hpp"

namespace dullcast::simulation {

/// Everything the right-hand side works out at one state. Arrays have one entry per cutter.
struct Evaluation {
  double weight_asked = 0.0;  // N
  cutting::Balance balance;
  cutting::RubbingLimit rubbing;
  cutting::CutterLoads loads;
  double torque = 0.0;                                                              // N m, blades included
  double rate_of_penetration = 0.0;                                                 // m/s
  double power = 0.0;                                                               // W, W ROP + T Omega
  double rock_temperature = 0.0;                                                    // K, undisturbed
  Eigen::ArrayXd tangential_force, normal_force, radial_force;                      // N
  wear::LateralLoad lateral;                                                        // carried by the gauge
  double pad_force = 0.0;                                                           // N of it on the pads
  Eigen::ArrayXd flat_heat, face_heat;                                              // W made
  Eigen::ArrayXd flat_temperature;                                                  // K
  Eigen::ArrayXd flat_into_table, face_into_table, flat_into_rock, face_into_chip;  // W
  Eigen::ArrayXd sliding_speed;                                                     // m/s
  // Cooling and cleaning:
  hydraulics::SlotFlow slot;
  hydraulics::Plug plug;
  double cuttings_size = 0.0;               // m
  double lifted_share = 1.0;                // 1, of the cuttings, by the uphole flow
  Eigen::ArrayXd convection;                // W/(m2 K), single phase
  Eigen::ArrayXd table_flux, carbide_flux;  // W/m2 into the fluid, of the parts by the contact
  Eigen::ArrayXd film;                      // 1 where a film of steam covers the table, else 0
  bool boils = false;               // there is a saturation to boil at: a liquid under its critical pressure
  materials::SaturatedWater water;  // at the bottom's pressure, where it boils
  double critical_flux = 0.0;       // W/m2, where it boils
  double wetted_share = 1.0;        // 1, of the surfaces that water reaches
  double steam_rate = 0.0;          // kg/s boiled away
  Eigen::ArrayXd chip_hazard_rate;  // 1/s
};

/// The right-hand side of one bit drilling one stretch, and its stiff linear part. Allocates nothing once
/// built. One object per thread; it remembers the last depth of cut as the first guess for the next.
class DrillingSystem {
 public:
  explicit DrillingSystem(const RunModels& models);

  /// Chooses the stretch that is drilled. It must outlive its use here.
  void enter(const DrillingInterval& stretch);
  /// Which tables are ruined (wear like carbide), which cutters are gone.
  void set_ruined(Eigen::Index cutter) { ruined_(cutter) = true; }
  bool ruined(Eigen::Index cutter) const { return ruined_(cutter); }
  void set_lost(Eigen::Index cutter) { lost_(cutter) = true; }
  bool lost(Eigen::Index cutter) const { return lost_(cutter); }
  Eigen::ArrayXi lost_cutters() const { return lost_.cast<int>(); }
  /// Blades that have lost `worn` (m) of their faces let cutters stand out further. Allocates.
  void set_blade_loss(double worn);

  /// dx/dt at x; autonomous (t is what odeint hands over).
  void operator()(const State& x, State& dxdt, double t);
  /// Linearises at the state of the last evaluation.
  void linearise();
  ThermalMatrix& thermal_matrix() { return matrix_; }
  /// Error worth 1 per relative tolerance of 1, for each entry of the state: 100 K, 1 mm, damage 1, hazard 1,
  /// 1 m, a tenth of the water, solids 0.1. The settled flat temperatures serve only the load share of
  /// carbide, a weak function of them: 1,000 K. Energies follow from the rest and do not steer the step
  /// (infinity).
  const State& error_scale() const { return error_scale_; }

  const Evaluation& evaluation() const { return evaluation_; }
  const StateLayout& layout() const { return layout_; }
  const DrillingInterval& interval() const { return *interval_; }
  const RunModels& models() const { return *models_; }
  /// The rock's resistance with what packed slots leave of the drilling efficiency.
  const cutting::RockResistance& resistance() const { return resistance_; }
  long evaluations() const { return evaluations_; }

  /// Weight that the plan puts on the bit at depth z, N.
  double weight_at(double z) const;
  /// Above 0 where surplus heat at x starts to make steam instead of warming the fluid, K; far below it for
  /// air.
  double near_boiling(const State& x) const;
  /// Heat capacity of the rock's warm skin on this stretch, J/K.
  double warm_capacity() const { return warm_capacity_; }
  /// Heat stored in cutters, body, warm rock and bottom-hole fluid at x, J, counted from the temperature
  /// T_zero (K).
  double stored_heat(const State& x, double T_zero) const;

 private:
  /// The share of load on carbide follows the flat's temperature with this lag: the time in which the diamond
  /// next to a flat warms, and the shortest time that the network resolves. It unties "force makes heat" from
  /// "heat shares force" within one evaluation [asm].
  static constexpr double settling_time = 0.05;  // s

  /// Depth of the rock's warm skin at rest: fits runs of minutes (models/thermal/warm_rock.hpp) [asm].
  static constexpr double warm_depth = 6e-3;  // m

  /// Heat capacity that stays when the water is gone (cuttings, steam), over that of the full water [asm].
  static constexpr double dry_capacity_share = 0.05;

  using Flags = Eigen::Array<bool, Eigen::Dynamic, 1>;
  double saturation_at(double z) const;
  void find_flow(const State& x);
  void find_lift();
  void balance_forces(const State& x);
  void lift_off();
  void find_side_forces(const State& x);
  bool rubbing_is_far() const;
  void find_rubbing();
  void find_cooling(const State& x);
  struct SurfaceHeat {
    double flux = 0.0;           // W/m2
    double surface_slope = 0.0;  // W/(m2 K), by the surface's temperature
    double fluid_slope = 0.0;    // W/(m2 K), down by the fluid's
    thermal::BoilingRegime regime = thermal::BoilingRegime::single_phase;
  };
  SurfaceHeat surface_heat(double T_surface, double T_fluid, double h) const;
  void share_heats(const State& x);
  void heat_rates(const State& x, State& dxdt);
  void water_rates(const State& x, double surplus, double flow_capacity, State& dxdt);
  void cleaning_rates(const State& x, State& dxdt);
  void wear_rates(const State& x, State& dxdt);
  void body_rates(const State& x, State& dxdt);

  const RunModels* models_;
  const DrillingInterval* interval_ = nullptr;
  StateLayout layout_;
  geometry::WornProfile profile_;
  Evaluation evaluation_;
  cutting::RockResistance resistance_;
  cutting::BladeSurfaces surfaces_;
  ThermalMatrix matrix_;
  std::vector<ThermalMatrix::Cutter> linear_;
  std::vector<thermal::PartArray> to_fluid_;  // W from each cutter's parts
  ThermalMatrix::Hole hole_;
  thermal::WarmRock warm_;
  double warm_capacity_ = 1.0;
  Eigen::ArrayXd worn_, rubbing_worn_, carbide_share_;
  Eigen::ArrayXd gauge_share_;  // 1 for cutters that reach the gauge
  Eigen::ArrayXd side_force_;   // N on each of them
  double unworn_reach_ = 0.0;   // m
  double solids_at_ = 0.0, plug_at_ = 0.0, body_convection_ = 0.0, bottom_convection_ = 0.0;
  bool rubbing_known_ = false;
  Flags ruined_, lost_;
  State error_scale_;
  long evaluations_ = 0;
};

}  // namespace dullcast::simulation
