#pragma once

namespace dullcast::wear {

/// Archard wear of the diamond, accelerated by temperature (after Glowka, SPE 14222, 1985 [pub]).
struct AbrasionLaw {
  double coefficient = 0.0;                       // m2/N, w_0 at CAI 1
  double abrasivity_exponent = 1.0;               // 1, n
  double carbide_ratio = 1.0;                     // 1, w_c/w_d cold
  double acceleration_temperature = 0.0;          // K: cold below [pub: 350 C]
  double acceleration_scale = 100.0;              // K, Delta [mem]
  double leached_acceleration_temperature = 0.0;  // K: leached diamond wears as cold below [asm]
  double cutting_share = 0.0;                     // 1, kappa, of the force of cutting that abrades the edge
  double carbide_load_least = 0.0;                // 1, pressure on the carbide over that on the diamond
};

/// g(T): 1 up to the acceleration temperature, exp((T - T_a)/Delta) above, never over the carbide ratio, so
/// that diamond never wears faster than carbide.
double heat_acceleration(const AbrasionLaw& law, double T);

/// g of a flat of which a share is leached: both parts stay in one plane and recede together, so the one that
/// wears more slowly takes the more of the pressure, and 1/g = share/g_l + (1 - share)/g, g_l that of leached
/// diamond, which starts at its own temperature with the same scale [asm: the cobalt that swells and
/// dissolves diamond is what hot diamond wears by]. exact for Archard wear of two materials side by side.
double flat_acceleration(const AbrasionLaw& law, double T, double leached_share);

/// w_d = w_0 CAI^n g(T)/wear_resistance, m2/N (volume worn per force and distance). CAI > 0, wear_resistance
/// > 0. A ruined table (heat damage past 1) wears like carbide: pass `ruined`.
double diamond_wear_coefficient(const AbrasionLaw& law, double abrasivity, double wear_resistance, double T,
                                bool ruined);

/// Wear coefficient of ground with stones in it, m2/N: the mean of the two (m2/N) by the load that each
/// carries, `load_on_stones` of it on the stones (1, 0..1) [Archard's law over a path of two rocks, exact].
double shared_wear_coefficient(double ground, double stones, double load_on_stones);

/// Pressure on the carbide behind a flat of which a share is leached over that on its diamond, at T: w_d/w_c,
/// with which both recede together, but carbide_load_least at least: lathe tests find what the carbide
/// carries on a big flat not negligible (Appl, Wilson & Lakshman, Wear 162-164, 1993 [pub, from memory]).
/// Carbide recedes ahead of the diamond until rock that springs back behind it presses no more than that; how
/// much that is, is assumed, and that the diamond alone says how fast the flat recedes [asm].
double carbide_pressure_share(const AbrasionLaw& law, double T, double leached_share, bool ruined);

/// du/dt = w_d sigma_c m v/cos(theta), m/s: worn height in the face, m the mean mobilisation over the flat
/// (0..1), v sliding speed, m/s. Regular at u = 0.
double worn_height_rate(double wear_coefficient, double contact_strength, double mobilisation, double v,
                        double back_rake);

/// du/dt, m/s, by the rock that flows over the edge: the force of cutting, eps A, abrades as the contact's
/// force does, for a share kappa of it [asm], and what it takes is spread over the diamond that recedes,
///   du/dt = w_d kappa eps A v/(A_d cos(theta)).
/// Per volume of rock cut, kappa w_d eps of diamond is lost: the reciprocal of the grinding ratio of turning
/// tests. pressure eps Pa, area of cut A m2, v m/s, diamond area A_d m2; 0 where that is not above 0.
double cutting_wear_rate(const AbrasionLaw& law, double wear_coefficient, double pressure, double area_of_cut,
                         double v, double diamond_area, double back_rake);

}  // namespace dullcast::wear
