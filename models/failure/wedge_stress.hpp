#pragma once

#include "models/geometry/cutter.hpp"

namespace dullcast::failure {

/// Radial stress in an elastic wedge under a load P' (N per metre of edge) at its tip, as sigma r/P', tension
/// positive, at `position` (rad) from the bisector:
/// -cos(delta) cos(position)/(alpha + sin(2 alpha)/2) - sin(delta) sin(position)/(alpha - sin(2 alpha)/2)
/// [hb: Michell 1900; Timoshenko & Goodier, Theory of Elasticity, 3rd ed., art. 38 (number from memory)].
/// half_angle alpha in (0, pi/2], held at 1e-3 and pi/2 outside; load_angle delta is the angle of the push to
/// the bisector that points into the wedge, any; position within -alpha..alpha. Total; a NaN goes through.
double wedge_radial_stress_factor(double half_angle, double load_angle, double position);

/// The tension it brings to the face turned away from the load, where a brittle edge breaks, as sigma r_e/P',
/// r_e the edge radius: the above at position = -alpha, not below 0:
/// sin(delta) sin(alpha)/(alpha - sin(2 alpha)/2) - cos(delta) cos(alpha)/(alpha + sin(2 alpha)/2).
/// Same source, range and manner.
double wedge_stress_factor(double half_angle, double load_angle);

/// A cutting edge as a wedge: half its opening and the angle of the load to its bisector, rad.
struct EdgeWedge {
  double half_angle = 0.0;
  double load_angle = 0.0;
};

/// Wedge of the cutting edge met by an impact along the travel, at back rake theta (rad) and worn height u
/// (m, measured in the face from the corner that an unbevelled cutter would have).
///
///     travel -->          The face leans forward by theta, the side of the cylinder rises backward by theta
///              / face     (clearance). The bevel takes w_b off the face and w_b tan(chi) off the side. A
///             /           flat parallel to the travel at worn height u meets the face's line at u and, x
///            | bevel      behind the face, lies at u - x tan(theta) above the side's line. So it touches the
///     ___   /             bevel's lower corner at u_1 = w_b tan(chi) tan(theta) and has used the bevel up at
///  side  ''/              u_2 = w_b.
///
/// - Before the flat: bevel (or face) and side, 2 alpha = pi/2 + chi, delta = pi/4 + theta + chi/2.
/// - With the flat: 2 alpha = pi/2 + theta + chi, delta = alpha: the load runs along the flat.
/// - Past u_2 the face itself ends in the flat: chi becomes 0.
/// Side gives way to flat between u_1 and u_1 + r_e; a bevel counts wholly where 2 r_e of the face's height
/// is left to it and no longer where it is gone, both as cubic steps [asm]: C1 in u. For the same reason a
/// bevel much narrower than the edge radius is none. Total: theta is held in 0..pi/2, theta + chi under pi/2,
/// the edge radius above a nanometre; NaN goes through.
EdgeWedge edge_wedge(const geometry::CutterShape& shape, double back_rake, double worn_height);

/// What edge_wedge follows from, of one edge.
struct EdgeShape {
  double theta = 0.0, chi = 0.0;            // rad, back rake and bevel, held in range
  double edge_radius = 0.0;                 // m
  double first_touch = 0.0, used_up = 0.0;  // m, u_1 and u_2
};

/// One edge over its life: wedge_stress_factor of its edge_wedge by worn height, the same to the last bit.
/// Most of that life the wedge stays as it is (no flat yet, flat with bevel, flat without), and its factors
/// there are worked out once.
class WearingWedge {
 public:
  WearingWedge(const geometry::CutterShape& shape, double back_rake);
  double stress_factor(double worn_height) const;

 private:
  EdgeShape shape_;
  double without_flat_ = 0.0, with_both_ = 0.0, without_bevel_ = 0.0;
};

}  // namespace dullcast::failure
