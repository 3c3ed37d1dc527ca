#include "models/heat_network.hpp"

#include <cmath>

#include "models/heat.hpp"
#include "models/letters.hpp"

namespace dullcast {

CutterNetwork cutter_network(const CutterShape& shape, const CutterMaterials& m, double h) {
  const double a = shape.radius, t = shape.table_thickness, carbide = shape.length - t;
  const double face = pi * a * a, table_side = two_pi * a * t, carbide_side = two_pi * a * carbide;
  const double pocketed = 1.0 - m.exposed_share;

  CutterNetwork network;
  network.table_mass = m.table_density * face * t;
  network.carbide_capacity = m.carbide_density * m.carbide_heat_capacity * face * carbide;
  network.table_to_carbide =
      face / (t / (3.0 * m.table_conductivity) + carbide / (3.0 * m.carbide_conductivity));
  network.table_to_fluid = h * (face + m.exposed_share * table_side);
  network.carbide_to_fluid = h * m.exposed_share * carbide_side;

  const double table_pocket = pocketed * table_side;
  const double carbide_pocket = pocketed * carbide_side + (m.back_in_pocket ? face : 0.0);
  const double pocket = table_pocket + carbide_pocket;
  if (pocket > 0.0) {
    const double spreading = 1.0 / (two_pi * m.body_conductivity * std::sqrt(pocket / two_pi));
    const double to_body = 1.0 / (1.0 / (m.pocket_conductance * pocket) + spreading);
    network.table_to_body = to_body * table_pocket / pocket;
    network.carbide_to_body = to_body * carbide_pocket / pocket;
  }
  network.diamond_conductivity = m.table_conductivity;
  network.edge_factor = m.edge_factor;
  return network;
}

double steady_flat_resistance(const CutterNetwork& n, double flat_area) {
  const double carbide_out = n.carbide_to_fluid + n.carbide_to_body;
  const double through_carbide = 1.0 / (1.0 / n.table_to_carbide + 1.0 / carbide_out);
  return n.edge_factor * isothermal_spot_resistance(n.diamond_conductivity, flat_area) +
         1.0 / (n.table_to_fluid + n.table_to_body + through_carbide);
}

CutterContacts cutter_contacts(const CutterNetwork& network, const CutterHeating& heating, const Rock& rock) {
  // A contact smaller than this carries no heat worth sharing; it keeps 0/0 away as the cut goes to nothing.
  constexpr double least_area = 1e-12;  // m2
  const double diffusivity = thermal_diffusivity(rock);
  CutterContacts contacts;
  if (heating.contact_area > least_area && heating.engaged_width > 0.0) {
    const double length = heating.contact_area / heating.engaged_width;
    contacts.flat_spot = 1.0 / (network.edge_factor * isothermal_spot_resistance(network.diamond_conductivity,
                                                                                 heating.contact_area));
    contacts.flat_rock =
        heating.contact_area * rock_contact_conductance(rock.conductivity, diffusivity, heating.sliding_speed,
                                                        length, heating.contact_area);
  }
  const double chip_area = heating.area_of_cut / std::cos(heating.back_rake);
  if (chip_area > least_area && heating.engaged_width > 0.0) {
    const double length = chip_area / heating.engaged_width;
    contacts.face_spot =
        1.0 / (network.edge_factor * isothermal_spot_resistance(network.diamond_conductivity, chip_area));
    contacts.face_rock = chip_area * rock_contact_conductance(rock.conductivity, diffusivity,
                                                              heating.chip_speed, length, chip_area);
  }
  return contacts;
}

SharedHeat share_heat(double heat, double spot, double rock_side, double table_temperature,
                      double rock_temperature) {
  SharedHeat shared;
  if (!(spot + rock_side > 0.0)) {
    shared.temperature = table_temperature;
    return shared;
  }
  shared.temperature = (heat + spot * table_temperature + rock_side * rock_temperature) / (spot + rock_side);
  shared.into_table = spot * (shared.temperature - table_temperature);
  shared.into_rock = rock_side * (shared.temperature - rock_temperature);
  return shared;
}

}  // namespace dullcast
