#include "models/thermal/heat_network.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <limits>

#include "models/common/constants.hpp"
#include "models/thermal/heat.hpp"

namespace dullcast::thermal {
namespace {

struct Pocket {
  double table = 0.0, carbide = 0.0;  // m2 of each in the pocket
  double whole() const { return table + carbide; }
};

Pocket pocket_of(const geometry::CutterShape& shape, const CutterMaterials& m) {
  const double a = shape.radius, side = (1.0 - m.exposed_share) * two_pi * a;
  return {side * shape.table_thickness,
          side * (shape.length - shape.table_thickness) + (m.back_in_pocket ? pi * a * a : 0.0)};
}

/// One row of the fit: what the number is for the reference cutter (ln), its powers of the cutter's table
/// thickness, carbide length and conductivity ratio, of the contact's width and length, their squares and
/// product, and of table thickness times each.
struct Fitted {
  double base = 0.0, thickness = 0.0, carbide = 0.0, conductivity = 0.0;
  double width = 0.0, length = 0.0, width_width = 0.0, width_length = 0.0, length_length = 0.0;
  double thickness_length = 0.0, thickness_width = 0.0;
};

// Fitted to the 3-D reference, see cutter_network in the header.
constexpr Fitted table_share{-1.128, 0.584, -0.058, 0.105};
constexpr Fitted carbide_share{-1.016, 0.444, -1.051, 0.755};
constexpr Fitted spot{-0.522, 0.149, 0.003, -0.079, -0.729, -0.041, -0.153, -0.006, -0.060, -0.076, 0.049};
constexpr Fitted tables{-1.336, 0.360, -0.209, -0.463, -1.891, -0.104};
constexpr Fitted fronts{1.667, 0.091, 0.918, 0.504, 1.364, 0.232};
constexpr Fitted rests{-2.276, -0.651, 0.941, -0.655, -0.694, -0.291};
constexpr Fitted carbides{1.155, 0.133, -0.479, 0.126, 0.309, -0.004};
constexpr Fitted face_share{-0.548, 1.178, 0.176, -0.696, 0.021, -0.743};
constexpr Fitted table_side_share{-4.069, 2.618, -0.337, 1.561, -2.055};
constexpr Fitted carbide_side_share{-0.047, -0.424, -1.820, 1.042, -0.721};

// The reference cutter and contact that the powers are of.
constexpr double usual_thickness = 0.35, usual_carbide = 1.9, usual_ratio = 6.0;  // t/a, (l - t)/a, k_d/k_c
constexpr double usual_width = 0.6, usual_length = 0.5;                           // w/(2a), L/t

/// ln of the cutter's own shape.
struct Shape {
  double thickness, carbide, conductivity;
};

Shape shape_of(const geometry::CutterShape& s, const CutterMaterials& m) {
  return {std::log(s.table_thickness / s.radius / usual_thickness),
          std::log((s.length - s.table_thickness) / s.radius / usual_carbide),
          std::log(m.table_conductivity / m.carbide_conductivity / usual_ratio)};
}

/// The law of one number for this cutter; `scale` what the fitted number is a multiple of.
ContactLaw law_of(const Fitted& f, const Shape& s, double scale) {
  return {std::log(scale) + f.base + f.thickness * s.thickness + f.carbide * s.carbide +
              f.conductivity * s.conductivity,
          f.width + f.thickness_width * s.thickness,
          f.length + f.thickness_length * s.thickness,
          f.width_width,
          f.width_length,
          f.length_length};
}

double share_of_odds(double odds) {
  return odds / (1.0 + odds);
}

/// ln x and ln y of a contact, within the fit.
struct ContactLogarithms {
  double x, y;
};

ContactLogarithms logarithms(const CutterNetwork& n, const ContactShape& contact) {
  // A contact that wraps round the rim is longer than the diameter and spreads less for each millimetre more.
  constexpr double widest = 0.98, wrapped_share = 0.4, most_wrapped = 2.2;
  const double share = std::min(std::max(contact.width / (2.0 * n.radius), 0.15), most_wrapped);
  const double width = std::min(share, widest) + wrapped_share * std::max(share - widest, 0.0);
  const double length = contact.width > 0.0
                            ? std::min(std::max(contact.area / contact.width / n.table_thickness, 0.02), 2.0)
                            : 0.02;
  return {std::log(width / usual_width), std::log(length / usual_length)};
}

double value_at(const ContactLaw& law, const ContactLogarithms& at) {
  return std::exp(law.base + law.width * at.x + law.length * at.y + law.width_width * at.x * at.x +
                  law.width_length * at.x * at.y + law.length_length * at.y * at.y);
}

}  // namespace

double pocket_conductance(const geometry::CutterShape& shape, const CutterMaterials& m) {
  const double area = pocket_of(shape, m).whole();
  if (!(area > 0.0)) return 0.0;
  const double spreading = 1.0 / (two_pi * m.body_conductivity * std::sqrt(area / two_pi));
  return 1.0 / (1.0 / m.pocket_conductance + spreading * area);
}

CutterNetwork cutter_network(const geometry::CutterShape& s, const CutterMaterials& m) {
  const double a = s.radius, t = s.table_thickness, behind = s.length - t;
  const double face = pi * a * a;
  const Shape shape = shape_of(s, m);
  const auto share = [&](const Fitted& f) { return share_of_odds(std::exp(law_of(f, shape, 1.0).base)); };

  CutterNetwork n;
  n.radius = a;
  n.table_thickness = t;
  const double table = share(table_share), carbide = share(carbide_share);
  n.table_mass = m.table_density * face * t * Eigen::Array2d(table, 1.0 - table);
  n.carbide_capacity =
      m.carbide_density * m.carbide_heat_capacity * face * behind * Eigen::Array2d(carbide, 1.0 - carbide);
  n.face = face;
  n.bare_table_side = m.exposed_share * two_pi * a * t;
  n.bare_carbide_side = m.exposed_share * two_pi * a * behind;
  const Pocket pocket = pocket_of(s, m);
  const double into_body = pocket_conductance(s, m);
  n.to_body(table_rest) = into_body * pocket.table;
  n.to_body(carbide_rest) = into_body * pocket.carbide;
  n.diamond_conductivity = m.table_conductivity;
  n.edge_factor = m.edge_factor;

  // Straight through table and the front of the carbide, per area.
  const double through = 1.0 / (t / (3.0 * m.table_conductivity) + 0.3 * behind / m.carbide_conductivity);
  n.spot = law_of(spot, shape, 1.0);
  n.tables = law_of(tables, shape, m.table_conductivity * t);
  n.fronts = law_of(fronts, shape, face * table * through);
  n.rests = law_of(rests, shape, face * (1.0 - table) * through);
  n.carbides = law_of(carbides, shape, m.carbide_conductivity * a);
  n.face_odds = law_of(face_share, shape, 1.0);
  n.table_side_odds = law_of(table_side_share, shape, 1.0);
  n.carbide_side_odds = law_of(carbide_side_share, shape, 1.0);
  return n;
}

CutterLinks cutter_links(const CutterNetwork& n, const ContactShape& contact) {
  const ContactLogarithms at = logarithms(n, contact);
  CutterLinks links;
  links.tables = value_at(n.tables, at);
  links.fronts = value_at(n.fronts, at);
  links.rests = value_at(n.rests, at);
  links.carbides = value_at(n.carbides, at);
  const double face = share_of_odds(value_at(n.face_odds, at));
  const double table_side = share_of_odds(value_at(n.table_side_odds, at));
  const double carbide_side = share_of_odds(value_at(n.carbide_side_odds, at));
  links.fluid_area << n.face * face + n.bare_table_side * table_side,
      n.face * (1.0 - face) + n.bare_table_side * (1.0 - table_side), n.bare_carbide_side * carbide_side,
      n.bare_carbide_side * (1.0 - carbide_side);
  return links;
}

double spot_resistance(const CutterNetwork& n, const ContactShape& contact) {
  if (!(contact.area > 0.0)) return std::numeric_limits<double>::infinity();
  return n.edge_factor * value_at(n.spot, logarithms(n, contact)) *
         isothermal_spot_resistance(n.diamond_conductivity, contact.area);
}

Eigen::Matrix4d conductance_matrix(const CutterNetwork& n, const CutterLinks& links, double h) {
  Eigen::Matrix4d G = Eigen::Matrix4d::Zero();
  const auto link = [&](Eigen::Index i, Eigen::Index j, double conductance) {
    G(i, i) += conductance;
    G(j, j) += conductance;
    G(i, j) -= conductance;
    G(j, i) -= conductance;
  };
  link(table_near, table_rest, links.tables);
  link(table_near, carbide_near, links.fronts);
  link(table_rest, carbide_rest, links.rests);
  link(carbide_near, carbide_rest, links.carbides);
  G.diagonal().array() += h * links.fluid_area + n.to_body;
  return G;
}

double steady_flat_resistance(const CutterNetwork& n, const ContactShape& contact, double h) {
  const Eigen::Matrix4d G = conductance_matrix(n, cutter_links(n, contact), h);
  return spot_resistance(n, contact) + G.inverse()(table_near, table_near);
}

CutterContacts cutter_contacts(const CutterNetwork& network, const CutterHeating& heating,
                               const materials::Rock& rock) {
  // A contact smaller than this carries no heat worth sharing; it keeps 0/0 away as the cut goes to nothing.
  constexpr double least_area = 1e-12;  // m2
  const double diffusivity = materials::thermal_diffusivity(rock);
  CutterContacts contacts;
  if (heating.contact_area > least_area && heating.engaged_width > 0.0) {
    const ContactShape flat{heating.contact_area, heating.engaged_width};
    contacts.flat_spot = 1.0 / spot_resistance(network, flat);
    contacts.flat_rock =
        flat.area * rock_contact_conductance(rock.conductivity, diffusivity, heating.sliding_speed,
                                             flat.area / flat.width, flat.area);
  }
  const ContactShape chip{heating.area_of_cut / std::cos(heating.back_rake), heating.engaged_width};
  if (chip.area > least_area && chip.width > 0.0) {
    contacts.face_spot = 1.0 / (face_spot_factor * spot_resistance(network, chip));
    contacts.face_rock =
        chip.area * rock_contact_conductance(rock.conductivity, diffusivity, heating.chip_speed,
                                             chip.area / chip.width, chip.area);
  }
  return contacts;
}

double rise_at_contacts(double rise, double crushed, double rock_sides) {
  const double sum = crushed + rock_sides * rise;
  return sum > 0.0 ? rise * crushed / sum : 0.0;
}

double softened_heat(const Softening& law, double heat, double spot, double rock_side,
                     double table_temperature, double rock_temperature) {
  const double sides = spot + rock_side;
  const double without = spot * table_temperature + rock_side * rock_temperature;
  if (!(sides > 0.0) || !(heat + without > sides * law.from)) return heat;
  const double per_kelvin = heat / std::max(law.to - law.from, 1.0);
  const double T = (per_kelvin * law.to + without) / (per_kelvin + sides);
  return std::max(0.0, per_kelvin * (law.to - T));
}

double softening_answer(const Softening& law, double heat, double sides, double made) {
  if (!(made < heat) || !(made > 0.0)) return 0.0;
  const double per_kelvin = heat / std::max(law.to - law.from, 1.0);
  return per_kelvin / (per_kelvin + sides);
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

}  // namespace dullcast::thermal
