#pragma once

namespace dullcast {

/// Conductance from a contact into the rock sliding past it, W/(m2 K). Fast: h_r = (3 sqrt(pi)/4) k
/// sqrt(v/(kappa L)), the mean over a band of length L (Jaeger 1942; Carslaw & Jaeger 1959 [hb]). Slow: a
/// stationary uniform source of the same area, h_0 = 3 pi k/(8 a_eq), a_eq = sqrt(A/pi). Blended as
/// sqrt(h_r^2 + h_0^2), the form of Tian & Kennedy, J. Tribology 116, 1994 [pub], which leaves the fast limit
/// within 1 % above Peclet number v L/kappa of a few tens. k W/(m K), kappa m2/s, v m/s, L m, A m2, all > 0
/// (v may be 0).
double rock_contact_conductance(double conductivity, double diffusivity, double v, double length, double area);

/// Conduction resistance from a uniformly heated spot of area A on a half-space, K/W, of its mean temperature:
/// 8/(3 pi^2 k a_eq) [hb: Carslaw & Jaeger 1959, sec. 8.2].
double uniform_spot_resistance(double conductivity, double area);

/// The same for an isothermal spot: 1/(4 k a_eq) [hb].
double isothermal_spot_resistance(double conductivity, double area);

/// Heat capacity of diamond, J/(kg K), Debye model with 1,860 K: 509, 856, 1381, 1742 at 298, 400, 623, 973 K.
/// Valid 200 to 1,600 K (clamped outside); interpolated in a table made once, within 0.2 % of the integral.
double diamond_heat_capacity(double T);

/// The Debye integral itself, J/(kg K), by quadrature: the reference for the table above.
double debye_heat_capacity(double T, double debye_temperature, double molar_mass);

/// Temperature rise of a half-space surface under a fluid suddenly at another temperature, as a share of the
/// difference: 1 - exp(h^2 kappa t/k^2) erfc(h sqrt(kappa t)/k) [hb: Carslaw & Jaeger 1959; Geankoplis ex. 5.3-1].
double half_space_convection_share(double h, double conductivity, double diffusivity, double time);

}  // namespace dullcast
