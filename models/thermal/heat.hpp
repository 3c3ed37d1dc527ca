#pragma once

namespace dullcast::thermal {

/// Conductance from a contact into the rock sliding past it, W/(m2 K). Fast: h_r = (3 sqrt(pi)/4) k
/// sqrt(v/(kappa L)), the mean over a band of length L (Jaeger 1942; Carslaw & Jaeger 1959 [hb]). Slow: a
/// stationary uniform source of the same area, h_0 = 3 pi k/(8 a_eq), a_eq = sqrt(A/pi). Blended as
/// sqrt(h_r^2 + h_0^2), the form of Tian & Kennedy, J. Tribology 116, 1994 [pub].
/// k W/(m K), kappa m2/s, v m/s, L m, A m2, all > 0 (v may be 0); throws std::domain_error otherwise.
///
/// How near that is, measured against exact moving sources of uniform flux at Peclet number Pe = v L/kappa
/// (tests/published/moving_source_test.cpp):
/// - a band much wider than long, fast term alone: above the exact mean by 6.0 % at Pe 5, 4.2 at 10,
///   1.2 at 50, 0.6 at 100 and 0.1 at 1,000;
/// - a disc with L = area over width: 0 to 6.0 % above at every speed (6 % near Pe 4, 3.3 % when fast);
/// - a rectangle one to four times as wide as long: from 3 % under to 7.5 % above for Pe >= 1, within 3 % for
///   Pe >= 20; at rest 1 % (square) to 12 % (four times as wide) under.
/// The stationary term still adds 1 % to the fast one at Pe 120 on a square contact and at 30 on one four
/// times as wide as long.
double rock_contact_conductance(double conductivity, double diffusivity, double v, double length,
                                double area);

/// Conduction resistance from a uniformly heated spot of area A on a half-space, K/W, of its mean
/// temperature: 8/(3 pi^2 k a_eq) [hb: Carslaw & Jaeger 1959, sec. 8.2]. Throws std::domain_error unless both
/// are above 0.
double uniform_spot_resistance(double conductivity, double area);

/// The same for an isothermal spot: 1/(4 k a_eq) [hb].
double isothermal_spot_resistance(double conductivity, double area);

/// Heat capacity of diamond, J/(kg K), Debye model with 1,860 K: 509, 856, 1381, 1742 at 298, 400, 623, 973
/// K. Valid 200 to 1,600 K (held at the ends outside); interpolated in a table made once, within 0.005 % of
/// the integral. Safe to call from several threads. Throws std::domain_error for a NaN.
double diamond_heat_capacity(double T);

/// Heat that diamond takes up from T_from to T (K), J/kg: the integral of diamond_heat_capacity, of its
/// interpolated table exactly, below 0 where it cools. The same range and errors.
class DiamondHeat {
 public:
  explicit DiamondHeat(double T_from);
  double to(double T) const;

 private:
  double up_to_from_;  // J/kg
};

/// The Debye integral itself, J/(kg K), by quadrature: the reference for the table above.
/// c = 9 (R/M) (T/theta)^3 integral_0^(theta/T) x^4 e^x/(e^x - 1)^2 dx [hb]; T and theta K, M kg/mol, all
/// above 0 (std::domain_error otherwise).
double debye_heat_capacity(double T, double debye_temperature, double molar_mass);

/// Temperature rise of a half-space surface under a fluid suddenly at another temperature, as a share of the
/// difference: 1 - exp(h^2 kappa t/k^2) erfc(h sqrt(kappa t)/k) [hb: Carslaw & Jaeger 1959; Geankoplis
/// ex. 5.3-1]. h W/(m2 K) and t s at least 0, k W/(m K) and kappa m2/s above 0 (std::domain_error otherwise).
double half_space_convection_share(double h, double conductivity, double diffusivity, double time);

}  // namespace dullcast::thermal
