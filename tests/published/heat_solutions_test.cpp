#include <gtest/gtest.h>

#include <algorithm>
#include <boost/math/quadrature/tanh_sinh.hpp>
#include <boost/math/special_functions/ellint_2.hpp>
#include <cmath>

#include "models/common/constants.hpp"
#include "models/thermal/heat.hpp"

// Conduction solutions in closed form or as quadratures: Carslaw & Jaeger, Conduction of Heat in Solids, 2nd
// ed., 1959 [hb]; Jaeger, J. Proc. R. Soc. New South Wales 76, 1942 [pub].
namespace dullcast::published {
namespace {

TEST(DiscSource, MeanTemperatureOfTheUniformDiscIsEightThirdsOverPi) {
  // Surface temperature 2 q a E(r/a)/(pi k) (Carslaw & Jaeger sec. 8.2), its mean 8 q a/(3 pi k), by
  // quadrature.
  boost::math::quadrature::tanh_sinh<double> quadrature;
  const double k = 543.0, a = 1.7e-3, q = 1e7;
  const auto temperature = [&](double share) {
    return 2.0 * q * a / (pi * k) * boost::math::ellint_2(share);
  };
  const double mean = quadrature.integrate(
      [&](double share) { return 2.0 * share * temperature(std::min(share, 1.0)); }, 0.0, 1.0);
  EXPECT_NEAR(mean / (8.0 * q * a / (3.0 * pi * k)), 1.0, 1e-12);
  const double area = pi * a * a;
  EXPECT_NEAR(thermal::uniform_spot_resistance(k, area) * q * area / mean, 1.0, 1e-12);
}

TEST(IsothermalSpot, RootFluxHoldsTheWholeSpotAtOneTemperature) {
  // Flux Q/(2 pi a sqrt(a^2 - r^2)) (Carslaw & Jaeger sec. 8.2) makes T = Q/(4 k a) everywhere on the spot:
  // added up numerically from point sources at three places.
  boost::math::quadrature::tanh_sinh<double> quadrature;
  const double k = 100.0, a = 2e-3;
  const double resistance = thermal::isothermal_spot_resistance(k, pi * a * a);
  EXPECT_NEAR(resistance * 4.0 * k * a, 1.0, 1e-14);
  for (const double place : {0.0, 0.5, 0.9}) {
    const int rays = 400;
    double sum = 0.0;
    for (int i = 0; i < rays; ++i) {
      const double angle = two_pi * (i + 0.5) / rays, along = place * std::cos(angle);
      const double reach = -along + std::sqrt(along * along + 1.0 - place * place);
      // 1 - r^2 = (reach - rho)(reach + rho + 2 along), and `left` = reach - rho without cancellation at the
      // rim.
      sum += quadrature.integrate(
          [&](double rho, double complement) {
            const double left = rho > 0.5 * reach ? std::abs(complement) : reach - rho;
            return 1.0 / std::sqrt(left * (reach + rho + 2.0 * along));
          },
          0.0, reach);
    }
    const double temperature = sum * two_pi / rays / (two_pi * two_pi * k * a);
    EXPECT_NEAR(temperature / resistance, 1.0, 1e-7) << place;
  }
}

TEST(HalfSpace, SurfaceUnderConvectionOfGeankoplis) {
  // Geankoplis, Transport Processes and Unit Operations, ex. 5.3-1 [hb]: earth at 15.6 C under air at -17.8
  // C, h 11.36 W/m2K, k 0.865 W/mK, alpha 4.65e-7 m2/s, 5 h: surface 267.98 K (the closed form; the book
  // reads a chart).
  const double earth = celsius_zero + 15.6, air = celsius_zero - 17.8;
  const double surface =
      earth + (air - earth) * thermal::half_space_convection_share(11.36, 0.865, 4.65e-7, 5.0 * 3600.0);
  EXPECT_NEAR(surface, 267.98, 0.005);
}

TEST(HalfSpace, SurfaceTemperatureIsTheOneThatItsOwnFluxMakes) {
  // Duhamel: a half-space under flux q(t) has the surface rise integral q(t')/sqrt(pi k rho c (t - t')) dt';
  // with q = h (1 - share) it must return the share. t - t' = w^2 removes the root.
  const double h = 11.36, k = 0.865, kappa = 4.65e-7;
  boost::math::quadrature::tanh_sinh<double> quadrature;
  for (const double time : {60.0, 3600.0, 18000.0, 1e6}) {
    const double rise = quadrature.integrate(
        [&](double w) {
          const double earlier = std::max(0.0, time - w * w);
          return 2.0 * h / k * std::sqrt(kappa / pi) *
                 (1.0 - thermal::half_space_convection_share(h, k, kappa, earlier));
        },
        0.0, std::sqrt(time));
    EXPECT_NEAR(rise / thermal::half_space_convection_share(h, k, kappa, time), 1.0, 1e-9) << time;
  }
}

TEST(Debye, HeatCapacityOverThreeRAsTabulated) {
  // Debye heat capacity over 3 R by theta/T: American Institute of Physics Handbook [hb, from memory].
  struct Row {
    double debye_ratio, share;
  };
  for (const Row& row : {Row{1.0, 0.9517}, Row{2.0, 0.8254}, Row{3.0, 0.6628}, Row{4.0, 0.5031},
                         Row{5.0, 0.3686}, Row{10.0, 0.0758}}) {
    const double molar_mass = 12.011e-3,
                 share = thermal::debye_heat_capacity(1000.0, 1000.0 * row.debye_ratio, molar_mass) *
                         molar_mass / (3.0 * 8.314462618);
    EXPECT_NEAR(share, row.share, 5e-5) << row.debye_ratio;  // half of the last figure
  }
}

TEST(Debye, HeatCapacityOfDiamond) {
  // 509 J/kgK at 298 K is the handbook value (6.11 J/mol K: CRC Handbook of Chemistry and Physics [hb]); the
  // others are the Debye function at 1,860 K computed elsewhere. Tolerance half of the last figure, plus the
  // table's 0.005 %.
  EXPECT_NEAR(thermal::diamond_heat_capacity(298.0), 509.0, 0.55);
  EXPECT_NEAR(thermal::diamond_heat_capacity(400.0), 856.0, 0.55);
  EXPECT_NEAR(thermal::diamond_heat_capacity(623.0), 1381.0, 0.55);
  EXPECT_NEAR(thermal::diamond_heat_capacity(973.0), 1742.0, 0.6);
}

}  // namespace
}  // namespace dullcast::published
