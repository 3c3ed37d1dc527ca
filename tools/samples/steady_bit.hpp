#pragma once

#include <Eigen/Core>
#include <Eigen/LU>
#include <cmath>
#include <limits>

#include "models/common/constants.hpp"
#include "models/cutting/weight_balance.hpp"
#include "models/materials/fluid.hpp"
#include "models/thermal/convection.hpp"
#include "models/thermal/heat_network.hpp"

/// A bit drilling steadily, its heat settled: the models put together without time, for published trends.
namespace dullcast::samples {

struct SteadySetting {
  geometry::BitLayout bit;
  geometry::EdgeLaw edge;
  Eigen::ArrayXd worn;  // m
  materials::Rock rock;
  double flat_friction = 0.4, drilling_efficiency = 1.0;
  thermal::Softening softening{1173.15, 1523.15};  // the library's central values
  double chip_speed_share = 0.5;
  thermal::CutterMaterials materials;
  materials::Fluid fluid{999.0, 1.1e-3, 0.59, 4186.0};  // water at 15 C [hb]
  double slot_velocity = 0.0;                           // m/s
  double flow = 0.0;                  // m3/s, warmed by the bit's power; 0 for a fluid that stays cold
  double inlet_temperature = 288.15;  // K, of fluid and rock
  double rotary_speed = 0.0;          // rev/s
  cutting::RateLaw rate{0.079, 0.4, 0.4e-3};  // as the library's central values
  double carbide_share = 0.1;                 // 1, pressure on carbide over that on diamond
  double crushed_share = 0.6;  // 1, of the work of cutting, in the rock that meets face and flat
};

/// What the rock opposes to the bit that turns at the setting's speed.
inline cutting::RockResistance resistance_of(const SteadySetting& s) {
  cutting::RockResistance resistance =
      cutting::rock_resistance(s.rock, 0.0, s.flat_friction, s.drilling_efficiency);
  resistance.rate = s.rate;
  resistance.rotary_speed = s.rotary_speed;
  return resistance;
}

struct SteadyBit {
  double depth_of_cut = 0.0, weight = 0.0, torque = 0.0, power = 0.0;
  double contact_share = 0.0;  // of the weight
  double fluid_temperature = 0.0;
  cutting::CutterLoads loads;
  Eigen::ArrayXd flat_heat, face_heat;  // W
  Eigen::ArrayXd flat_temperature;      // K
  Eigen::ArrayXd flat_per_watt;         // K rise of the flat over the fluid per W of friction heat
  Eigen::Index hottest = 0;
};

/// Steady state at a given depth of cut (m/rev). Each cutter's table settles where what the two contacts send
/// in leaves to fluid and body, both at the fluid's temperature. No temperature feeds back on the forces of a
/// sharp or cold cutter.
inline SteadyBit steady_at_depth_of_cut(const SteadySetting& s, double d) {
  const Eigen::Index n = s.bit.count();
  const cutting::RockResistance resistance = resistance_of(s);
  const cutting::ForceDirections directions = cutting::force_directions(s.bit, s.edge);
  const Eigen::ArrayXd carbide_share = Eigen::ArrayXd::Constant(n, s.carbide_share);
  geometry::WornProfile profile(s.bit, s.edge, geometry::usual_spacing(s.bit));
  profile.update(s.worn);

  SteadyBit b;
  b.depth_of_cut = d;
  cutting::cutter_loads(profile, resistance, carbide_share, d, b.loads);
  b.weight = cutting::axial_force(b.loads, resistance, directions);
  b.contact_share = b.loads.contact_axial.sum() / b.weight;
  b.torque = cutting::cutter_torque(b.loads, resistance);
  const double omega = two_pi * s.rotary_speed;
  b.power = b.torque * omega + b.weight * d * s.rotary_speed;
  b.fluid_temperature = s.inlet_temperature +
                        (s.flow > 0.0 ? b.power / (s.fluid.density * s.fluid.heat_capacity * s.flow) : 0.0);
  b.flat_heat = s.flat_friction * omega * b.loads.contact_moment;
  b.face_heat = s.chip_speed_share * resistance.specific_energy * omega * directions.chip_friction *
                b.loads.cut_strength * b.loads.area_moment;
  b.flat_temperature.setConstant(n, b.fluid_temperature);
  b.flat_per_watt.setZero(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const double v = omega * s.bit.radius(i);
    const double h = thermal::cutter_convection(
        s.fluid, thermal::speed_past_cutter(s.slot_velocity, s.rotary_speed, s.bit.radius(i)),
        2.0 * s.bit.shapes.front().radius);
    const thermal::CutterNetwork network = thermal::cutter_network(s.bit.shapes.front(), s.materials);
    const thermal::CutterHeating heating{b.flat_heat(i),           b.face_heat(i),    b.loads.contact_area(i),
                                         b.loads.engaged_width(i), b.loads.area(i),   v,
                                         s.chip_speed_share * v,   s.bit.back_rake(i)};
    const thermal::CutterContacts c = thermal::cutter_contacts(network, heating, s.rock);
    if (!(c.flat_spot > 0.0)) continue;
    // What leaves per kelvin of the table by the contact, by whatever way.
    const thermal::CutterLinks links =
        thermal::cutter_links(network, {heating.contact_area, heating.engaged_width});
    const double out =
        1.0 /
        thermal::conductance_matrix(network, links, h).inverse()(thermal::table_near, thermal::table_near);
    // Heat into the table through a contact is (q + r (T_rock - T_table)) spot/(spot + r): linear in the
    // table's T.
    const double left = s.crushed_share * resistance.specific_energy * b.loads.cut_strength(i);  // J/m3
    const double rock =
        s.inlet_temperature + thermal::rise_at_contacts(left / (s.rock.density * s.rock.heat_capacity),
                                                        left * omega * b.loads.area_moment(i),
                                                        c.flat_rock + c.face_rock);
    const double flat_share = c.flat_spot / (c.flat_spot + c.flat_rock);
    const double face_share = c.face_spot > 0.0 ? c.face_spot / (c.face_spot + c.face_rock) : 0.0;
    // Rock that softens makes less heat, which cools the table, which makes more: a few rounds meet.
    const double whole = b.flat_heat(i);
    for (int round = 0; round < 60; ++round) {
      const double flows = flat_share * (b.flat_heat(i) + c.flat_rock * rock) +
                           face_share * (b.face_heat(i) + c.face_rock * rock) + out * b.fluid_temperature;
      const double table = flows / (out + flat_share * c.flat_rock + face_share * c.face_rock);
      const double made = thermal::softened_heat(s.softening, whole, c.flat_spot, c.flat_rock, table, rock);
      b.flat_temperature(i) = thermal::share_heat(made, c.flat_spot, c.flat_rock, table, rock).temperature;
      if (std::abs(made - b.flat_heat(i)) <= 1e-6 * whole) break;
      b.flat_heat(i) = 0.5 * (made + b.flat_heat(i));
    }
    b.flat_per_watt(i) = (b.flat_temperature(i) - b.fluid_temperature) / (b.flat_heat(i) + b.face_heat(i));
  }
  b.flat_temperature.maxCoeff(&b.hottest);
  return b;
}

/// The same under a given weight on bit, N.
inline SteadyBit steady_under_weight(const SteadySetting& s, double weight) {
  const cutting::RockResistance resistance = resistance_of(s);
  const cutting::ForceDirections directions = cutting::force_directions(s.bit, s.edge);
  geometry::WornProfile profile(s.bit, s.edge, geometry::usual_spacing(s.bit));
  profile.update(s.worn);
  constexpr double none = std::numeric_limits<double>::infinity();
  const cutting::Balance balance = cutting::balance_weight(
      profile, resistance, directions, Eigen::ArrayXd::Constant(s.bit.count(), s.carbide_share), weight, none,
      cutting::BladeBearing{}, 0.0);
  return steady_at_depth_of_cut(s, balance.depth_of_cut);
}

/// Cutter, braze and steel body of ordinary make (the library's central values).
inline thermal::CutterMaterials usual_materials() {
  thermal::CutterMaterials m;
  m.table_conductivity = 543.0;
  m.table_density = 3510.0;
  m.carbide_conductivity = 100.0;
  m.carbide_density = 14900.0;
  m.carbide_heat_capacity = 220.0;
  m.body_conductivity = 42.7;
  m.pocket_conductance = 1e4;
  m.exposed_share = 0.5;
  return m;
}

}  // namespace dullcast::samples
