#include "tools/proofs/moving_sources.hpp"

#include <algorithm>
#include <array>
#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/quadrature/tanh_sinh.hpp>
#include <boost/math/special_functions/bessel.hpp>
#include <cmath>

#include "models/common/constants.hpp"
#include "models/thermal/heat.hpp"

namespace dullcast::proofs {

using Gauss = boost::math::quadrature::gauss<double, 30>;

/// Mean conductance h L/k of a band of length L moving over a half-space at Peclet number v L/kappa, exact.
/// With beta = v/(2 kappa): T(x) = q/(pi k) integral over the band of exp(-beta (x-x')) K0(beta |x-x'|) dx',
/// whose mean, with z = beta |x-x'| and B = beta L, is (2 q L/(pi k B^2)) integral_0^B (B - z) cosh z K0(z)
/// dz.
double exact_band_conductance(double peclet) {
  boost::math::quadrature::tanh_sinh<double> quadrature;
  const double end = 0.5 * peclet;
  const auto integrand = [&](double z) { return (end - z) * std::cosh(z) * boost::math::cyl_bessel_k(0, z); };
  const int panels = std::max(1, static_cast<int>(end / 5.0));
  double integral = 0.0;
  for (int i = 0; i < panels; ++i)
    integral += quadrature.integrate(integrand, end * i / panels, end * (i + 1) / panels);
  return pi * end * end / (2.0 * integral);
}

/// The model's conductance h L/k of a band so wide (its area so large) that the stationary part vanishes.
double fast_limit(double peclet) {
  return thermal::rock_contact_conductance(1.0, 1.0, peclet, 1.0, 1e16);
}

namespace {
/// (1 - exp(-z))/z.
double decayed(double z) {
  return z < 1e-8 ? 1.0 - 0.5 * z : -std::expm1(-z) / z;
}
}  // namespace

/// Temperature at (x, y) of the unit disc with unit flux moving over a half-space of unit conductivity,
/// exact: (1/(2 pi)) integral over the disc of exp(-beta (rho + x - x'))/rho dA', radially in closed form
/// about the field point. The disc moves towards +x.
double moving_disc_temperature(double x, double y, double beta) {
  const auto ray = [&](double s) {
    // The angle of the source point, crowded towards straight ahead of the field point, where heat comes
    // from: it was there that the rock now at (x, y) passed under the disc.
    const double psi = pi * s * s * s, slope = 3.0 * pi * s * s;
    const double along = x * std::cos(psi) + y * std::sin(psi);
    const double reach = -along + std::sqrt(std::max(0.0, along * along + 1.0 - x * x - y * y));
    const double decay = 2.0 * beta * std::pow(std::sin(0.5 * psi), 2) * reach;
    return slope * reach * decayed(decay);
  };
  return (Gauss::integrate(ray, -1.0, -0.5) + Gauss::integrate(ray, -0.5, 0.0) +
          Gauss::integrate(ray, 0.0, 0.5) + Gauss::integrate(ray, 0.5, 1.0)) /
         two_pi;
}

double exact_disc_conductance(double beta) {
  const auto strip = [&](double angle) {
    const double y = std::sin(angle), half = std::cos(angle);
    const auto point = [&](double s) {  // x crowded to both rims
      return moving_disc_temperature(half * (1.5 * s - 0.5 * s * s * s), y, beta) * half * 1.5 *
             (1.0 - s * s);
    };
    return (Gauss::integrate(point, -1.0, 0.0) + Gauss::integrate(point, 0.0, 1.0)) * half;
  };
  return pi / (2.0 * Gauss::integrate(strip, 0.0, pi / 2.0));
}

/// The model for the unit disc: area pi, length of band pi/2 (area over width); beta = v a/(2 kappa).
double blended_disc(double beta) {
  return thermal::rock_contact_conductance(1.0, 1.0, 2.0 * beta, pi / 2.0, pi);
}

/// By the same rays cut into pieces at the corners, where their length has kinks.
static double moving_rectangle_temperature(double x, double y, double width, double beta) {
  std::array<double, 7> breaks{std::atan2(-y, -x),
                               std::atan2(-y, 1.0 - x),
                               std::atan2(width - y, -x),
                               std::atan2(width - y, 1.0 - x),
                               -pi,
                               0.0,
                               pi};
  std::sort(breaks.begin(), breaks.end());
  double sum = 0.0;
  for (std::size_t i = 0; i + 1 < breaks.size(); ++i) {
    const double low = breaks[i], span = breaks[i + 1] - low;
    const auto ray = [&](double s) {
      // Points crowded towards straight ahead (angle 0), as for the disc.
      const bool from_ahead = low == 0.0, to_ahead = breaks[i + 1] == 0.0;
      const double place = from_ahead ? s * s * s : to_ahead ? 1.0 - std::pow(1.0 - s, 3) : s;
      const double slope = from_ahead ? 3.0 * s * s : to_ahead ? 3.0 * (1.0 - s) * (1.0 - s) : 1.0;
      const double angle = low + span * place, along = std::cos(angle), across = std::sin(angle);
      const double reach =
          std::min((along > 0.0 ? 1.0 - x : -x) / along, (across > 0.0 ? width - y : -y) / across);
      return span * slope * reach * decayed(2.0 * beta * std::pow(std::sin(0.5 * angle), 2) * reach);
    };
    sum += Gauss::integrate(ray, 0.0, 0.3) + Gauss::integrate(ray, 0.3, 1.0);
  }
  return sum / two_pi;
}

double exact_rectangle_conductance(double peclet, double width) {
  using Across = boost::math::quadrature::gauss<double, 20>;
  const auto mean_over = [](double extent, auto f) {  // points crowded to both edges
    return Across::integrate(
        [&](double s) { return f(extent * (0.5 + 0.75 * s - 0.25 * s * s * s)) * 0.75 * (1.0 - s * s); },
        -1.0, 1.0);
  };
  return 1.0 / mean_over(width, [&](double y) {
           return mean_over(
               1.0, [&](double x) { return moving_rectangle_temperature(x, y, width, 0.5 * peclet); });
         });
}

}  // namespace dullcast::proofs
