#pragma once

namespace dullcast::geometry {

/// Wear flat of a cylindrical cutter: a cylinder of radius a cut by a plane parallel to its travel, the
/// cylinder's axis tilted by the back rake theta; u is the worn height measured in the face. All lengths m.
struct WearFlat {
  double diamond_area = 0.0;    // m2
  double carbide_area = 0.0;    // m2
  double diamond_volume = 0.0;  // m3 worn away
  double carbide_volume = 0.0;  // m3 worn away
};

/// Area of the circular segment of height u: S(u) = a^2 acos((a-u)/a) - (a-u) q, q = sqrt(2 a u - u^2) [hb].
/// u <= 0 gives 0; u is valid to 2 a (std::domain_error past it, for a NaN or a <= 0). Accurate to rounding
/// also for u << a.
double segment_area(double radius, double u);

/// I(u) = integral of S from 0 to u = a^2 (q - (a-u) acos((a-u)/a)) - q^3/3 [hb]; same validity.
double segment_area_integral(double radius, double u);

/// Flat areas and worn volumes at worn height u (0 <= u <= 2 a), back rake 0 <= theta < pi/2:
/// A_d = [S(u) - S(u - t tan theta)]/sin theta, V_d = [I(u) - I(u - t tan theta)]/tan theta, and the same
/// between t and l for the carbide, 0 <= t <= l; the volumes by quadrature of S where their closed form
/// cancels. dV_d/dn = A_d with n = u cos theta. Within 1e-12 of the exact formulas (measured 1e-14) for any
/// rake, 0 included, and any u; next to the bond the carbide's height u - t tan theta is itself known only to
/// rounding of u. Throws std::domain_error outside the valid range.
WearFlat wear_flat(double radius, double length, double table_thickness, double back_rake, double u);

}  // namespace dullcast::geometry
