#include "models/thermal/heat_network.hpp"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <limits>

#include "models/common/constants.hpp"
#include "models/common/wide.hpp"
#include "models/common/wide_functions.hpp"
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

/// ln of a fitted number of the cutter itself, at the usual contact; `scale` what it is a multiple of.
double base_of(const Fitted& f, const Shape& s, double scale) {
  return std::log(scale) + f.base + f.thickness * s.thickness + f.carbide * s.carbide +
         f.conductivity * s.conductivity;
}

/// The law of one number for this cutter.
void put_law(const Fitted& f, const Shape& s, double scale, ContactNumber at, ContactLaws& laws) {
  laws.base[at] = base_of(f, s, scale);
  laws.width[at] = f.width + f.thickness_width * s.thickness;
  laws.length[at] = f.length + f.thickness_length * s.thickness;
  laws.width_width[at] = f.width_width;
  laws.width_length[at] = f.width_length;
  laws.length_length[at] = f.length_length;
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
  return {wide_log(width / usual_width), wide_log(length / usual_length)};
}

/// The numbers that follow a contact.
struct ContactValues {
  double of[contact_numbers];
};

DULLCAST_WIDE
void put_values(const ContactLaws& laws, double x, double y, double* values) {
  DULLCAST_TURNS_APART
  for (std::size_t k = 0; k < contact_numbers; ++k)
    values[k] = wide_exp(laws.base[k] + laws.width[k] * x + laws.length[k] * y + laws.width_width[k] * x * x +
                         laws.width_length[k] * x * y + laws.length_length[k] * y * y);
}

ContactValues values_at(const CutterNetwork& n, const ContactShape& contact) {
  const ContactLogarithms at = logarithms(n, contact);
  ContactValues values{};
  put_values(n.laws, at.x, at.y, values.of);
  return values;
}

double resistance_of_spot(const CutterNetwork& n, const ContactValues& values, double area) {
  return n.edge_factor * values.of[spot_number] * isothermal_spot_resistance(n.diamond_conductivity, area);
}

CutterLinks links_of(const CutterNetwork& n, const ContactValues& values) {
  CutterLinks links;
  links.tables = values.of[tables_number];
  links.fronts = values.of[fronts_number];
  links.rests = values.of[rests_number];
  links.carbides = values.of[carbides_number];
  const double face = share_of_odds(values.of[face_odds]),
               table_side = share_of_odds(values.of[table_side_odds]),
               carbide_side = share_of_odds(values.of[carbide_side_odds]);
  links.fluid_area << n.face * face + n.bare_table_side * table_side,
      n.face * (1.0 - face) + n.bare_table_side * (1.0 - table_side), n.bare_carbide_side * carbide_side,
      n.bare_carbide_side * (1.0 - carbide_side);
  return links;
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
  const auto share = [&](const Fitted& f) { return share_of_odds(std::exp(base_of(f, shape, 1.0))); };

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
  put_law(spot, shape, 1.0, spot_number, n.laws);
  put_law(tables, shape, m.table_conductivity * t, tables_number, n.laws);
  put_law(fronts, shape, face * table * through, fronts_number, n.laws);
  put_law(rests, shape, face * (1.0 - table) * through, rests_number, n.laws);
  put_law(carbides, shape, m.carbide_conductivity * a, carbides_number, n.laws);
  put_law(face_share, shape, 1.0, face_odds, n.laws);
  put_law(table_side_share, shape, 1.0, table_side_odds, n.laws);
  put_law(carbide_side_share, shape, 1.0, carbide_side_odds, n.laws);
  return n;
}

CutterLinks cutter_links(const CutterNetwork& n, const ContactShape& contact) {
  return links_of(n, values_at(n, contact));
}

double spot_resistance(const CutterNetwork& n, const ContactShape& contact) {
  if (!(contact.area > 0.0)) return std::numeric_limits<double>::infinity();
  return resistance_of_spot(n, values_at(n, contact), contact.area);
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
  return cutter_touch(network, heating, rock).contacts;
}

CutterTouch cutter_touch(const CutterNetwork& network, const CutterHeating& heating,
                         const materials::Rock& rock) {
  // A contact smaller than this carries no heat worth sharing; it keeps 0/0 away as the cut goes to nothing.
  constexpr double least_area = 1e-12;  // m2
  const double diffusivity = materials::thermal_diffusivity(rock);
  const ContactShape flat{heating.contact_area, heating.engaged_width};
  const ContactValues at_flat = values_at(network, flat);
  CutterTouch touch;
  touch.links = links_of(network, at_flat);
  CutterContacts& contacts = touch.contacts;
  if (flat.area > least_area && flat.width > 0.0) {
    contacts.flat_spot = 1.0 / resistance_of_spot(network, at_flat, flat.area);
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
  return touch;
}

}  // namespace dullcast::thermal
