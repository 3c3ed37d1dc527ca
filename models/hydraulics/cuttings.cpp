#include "models/hydraulics/cuttings.hpp"

#include <cmath>
#include <limits>

#include "models/common/bounds.hpp"
#include "models/common/constants.hpp"

namespace dullcast::hydraulics {
namespace {

constexpr double viscous_constant = 18.0;  // C_1, Stokes' law
constexpr double drag_constant = 1.0;      // C_2, natural grains by sieve diameter

/// Far past anything drilled; keeps powers finite.
constexpr double greatest_size = 1e3;   // m
constexpr double greatest_speed = 1e6;  // m/s
constexpr double least_density = 1e-6;  // kg/m3

/// Weight of a grain in the fluid per mass of fluid it displaces, m/s2: (rho_p/rho_f - 1) g.
double submerged_gravity(const materials::Fluid& fluid, double particle_density) {
  return at_least(particle_density / at_least(fluid.density, least_density) - 1.0, 0.0) * standard_gravity;
}

double kinematic_viscosity(const materials::Fluid& fluid) {
  return at_least(fluid.viscosity, 0.0) / at_least(fluid.density, least_density);
}

/// Root of x^4 = b x^3 + c for b, c >= 0. Above the root the quartic is convex, so Newton's method falls on
/// it from the bound b + c^(1/4), which is at most 1.5 times the root; a fixed count of steps keeps the
/// answer smooth, and the sixth step already leaves rounding only.
double quartic_root(double b, double c) {
  const double bound = b + std::sqrt(std::sqrt(c));
  if (bound == 0.0) return 0.0;
  const double scaled_b = b / bound, square = bound * bound, scaled_c = c / (square * square);
  double y = 1.0;
  for (int step = 0; step < 8; ++step) {
    const double value = y * y * y * (y - scaled_b) - scaled_c;
    y -= value / (y * y * (4.0 * y - 3.0 * scaled_b));
  }
  return bound * y;
}

}  // namespace

double slip_velocity(const materials::Fluid& fluid, double particle_density, double size) {
  const double g = submerged_gravity(fluid, particle_density);
  const double D = within(size, 0.0, greatest_size);
  const double resistance =
      viscous_constant * kinematic_viscosity(fluid) + std::sqrt(0.75 * drag_constant * g * D * D * D);
  // Nothing resists and nothing sinks: a grain of no size or no weight in a fluid without viscosity.
  return resistance == 0.0 ? 0.0 : g * D * D / resistance;
}

double size_lifted(const materials::Fluid& fluid, double particle_density, double v) {
  const double g = submerged_gravity(fluid, particle_density);
  const double speed = within(v, 0.0, greatest_speed);
  if (speed == 0.0) return 0.0;
  if (g == 0.0) return std::numeric_limits<double>::infinity();
  // g D^2 = v (C_1 nu + sqrt(0.75 C_2 g) D^1.5), a quartic in the root of D.
  const double root = quartic_root(speed * std::sqrt(0.75 * drag_constant / g),
                                   viscous_constant * kinematic_viscosity(fluid) * speed / g);
  return root * root;
}

double share_finer(double size, double mean_size, double spread) {
  constexpr double least_mean_size = 1e-9;  // m
  const double ratio = at_least(size, 0.0) / at_least(mean_size, least_mean_size);
  // Not std::pow, which makes 1 of 1 to the power of a NaN.
  return -std::expm1(-std::exp(within(spread, 0.1, 10.0) * std::log(ratio)));
}

double cuttings_size(double depth_of_cut) {
  constexpr double finest = 0.1e-3, coarsest = 3e-3, thickness_share = 0.8;
  constexpr double range = coarsest - finest, greatest_depth = 1.0;
  const double x = thickness_share * within(depth_of_cut, 0.0, greatest_depth);
  return finest + range * x / (x + range);
}

double cuttings_concentration(double rop, double hole_area, double Q) {
  const double rock = at_least(rop, 0.0) * at_least(hole_area, 0.0);
  return rock == 0.0 ? 0.0 : rock / (at_least(Q, 0.0) + rock);
}

double transport_ratio(double v_annulus, double v_slip) {
  const double slip = at_least(v_slip, 0.0);
  if (slip >= v_annulus) return 0.0;
  return 1.0 - slip / v_annulus;
}

double lifted_share(const materials::Fluid& fluid, double particle_density, double mean_size, double spread,
                    double v_annulus) {
  constexpr double creep = 1e-3;  // m/s, v_0
  const double v = within(v_annulus, 0.0, greatest_speed);
  const double moving = v * v / (v * v + creep * creep) * v;
  return share_finer(size_lifted(fluid, particle_density, moving), mean_size, spread);
}

}  // namespace dullcast::hydraulics
