#pragma once

#include "models/materials/rock.hpp"

namespace dullcast::thermal {

/// The rock skin at the hole bottom as one node: C dT/dt = P - (to_cuttings + to_rock)(T - T_rock) - what it
/// gives to the fluid.
struct WarmRock {
  double capacity = 0.0;     // J/K
  double to_cuttings = 0.0;  // W/K, carried off with the cut rock
  double to_rock = 0.0;      // W/K, soaking in below the skin
};

/// The node for a bottom of area A (m2) cut down at rop (m/s) by passes_per_second passes (rotary speed times
/// blades), in terms of P = rop L/kappa, L the greatest capacity depth (m):
///   to_cuttings = rho c rop A     what is cut leaves at the surface's temperature: exact
///   to_rock     = k A/(4 L) e^(-6 P)
///   capacity    = rho c A sqrt((L/(2 P + e^(-5 P)))^2 + kappa/(passes + kappa/L^2))
/// Where they come from [asm as one node; 4, 6, 2 and 5 fit to the closed form below]: a receding surface
/// under steady flux holds the profile e^(-rop x/kappa) and the surface rise q/(rho c rop) [hb: Carslaw &
/// Jaeger 1959]. Heat leaves with the cuttings only, so to_rock must die away as P grows; half the profile's
/// depth, kappa/(2 rop), follows the way there best. At rest the depth soaked grows without end and one node
/// has one time constant, 4 L^2/kappa. The skin soaked between two passes, sqrt(kappa dt), is added as a sum
/// of squares; without passes it is L.
///
/// What one node is worth: surface rise against the exact one of a half-space receding at rop under constant
/// flux from time 0, without heat to the fluid and with the passes' skin small
/// (tests/models/thermal/warm_rock_test.cpp):
/// - steady: low by e^(-6 P)/(4 P + e^(-6 P)): under 1 % from P = 0.65, 12 % at P = 0.3. Slower still the
///   steady state is many minutes away and the node stops short of it: it never passes 4 q L/k;
/// - at rest and for P under 1: 33 % low to 21 % high for kappa t/L^2 of 1 to 20 (L = 6 mm in granite: half a
///   minute to ten minutes); at rest 22 % low to 14 % high; too low before;
/// - P of 1 or more: within 21 % from 0.2 kappa/rop^2 on.
/// It is the bottom's mean. A flat meets rock cooler than that, at rest by up to 0.82 q (dt/kappa)^1/2/(rho
/// c), and fresh rock when one pass cuts deeper than sqrt(kappa dt); the rise is small then. An L of 4 to 8
/// mm fits runs of minutes [asm].
///
/// Total and smooth in rop and passes_per_second down to 0 (negative ones count as 0): off bottom the skin is
/// sqrt(2) L and to_rock remains. L is not under 0.1 mm, A not under 0. Conductivity, density and heat
/// capacity must be above 0, as a Rock's are.
WarmRock warm_rock(const materials::Rock& rock, double bottom_area, double rop, double passes_per_second,
                   double most_capacity_depth);

}  // namespace dullcast::thermal
