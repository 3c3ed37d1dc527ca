#pragma once

#include <Eigen/Core>

#include "models/geometry/bit_layout.hpp"
#include "models/materials/rock.hpp"

namespace dullcast::thermal {

/// Materials around the heat of one cutter. SI.
struct CutterMaterials {
  double table_conductivity = 0.0;     // W/(m K)
  double table_density = 0.0;          // kg/m3
  double carbide_conductivity = 0.0;   // W/(m K)
  double carbide_density = 0.0;        // kg/m3
  double carbide_heat_capacity = 0.0;  // J/(kg K)
  double body_conductivity = 0.0;      // W/(m K); infinity holds the body at its pockets' temperature
  double pocket_conductance = 0.0;     // W/(m2 K), braze film
  double exposed_share = 0.0;          // share of the cutter's side outside its pocket
  bool back_in_pocket = true;          // the carbide's back face touches the pocket too
  double edge_factor = 1.0;            // on the spot resistance of a contact, 1 as fitted
};

/// The four parts of a cutter that hold heat: the table by the contact, the rest of the table, the carbide
/// behind the contact, the rest of the carbide. Arrays of parts are in this order.
enum CutterPart : Eigen::Index { table_near, table_rest, carbide_near, carbide_rest };
inline constexpr Eigen::Index cutter_parts = 4;
using PartArray = Eigen::Array<double, cutter_parts, 1>;

/// The network's numbers that follow the contact: ln of the spot resistance over 1/(4 k a_eq), of the links'
/// conductances (W/K), of the odds of the near part's share of the face and of both bare sides.
enum ContactNumber : std::size_t {
  spot_number,
  tables_number,
  fronts_number,
  rests_number,
  carbides_number,
  face_odds,
  table_side_odds,
  carbide_side_odds
};
inline constexpr std::size_t contact_numbers = 8;

/// Powers of the contact's width over the diameter, x = w/(2a)/0.6, and length over the table's thickness,
/// y = L/t/0.5, which these follow, side by side (wide.hpp):
/// exp(base + a ln x + b ln y + c ln^2 x + d ln x ln y + e ln^2 y).
struct ContactLaws {
  double base[contact_numbers] = {}, width[contact_numbers] = {}, length[contact_numbers] = {};
  double width_width[contact_numbers] = {}, width_length[contact_numbers] = {},
         length_length[contact_numbers] = {};
};

/// The thermal network of one cutter: contact -> table by the contact -> rest of the table and carbide behind
/// it -> rest of the carbide -> body, exposed parts to the fluid, contact to the rock. The contact has no
/// heat capacity. What belongs to the cutter is here; what follows the contact is in cutter_links.
struct CutterNetwork {
  double radius = 0.0, table_thickness = 0.0;                // m
  Eigen::Array2d table_mass = Eigen::Array2d::Zero();        // kg, near and rest; c of diamond follows T
  Eigen::Array2d carbide_capacity = Eigen::Array2d::Zero();  // J/K, near and rest
  double face = 0.0, bare_table_side = 0.0, bare_carbide_side = 0.0;  // m2 in the fluid
  PartArray to_body = PartArray::Zero();                              // W/K
  double diamond_conductivity = 0.0;                                  // W/(m K)
  double edge_factor = 1.0;
  ContactLaws laws;
};

/// Conductance from the cutter into its pocket per area of pocket, W/(m2 K): braze film in series with a
/// hemispherical spreading resistance 1/(2 pi k_b a_p) into the body, pocket area 2 pi a_p^2 [asm]; 0 without
/// a pocket.
double pocket_conductance(const geometry::CutterShape& shape, const CutterMaterials& materials);

/// The network of a cutter. Its form is physical; how its numbers follow table thickness, carbide length,
/// conductivities and contact are powers fitted to 3-D finite-element solutions [fit:
/// tools/heat_reference/]: 59 numbers to 2,700 worn flats and 300 lands, steady, and 340 warmings in time,
/// over cutters of 8 to 19 mm, tables of 1 to 4 mm, carbide 3 mm and longer, contacts of 0.3 to 60 mm2,
/// convection of 50 to 50,000 W/(m2 K). On other random cases it is held to 10 % of the steady resistance and
/// 15 % of the peak rise at any time past 50 ms (tests/heat_reference/network_test.cpp). Heat on a flat's
/// carbide enters through the table too: good while carbide bears up to a twentieth of diamond's pressure, to
/// about 550 C.
CutterNetwork cutter_network(const geometry::CutterShape& shape, const CutterMaterials& materials);

/// Where a cutter touches rock: load-bearing area (m2) and its width across the travel (m). Widths of 0.15 to
/// 0.98 of the diameter and lengths (area over width) of 0.02 to 2 table thicknesses are within the fit. Of
/// what a contact wraps round the rim past that, four tenths count as width, up to 2.2 diameters [fit to 30
/// lands of 46 to 109 deg either side by the same reference: -11 to +10 %; 22 % hot without]. The links take
/// others at the nearer end, a contact that is not there at the lower one.
struct ContactShape {
  double area = 0.0;
  double width = 0.0;
};

/// What of the network follows the contact.
struct CutterLinks {
  double tables = 0.0;                       // W/K, table by the contact to the rest of it
  double fronts = 0.0;                       // W/K, table by the contact to the carbide behind it
  double rests = 0.0;                        // W/K, rest of the table to rest of the carbide
  double carbides = 0.0;                     // W/K, carbide behind the contact to the rest of it
  PartArray fluid_area = PartArray::Zero();  // m2 of each part in the fluid
};
CutterLinks cutter_links(const CutterNetwork& network, const ContactShape& contact);

/// Resistance from a uniformly heated contact to the table by it, K/W. Infinite without a contact.
double spot_resistance(const CutterNetwork& network, const ContactShape& contact);

/// The spot resistance of a chip's contact on the face, at the rim where the table ends, over that of a flat
/// of the same area and width: holds 150 random chips within 7 % of the steady resistance [fit:
/// tools/heat_reference/].
inline constexpr double face_spot_factor = 1.18;

/// Matrix G (W/K) of heat leaving the four parts, G T, with fluid and body at 0 and convection h (W/(m2 K))
/// on every exposed face.
Eigen::Matrix4d conductance_matrix(const CutterNetwork& network, const CutterLinks& links, double h);

/// Resistance from a uniformly heated contact to fluid and body both at one temperature, steady, K/W: f/A of
/// the contact.
double steady_flat_resistance(const CutterNetwork& network, const ContactShape& contact, double h);

/// What the cut does to one cutter thermally, at one instant.
struct CutterHeating {
  double flat_heat = 0.0;      // W, Q = mu F_c v
  double face_heat = 0.0;      // W, chip friction on the face
  double contact_area = 0.0;   // m2, load-bearing
  double engaged_width = 0.0;  // m
  double area_of_cut = 0.0;    // m2, across the face: over cos(beta) with side rake beta
  double sliding_speed = 0.0;  // m/s
  double chip_speed = 0.0;     // m/s along the face
  double back_rake = 0.0;      // rad
};

/// The two contacts of a cutter with rock: its flat and its face, each a spot on the table facing moving
/// rock.
struct CutterContacts {
  double flat_spot = 0.0;  // W/K from flat to the table by it
  double flat_rock = 0.0;  // W/K from flat to the rock sliding past, h_r A
  double face_spot = 0.0;  // W/K from the chip's contact to the table
  double face_rock = 0.0;  // W/K into the moving chip
};
CutterContacts cutter_contacts(const CutterNetwork& network, const CutterHeating& heating,
                               const materials::Rock& rock);

/// cutter_contacts and the cutter_links of its flat.
struct CutterTouch {
  CutterContacts contacts;
  CutterLinks links;
};
CutterTouch cutter_touch(const CutterNetwork& network, const CutterHeating& heating,
                         const materials::Rock& rock);

/// By how much crushed rock is warmer than the bottom while it touches a cutter, K: as it comes (rise, K, >=
/// 0), less what it gives away of the heat that it brings (crushed, W, >= 0): rise Q/(Q + h rise), h the
/// contacts' conductance on the rock's side, W/K. At most it gives h times that, which is less than Q [asm];
/// 0 where nothing is cut.
[[gnu::always_inline]] inline double rise_at_contacts(double rise, double crushed, double rock_sides) {
  const double sum = crushed + rock_sides * rise;
  return sum > 0.0 ? rise * crushed / sum : 0.0;
}

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
[[gnu::always_inline]] inline SharedHeat share_heat(double heat, double spot, double rock_side,
                                                    double table_temperature, double rock_temperature) {
  const double sides = spot + rock_side;
  const bool there = sides > 0.0;
  const double T = (heat + spot * table_temperature + rock_side * rock_temperature) / sides;
  return {there ? T : table_temperature, there ? spot * (T - table_temperature) : 0.0,
          there ? rock_side * (T - rock_temperature) : 0.0};
}

/// Rock under a flat softens and melts, K: friction is whole up to `from` and gone at `to`, where a film of
/// melt carries the flat (Di Toro et al., Nature 471, 2011 [pub, from memory: friction of silicate rock falls
/// to a fraction as it melts]; that it falls straight between the two [asm]). Chips over a face and rock
/// under blades and pads count as the same [asm].
struct Softening {
  double from = 0.0, to = 0.0;
};

/// What friction really makes of `heat` (W) that it would make of cold rock, where share_heat would give the
/// contact a temperature T, of which rock warmer by `rise` (K) than rock_temperature is a part: all of it up
/// to `from`; past that what balances at heat (to - T)/(to - from), so that no flat is hotter than `to`
/// unless table or rock is.
[[gnu::always_inline]] inline double softened_heat(const Softening& law, double heat, double spot,
                                                   double rock_side, double table_temperature,
                                                   double rock_temperature) {
  const double sides = spot + rock_side;
  const double without = spot * table_temperature + rock_side * rock_temperature;
  const double span = law.to - law.from, per_kelvin = heat / (span < 1.0 ? 1.0 : span);
  const double T = (per_kelvin * law.to + without) / (per_kelvin + sides);
  const double left = per_kelvin * (law.to - T);
  // Conditions are turned into numbers at once, so that loops over cutters take several of them.
  const double there = sides > 0.0 ? 1.0 : 0.0, hot = heat + without > sides * law.from ? 1.0 : 0.0;
  const double softened = left > 0.0 ? left : 0.0;
  return there * hot > 0.0 ? softened : heat;
}
/// How softened_heat, which gave `made` of `heat` (W) at a contact with the conductance sides = spot +
/// rock_side (W/K), answers to temperatures: made falls by this share (1) of spot (of rock_side) for each
/// kelvin by which the table (the rock) is warmer. 0 where nothing is softened or nothing made.
[[gnu::always_inline]] inline double softening_answer(const Softening& law, double heat, double sides,
                                                      double made) {
  const double span = law.to - law.from, per_kelvin = heat / (span < 1.0 ? 1.0 : span);
  const double answer = per_kelvin / (per_kelvin + sides);
  const double less = made < heat ? 1.0 : 0.0, some = made > 0.0 ? 1.0 : 0.0;
  return less * some > 0.0 ? answer : 0.0;
}

}  // namespace dullcast::thermal
