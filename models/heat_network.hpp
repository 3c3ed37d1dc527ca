#pragma once

#include <Eigen/Core>

#include "models/bit_layout.hpp"
#include "models/rock.hpp"

namespace dullcast {

/// Materials around the heat of one cutter. SI.
struct CutterMaterials {
  double table_conductivity = 0.0;     // W/(m K)
  double table_density = 0.0;          // kg/m3
  double carbide_conductivity = 0.0;   // W/(m K)
  double carbide_density = 0.0;        // kg/m3
  double carbide_heat_capacity = 0.0;  // J/(kg K)
  double body_conductivity = 0.0;      // W/(m K); infinity holds the body at its pockets' temperature
  double pocket_conductance = 0.0;     // W/(m2 K), braze film
  double exposed_share = 0.5;          // share of the cutter's side outside its pocket
  bool back_in_pocket = true;          // the carbide's back face touches the pocket too
  double edge_factor = 1.0;            // on the spot resistance of the flat
};

/// The thermal network of one cutter: flat -> table -> carbide -> body, table and carbide to the fluid, flat
/// to the rock. Heat capacities sit in table and carbide; the flat has none.
struct CutterNetwork {
  double table_mass = 0.0;        // kg; heat capacity of diamond follows temperature
  double carbide_capacity = 0.0;  // J/K
  double table_to_carbide = 0.0;  // W/K, and so on
  double table_to_fluid = 0.0;
  double carbide_to_fluid = 0.0;
  double table_to_body = 0.0;
  double carbide_to_body = 0.0;
  double diamond_conductivity = 0.0;  // W/(m K)
  double edge_factor = 1.0;
};

/// Network of a cutter swept by fluid with convection h (W/(m2 K)) on its exposed faces [asm: lumped, each
/// part exchanging from its mean temperature]. Axial conduction by thirds, t/(3 k_d A) + (l - t)/(3 k_c A),
/// the resistance to the mean of a bar that loses heat along its length [hb]. Body: braze film in series with
/// a hemispherical spreading resistance 1/(2 pi k_b a_p), pocket area 2 pi a_p^2 [asm].
/// The edge factor was chosen so that the steady resistance agrees within 10 % with a 3-D solution at
/// three points (see tests): 13 x 8 mm cutter, 2 mm table, 12 mm2 flat.
CutterNetwork cutter_network(const CutterShape& shape, const CutterMaterials& materials, double h);

/// Resistance from a uniformly heated flat of the given area (m2) to fluid and body both at one temperature,
/// steady, K/W: f/A of the flat. The number that a 3-D solution checks.
double steady_flat_resistance(const CutterNetwork& network, double flat_area);

/// What the cut does to one cutter thermally, at one instant.
struct CutterHeating {
  double flat_heat = 0.0;      // W, Q = mu F_c v
  double face_heat = 0.0;      // W, chip friction on the face
  double contact_area = 0.0;   // m2, load-bearing
  double engaged_width = 0.0;  // m
  double area_of_cut = 0.0;    // m2
  double sliding_speed = 0.0;  // m/s
  double chip_speed = 0.0;     // m/s along the face
  double back_rake = 0.0;      // rad
};

/// The two contacts of a cutter with rock: its flat and its face, each a spot on the table facing moving
/// rock.
struct CutterContacts {
  double flat_spot = 0.0;  // W/K from flat to table, 1/(edge factor/(4 k a_eq)) [hb]
  double flat_rock = 0.0;  // W/K from flat to the rock sliding past, h_r A
  double face_spot = 0.0;  // W/K from the chip's contact to the table
  double face_rock = 0.0;  // W/K into the moving chip
};
CutterContacts cutter_contacts(const CutterNetwork& network, const CutterHeating& heating, const Rock& rock);

/// Heat shared between a spot on the table and the rock moving past it: surface temperature and the two
/// flows.
struct SharedHeat {
  double temperature = 0.0;  // K, of the contact
  double into_table = 0.0;   // W
  double into_rock = 0.0;    // W; the two sum to the heat made
};
/// Balance heat = spot (T - T_table) + rock (T - T_rock) of a surface without mass:
/// the form q = (T_w - T_f)/f + h_r (T_w - T_r) of Glowka & Stone, SPE J. 25(2), 1985 [pub].
/// Without a contact (spot + rock = 0) the temperature is the table's and nothing flows.
SharedHeat share_heat(double heat, double spot, double rock_side, double table_temperature,
                      double rock_temperature);

}  // namespace dullcast
