#include "tools/proofs/trend_setting.hpp"

#include <cmath>

#include "models/cutting/cutting_force.hpp"
#include "models/wear/abrasion.hpp"

namespace dullcast::proofs {

using samples::SteadyBit;
using samples::SteadySetting;
namespace {
constexpr double degree = pi / 180.0;
}

SteadySetting lone_cutter(double back_rake, double strength) {
  SteadySetting s;
  s.bit = samples::flat_faced_bit(1, 1, 6.5e-3, back_rake, 0.4);
  s.bit.shapes.front().length = 8e-3;
  s.edge = samples::made_edge_law();
  s.edge.land_reference = 0.5545e-3;
  s.edge.psi_slope = 1.0;
  s.worn = Eigen::ArrayXd::Constant(1, 0.2e-3);
  s.rock = {strength, 35.0 * degree, 400.0 * strength, 0.25, 1.0, 2.8, 2600.0, 900.0, 1.5};
  s.materials = samples::usual_materials();
  s.rotary_speed = 1.0 / (two_pi * 0.2);  // 1 m/s
  return s;
}

SteadySetting whole_bit() {
  SteadySetting s = lone_cutter();
  s.bit = samples::flat_faced_bit(16, 4, 6.5e-3, 15.0 * degree, 6e-3);
  s.worn = Eigen::ArrayXd::Constant(16, 0.2e-3);
  s.slot_velocity = 0.5;
  s.rotary_speed = 1.5;
  return s;
}

std::vector<double> published_depths() {
  return {0.5e-3, 0.75e-3, 1e-3, 1.25e-3, 1.5e-3};
}

double wear_per_mass(const SteadySetting& setting, double d) {
  const wear::AbrasionLaw law{1e-17, 1.5, 150.0, 350.0 + celsius_zero, 100.0};
  constexpr double cutting_share = 1.0;
  const SteadyBit b = samples::steady_at_depth_of_cut(setting, d);
  const double energy = samples::resistance_of(setting).specific_energy;
  double volume = 0.0;  // worn off in a revolution, by rubbing and by cutting
  for (Eigen::Index i = 0; i < setting.bit.count(); ++i)
    volume += wear::diamond_wear_coefficient(law, 2.0, 1.0, b.flat_temperature(i), false) * two_pi *
              (b.loads.contact_moment(i) +
               cutting_share * energy * b.loads.cut_strength(i) * b.loads.area_moment(i));
  return volume / (setting.rock.density * two_pi * b.loads.area_moment.sum());
}

SteadySetting ordinary_bit(double strength, double youngs_modulus, double rpm) {
  geometry::BladePlan plan;
  plan.bit_diameter = 0.2;
  plan.cutters_per_blade.resize(4);
  plan.cutters_per_blade << 5, 4, 5, 4;
  plan.wing_sweep = 20.0 * degree;
  plan.cone_angle = 12.0 * degree;
  plan.gauge_angle = 75.0 * degree;
  plan.inner_back_rake = plan.outer_back_rake = 15.0 * degree;
  plan.exposure = 8e-3;
  SteadySetting s;
  s.bit = geometry::lay_out_blades(plan, {8e-3, 13e-3, 2e-3, 0.0, 0.4e-3, 45.0 * degree, 30e-6});
  s.edge = samples::made_edge_law();
  s.edge.land_reference = 0.57e-3;  // with the edge radius 0.6 mm
  s.worn = 1e-3 * s.bit.radius / s.bit.radius.maxCoeff();
  s.rock = {strength, 40.0 * degree, youngs_modulus, 0.25, 3.0, 2.9, 2600.0, 900.0, 1.5};
  s.drilling_efficiency = 0.6;
  s.materials = samples::usual_materials();
  s.flow = 60.0 * 3.785411784e-3 / 60.0;
  s.slot_velocity = s.flow / (0.35 * pi * 0.1 * 0.1);
  s.rotary_speed = rpm / 60.0;
  return s;
}

DrillingResponse drilling_response(const geometry::BitLayout& bit, double worn, double d) {
  const geometry::EdgeLaw law = samples::made_edge_law();
  materials::Rock rock;
  rock.unconfined_strength = line_strength;
  rock.youngs_modulus = 20e9;
  rock.poissons_ratio = 0.25;
  rock.contact_strength_ratio = 1.5;
  const cutting::RockResistance resistance = cutting::rock_resistance(rock, 0.0, line_friction, 1.0);
  geometry::WornProfile profile(bit, law, geometry::usual_spacing(bit));
  profile.update(Eigen::ArrayXd::Constant(bit.count(), worn));
  const Eigen::ArrayXd share = Eigen::ArrayXd::Constant(bit.count(), 1.0 / 150.0);
  cutting::CutterLoads loads;
  cutting::cutter_loads(profile, resistance, share, d, loads);
  const double R = profile.outer_radius();
  const double weight =
      cutting::axial_force(profile, resistance, cutting::force_directions(bit, law), share, d);
  const double torque = cutting::cutter_torque(loads, resistance);
  return {2.0 * torque / (R * R * d), weight / (R * d),
          2.0 * loads.contact_moment.sum() / (R * loads.contact_axial.sum()), profile.core_radius()};
}

double line_inclination() {
  return std::tan(line_back_rake + geometry::face_friction_angle(line_back_rake, samples::made_edge_law()));
}

double line_energy(double strength, double gamma) {
  return (1.0 - line_friction * gamma * line_inclination()) * line_strength +
         line_friction * gamma * strength;
}

geometry::BitLayout even_bit() {
  return samples::flat_faced_bit(120, 4, 8e-3, line_back_rake, 3e-3);
}

failure::EdgeWedge unworn_edge(double bevel, double back_rake) {
  geometry::CutterShape shape;
  shape.bevel_width = 0.4e-3;
  shape.bevel_angle = bevel * degree;
  return failure::edge_wedge(shape, back_rake * degree, 0.0);
}

double chip_rate_ratio(const failure::EdgeWedge& bevelled, const failure::EdgeWedge& plain) {
  return std::pow(failure::wedge_stress_factor(bevelled.half_angle, bevelled.load_angle) /
                      failure::wedge_stress_factor(plain.half_angle, plain.load_angle),
                  10.0);
}

}  // namespace dullcast::proofs
