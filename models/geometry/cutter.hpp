#pragma once

namespace dullcast::geometry {

/// The shape of one cutter: a cylinder whose end face is the diamond table. SI units, angles in rad.
struct CutterShape {
  double radius = 0.0;            // m, a
  double length = 0.0;            // m, l: diamond table and carbide together
  double table_thickness = 0.0;   // m, t
  double leach_depth = 0.0;       // m, z_L: cobalt removed from the face down to here; 0 for none
  double bevel_width = 0.0;       // m, w_b
  double bevel_angle = 0.0;       // rad, chi, measured from the face; 0 is an unbevelled edge
  double edge_radius = 30e-6;     // m, r_e: 20 to 50 micrometres
  double leach_side_depth = 0.0;  // m, z_s: cobalt removed from the side of the table inwards; 0 for none
};

/// How cutting force leans and what bears under a sharp edge: the two fitted numbers and their references.
struct EdgeLaw {
  double land_reference = 0.0;          // m, b_0 [fit]
  double bevel_width_reference = 4e-4;  // m, the conventional bevel of the fit
  double bevel_angle_reference = 0.0;   // rad, 45 deg
  double back_rake_reference = 0.0;     // rad, 15 deg
  double psi_at_reference = 0.0;        // rad, 15 deg
  double psi_slope = 0.0;               // rad per rad: psi falls as back rake grows
  double psi_least = 0.0;               // rad, 5 deg
};

/// Angle psi between the cutting force on the face and the face normal, rad.
/// psi = max(psi_least, psi_at_reference - psi_slope (theta - theta_ref)) [fit], after Coudyzer & Richard,
/// AADE-05-NTCE-75, 2005 [pub: psi varies with rake].
double face_friction_angle(double back_rake, const EdgeLaw& law);

/// zeta = tan(theta + psi): normal over tangential part of the cutting force.
/// Detournay & Defourny, IJRMMS 29(1), 1992 [pub]. Throws std::domain_error when theta + psi >= pi/2.
double force_inclination(double back_rake, const EdgeLaw& law);

/// Length along travel of the land that bears under a sharp edge, m:
/// r_e + b_0 (w_b/w_ref) sin(theta + chi)/sin(theta_ref + chi_ref); r_e alone where w_b or chi is 0 [fit].
/// Throws std::domain_error for a negative bevel or a reference that would divide by zero.
double bearing_land(const CutterShape& shape, double back_rake, const EdgeLaw& law);

}  // namespace dullcast::geometry
