#pragma once

#include "models/materials/fluid.hpp"

namespace dullcast::thermal {

/// Mean Nusselt number of a cylinder in cross flow, Churchill & Bernstein, J. Heat Transfer 99, 1977 [hb]:
/// Nu = 0.3 + 0.62 Re^1/2 Pr^1/3 [1 + (0.4/Pr)^2/3]^-1/4 [1 + (Re/282000)^5/8]^4/5, for Re Pr > 0.2.
/// Below that the formula's own limit 0.3 is approached. Throws std::domain_error for Re < 0 or Pr <= 0.
double churchill_bernstein(double reynolds, double prandtl);

/// What of the convection round cutters follows the fluid alone.
struct CrossFlow {
  double reynolds_per_speed = 0.0;  // s/m2
  double conductivity = 0.0;        // W/(m K)
  double prandtl_share = 0.0;       // 1, 0.62 Pr^1/3 [1 + (0.4/Pr)^2/3]^-1/4
};
/// Throws std::domain_error for a property of the fluid that is not above 0.
CrossFlow cross_flow(const materials::Fluid& fluid);

/// Convection from a cutter of the given diameter (m) swept by fluid at speed v (m/s), W/(m2 K):
/// h = Nu k/D with churchill_bernstein. Throws std::domain_error for v < 0 or any other quantity not above 0.
double cutter_convection(const materials::Fluid& fluid, double v, double cutter_diameter);
double cutter_convection(const CrossFlow& flow, double v, double cutter_diameter);

/// Speed of fluid past a cutter, m/s: slot velocity and rotation at right angles, sqrt(v_slot^2 + (2 pi N
/// r)^2) [asm].
double speed_past_cutter(double slot_velocity, double rotary_speed, double r);

/// Free convection from a hot surface in fluid that nothing else moves, W/(m2 K): turbulent, whatever the
/// size,
///   h = 0.13 k (g expansion/(nu alpha))^1/3 [hb: McAdams, Heat Transmission, 1954, vertical surfaces],
/// expansion the loss of density at the surface, beta dT. Fluid's properties held to what is physical. Total.
double free_convection(const materials::Fluid& fluid, double expansion);

/// How much of the bit's rotation counts as flow past its surfaces, 1: fluid that stays between the blades
/// turns with them. A smooth step of how often the slots are filled anew (renewal, 1/s) within `turns` turns
/// of the bit at rotary_speed (rev/s) [asm]: 1, exactly, when once or more. Total.
double renewed_share(double renewal, double rotary_speed, double turns);

/// Nusselt number in a passage on its hydraulic diameter. All [hb]:
/// - Re above 4,000: Gnielinski, Int. Chem. Eng. 16, 1976: (f/8)(Re - 1000) Pr/(1 + 12.7 (f/8)^1/2 (Pr^2/3 -
/// 1)),
///   friction of Petukhov f = (0.79 ln Re - 1.64)^-2 (Darcy); valid to 5e6 and 0.5 < Pr < 2,000;
/// - Re below 2,300: 3.66, laminar and developed, at uniform wall temperature (the least of the textbook
/// values);
/// - between, linear in Re from one to the other: Gnielinski, Int. J. Heat Mass Transfer 63, 2013.
/// Total: a negative Re counts as 0, Re is held to 1e8 and Pr to 0.5 .. 2,000. Continuous, never falling with
/// Re.
double gnielinski(double reynolds, double prandtl);

/// Convection from the walls of a junk slot, W/(m2 K): gnielinski on the hydraulic diameter, Nu k/D_h. Speed
/// m/s (its size counts), hydraulic_diameter m, not under 0.1 mm. Entrance effects, which raise it in a slot
/// a few diameters long, are left out (conservative). Total.
double slot_convection(const materials::Fluid& fluid, double v, double hydraulic_diameter);

/// Axial speed of a free turbulent round jet at a distance from its port, m/s: v within the core, then
/// 6.3 v D/x [hb: Rajaratnam, Turbulent Jets, 1976; Schlichting's constant is 6.6]. port_diameter and
/// distance m, negative ones count as 0. The bottom the jet strikes and its neighbours are not seen. Total.
double jet_speed_at(double jet_velocity, double port_diameter, double distance);

/// Speed of a jet that strikes a wall and spreads along it, m/s, at distance x (m) from where it strikes: a
/// radial wall jet, u = 1.03 v D/x, not over v (Rajaratnam, Turbulent Jets, 1976 [hb, from memory]). v m/s
/// and port diameter D m of 0 or more; at x of 0 it is v.
double wall_jet_speed(double jet_velocity, double port_diameter, double distance);

/// Effective conductivity of packed cuttings, W/(m K), by Krupiczka 1967 [pub, from memory]:
/// k_e/k_f = (k_s/k_f)^n, n = 0.280 - 0.757 lg(void) - 0.057 lg(k_s/k_f).
/// Measured base: void share 0.2 to 0.48, k_s/k_f 1 to 6,000; both are held to 0.2 .. 0.6 and 1 .. 6,000.
/// Conductivities W/(m K), held to 1 mW/(m K) or more. Total.
double packed_bed_conductivity(double rock_conductivity, double fluid_conductivity, double void_share);

/// Conductance from a cutter buried in a bed of conductivity k_e (W/(m K)), W/(m2 K): 2 k_e/D, pure
/// conduction from a sphere of the cutter's diameter (m, not under 1 mm) [hb]. Total.
double packed_bed_convection(double bed_conductivity, double cutter_diameter);

}  // namespace dullcast::thermal
