#pragma once

#include <vector>

#include "models/failure/wedge_stress.hpp"
#include "tools/samples/made_bits.hpp"
#include "tools/samples/steady_bit.hpp"

/// Settings in which the model is held against published trends of cutters and drag bits. Shared with the
/// tests that assert them.
namespace dullcast::proofs {

/// Single-cutter tests: one fresh 13 mm cutter 0.2 m from the axis, worn 0.2 mm, at 1 m/s in a limestone
/// under water. Back rake rad, strength Pa.
samples::SteadySetting lone_cutter(double back_rake = pi / 12.0, double strength = 60e6);

/// A bit of 16 such cutters on a flat face, 1.5 rev/s.
samples::SteadySetting whole_bit();

/// Depths of cut of the published tests, 0.5 to 1.5 mm, m.
std::vector<double> published_depths();

/// Diamond worn off over rock cut in one revolution at depth of cut d, m3/kg, each flat at its own
/// temperature.
double wear_per_mass(const samples::SteadySetting& setting, double d);

/// An ordinary 7-7/8 in (200 mm) bit: four blades, 18 cutters of 16 mm, back rake 15 deg, worn 1 mm at gauge,
/// drilling efficiency 0.6, contact strength 1.5 UCS, land 0.6 mm, water at 60 gal/min. Pa, Pa, rev/min.
samples::SteadySetting ordinary_bit(double strength, double youngs_modulus, double rpm);

/// The E-S line of Detournay & Defourny, Int. J. Rock Mech. Min. Sci. 29(1), 1992 [pub]: rock strength Pa,
/// friction of the flats and back rake of the bits below.
inline constexpr double line_strength = 70e6, line_friction = 0.45, line_back_rake = 0.26;

/// One drilling response, drilled by a worn bit at depth of cut d.
struct DrillingResponse {
  double energy = 0.0, strength = 0.0;  // Pa: E = 2 T/(R^2 d), S = W/(R d)
  double gamma = 0.0;                   // 1, 2 x moment of contact over radius times contact
  double core_radius = 0.0;             // m, left standing at the axis
};
DrillingResponse drilling_response(const geometry::BitLayout& bit, double worn, double d);

/// E on the published line (1 - mu gamma zeta) eps + mu gamma S, gamma 1 unless given.
double line_energy(double strength, double gamma = 1.0);
/// zeta = tan(theta + psi) of these bits.
double line_inclination();

/// 120 cutters of 16 mm every 3 mm on a flat face: worn, their contact is level and the same at every radius.
geometry::BitLayout even_bit();

/// Wedge of an unworn edge with a bevel 0.4 mm wide. Angles in degrees.
failure::EdgeWedge unworn_edge(double bevel, double back_rake);

/// Weibull chip rate, modulus 10, of one edge over another's under equal loads.
double chip_rate_ratio(const failure::EdgeWedge& bevelled, const failure::EdgeWedge& plain);

}  // namespace dullcast::proofs
