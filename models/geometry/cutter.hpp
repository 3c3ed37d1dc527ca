#pragma once

namespace dullcast::geometry {

/// The shape of one cutter: a cylinder whose end face is the diamond table. SI units, angles in rad.
struct CutterShape {
  double radius = 0.0;            // m, a
  double length = 0.0;            // m, l: diamond table and carbide together
  double table_thickness = 0.0;   // m, t
  double leach_depth = 0.0;       // m, z_L: cobalt removed from the face down to here; 0 for none
  double bevel_width = 0.0;       // m, w_b, of the bevel's ring as seen on the face
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

/// Parts of the force of cutting on one cutter over its part along the travel, 1.
struct CuttingDirection {
  double normal = 0.0;    // zeta, away from the rock, along the profile's normal
  double sideways = 0.0;  // along the profile, against the side to which the face looks
  double friction = 0.0;  // of the chip on the face, along its own way over it
};

/// How the force of cutting stands on a face with back rake theta (>= 0) and side rake beta, the friction
/// angle psi in the plane normal to the edge:
///   normal   = tan(theta + psi)/(cos(beta) (1 + k)),  k = tan^2(beta) sin(psi)/cos(theta + psi),
///   sideways = tan(beta) (1 - sin(psi)/cos(theta + psi))/(1 + k),
///   friction = sin(psi)/(cos(theta + psi) cos^2(beta) (1 + k)).
/// It is the mechanics of oblique cutting, of a force normal to the face and friction along the way of the
/// chip, which leaves the face at beta to the edge's normal (Stabler, Proc. IMechE 165, 1951; Armarego &
/// Brown, The Machining of Metals, 1969 [hb, from memory]; that crushed rock leaves so is [asm]). Without
/// side rake normal = tan(theta + psi): Detournay & Defourny, IJRMMS 29(1), 1992 [pub]. At 10 deg it is 2 %
/// more: side rake acts barely on it (Coudyzer & Richard, AADE-05-NTCE-75, 2005 [pub]). Throws
/// std::domain_error when theta + psi or |beta| reach pi/2.
CuttingDirection cutting_direction(double back_rake, double side_rake, const EdgeLaw& law);

/// Length along travel of the land that bears under a sharp edge, m: r_e and, in proportion to the
/// reference's, the length along travel of the bevel, whose slope is w_b/cos(chi) long: r_e + b_0
/// (w_b/cos(chi))/(w_ref/cos(chi_ref)) sin(theta + chi)/sin(theta_ref + chi_ref); r_e alone where w_b or chi
/// is 0 [fit]. Throws std::domain_error for a negative bevel or a reference that would divide by zero.
double bearing_land(const CutterShape& shape, double back_rake, const EdgeLaw& law);

}  // namespace dullcast::geometry
