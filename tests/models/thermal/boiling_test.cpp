#include "models/thermal/boiling.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "models/common/constants.hpp"
#include "support/numbers.hpp"
#include "support/refusal.hpp"

namespace dullcast::thermal {
namespace {

using testing::nan;
const double wild[] = {-1e12, -300.0, 0.0, 250.0, 373.0, 500.0, 3000.0, 1e5, 1e12};

TEST(WettedFlux, IsSinglePhaseBelowSaturation) {
  const materials::SaturatedWater water = materials::saturated_water(standard_atmosphere);
  const SurfaceFlux flux = wetted_flux(water, 4e3, 350.0, 300.0, 0.013);
  EXPECT_EQ(flux.flux, 4e3 * 50.0);
  EXPECT_EQ(flux.slope, 4e3);
  EXPECT_EQ(wetted_flux(water, 4e3, 280.0, 300.0, 0.013).flux, -4e3 * 20.0);  // heated by the fluid
}

TEST(WettedFlux, NucleatePartGoesWithTheCubeOfTheExcessAndOfTheSurface) {
  const materials::SaturatedWater water = materials::saturated_water(1e6);
  const double T = water.temperature;
  const double one = wetted_flux(water, 0.0, T + 5.0, T, 0.013).flux;
  EXPECT_NEAR(wetted_flux(water, 0.0, T + 10.0, T, 0.013).flux / one, 8.0, 1e-12);
  EXPECT_NEAR(wetted_flux(water, 0.0, T + 5.0, T, 0.0065).flux / one, 8.0, 1e-12);
}

TEST(WettedFlux, GoesStraightFromTwiceTheCriticalHeatFlux) {
  const materials::SaturatedWater water = materials::saturated_water(1e6);
  const double T = water.temperature, limit = 2.0 * critical_heat_flux(water, T - 40.0);
  // Last slope of the cube and first of the line are one, where the nucleate part is the limit.
  double lower = T, upper = T + 200.0;
  for (int i = 0; i < 100; ++i) {
    const double middle = 0.5 * (lower + upper);
    (wetted_flux(water, 0.0, middle, T - 40.0, 0.013).flux < limit ? lower : upper) = middle;
  }
  const double cube = wetted_flux(water, 0.0, lower - 1e-6, T - 40.0, 0.013).slope;
  EXPECT_NEAR(cube, 3.0 * limit / (lower - T), cube * 1e-6);
  EXPECT_NEAR(wetted_flux(water, 0.0, lower + 1000.0, T - 40.0, 0.013).slope, cube, cube * 1e-6);
}

TEST(SurfaceFlux, SlopesAreTheDerivatives) {
  for (const double pressure : {standard_atmosphere, 1e6, 10e6}) {
    const materials::SaturatedWater water = materials::saturated_water(pressure);
    for (double T_surface = water.temperature - 30.5; T_surface < 1500.0; T_surface += 7.0) {
      for (const double below : {0.0, 3.0, 60.0}) {
        const double T_fluid = water.temperature - below, step = 1e-3;
        const double wetted = (wetted_flux(water, 3e3, T_surface + step, T_fluid, 0.013).flux -
                               wetted_flux(water, 3e3, T_surface - step, T_fluid, 0.013).flux) /
                              (2.0 * step);
        const double film = (film_flux(water, T_surface + step, T_fluid, 0.013, 3e3).flux -
                             film_flux(water, T_surface - step, T_fluid, 0.013, 3e3).flux) /
                            (2.0 * step);
        // Chords of 2 mK: their rounding and third derivative leave 1e-5 of the slope and 0.01 W/m2K.
        EXPECT_NEAR(wetted_flux(water, 3e3, T_surface, T_fluid, 0.013).slope, wetted, 1e-2 + 1e-5 * wetted);
        EXPECT_NEAR(film_flux(water, T_surface, T_fluid, 0.013, 3e3).slope, film, 1e-2 + 1e-5 * film);
      }
    }
  }
}

TEST(FilmFlux, BalancesTheFilm) {
  // q^4 = q_l q^3 + a^4, radiation aside, with a from saturated fluid.
  const materials::SaturatedWater water = materials::saturated_water(1e6);
  const double T = water.temperature + 250.0;
  const double fourths = std::pow(T, 4) - std::pow(water.temperature, 4);
  const double radiation = 0.75 * 0.9 * 5.670374419e-8 * fourths;
  const double a = film_flux(water, T, water.temperature, 0.013, 2e3).flux - radiation;
  for (const double below : {1.0, 10.0, 40.0, 150.0}) {
    const double q = film_flux(water, T, water.temperature - below, 0.013, 2e3).flux - radiation,
                 q_l = 2e3 * below;
    EXPECT_NEAR((q_l * q * q * q + a * a * a * a) / (q * q * q * q), 1.0, 1e-12) << below;
    EXPECT_GT(q, a);
    EXPECT_GT(q, q_l);
  }
}

TEST(FilmFlux, NeverFallsAndIsHundredsOfWattsInSaturatedWater) {
  for (const double pressure : {standard_atmosphere, 1e6}) {
    const materials::SaturatedWater water = materials::saturated_water(pressure);
    for (const double below : {0.0, 50.0}) {
      double last = -1e300;
      for (double T = 200.0; T < 5000.0; T += 1.7) {
        const double flux = film_flux(water, T, water.temperature - below, 0.016, 2e3).flux;
        EXPECT_GE(flux, last) << T;
        last = flux;
      }
    }
    for (const double superheat : {150.0, 300.0, 500.0}) {
      const double h =
          film_flux(water, water.temperature + superheat, water.temperature, 0.016, 2e3).flux / superheat;
      EXPECT_GT(h, 200.0);
      EXPECT_LT(h, 500.0);
    }
  }
}

TEST(FilmFlux, OfALargeSurfaceIsBerensonsPlate) {
  // 0.425 (k^3 rho_v g drho h/(mu dT L))^1/4 against 0.62 (.../(mu dT D))^1/4 at D = 4.529 L; beyond it size
  // drops out.
  const materials::SaturatedWater water = materials::saturated_water(standard_atmosphere);
  const double length =
      std::sqrt(water.surface_tension / (standard_gravity * (water.liquid_density - water.vapour_density)));
  const double k = water.vapour_conductivity;
  const double plate = 0.425 * std::pow(k * k * k * water.vapour_density * standard_gravity *
                                            (water.liquid_density - water.vapour_density) *
                                            (water.latent_heat + 0.8 * water.vapour_heat_capacity * 200.0) /
                                            (water.vapour_viscosity * 200.0 * length),
                                        0.25);
  EXPECT_NEAR(bromley_convection(water, 200.0, 4.529 * length) / plate, 1.0, 1e-4);
  EXPECT_EQ(film_flux(water, 600.0, 373.0, 0.05, 1e3).flux, film_flux(water, 600.0, 373.0, 0.5, 1e3).flux);
}

TEST(FilmFlux, IsFarUnderTheWettedFluxAtTheRewetTemperature) {
  // What makes the two regimes a loop: at one surface temperature two fluxes.
  for (const double pressure : {standard_atmosphere, 1e6}) {
    const materials::SaturatedWater water = materials::saturated_water(pressure);
    for (const double below : {0.0, 50.0}) {
      const double T = rewet_temperature(water, water.temperature - below),
                   T_fluid = water.temperature - below;
      EXPECT_LT(film_flux(water, T, T_fluid, 0.016, 3e3).flux, 0.2 * critical_heat_flux(water, T_fluid));
      EXPECT_GT(wetted_flux(water, 3e3, T, T_fluid, 0.013).flux, critical_heat_flux(water, T_fluid));
    }
  }
}

TEST(RewetTemperature, LiesBetweenSaturationAndTheNucleationLimit) {
  for (double pressure = 5e3; pressure < 20e6; pressure *= 1.1) {
    const materials::SaturatedWater water = materials::saturated_water(pressure);
    const double rewet = rewet_temperature(water, water.temperature);
    EXPECT_GT(rewet, water.temperature + 1.0) << pressure;
    EXPECT_LT(rewet, 647.096) << pressure;
    EXPECT_GT(rewet_temperature(water, water.temperature - 30.0), rewet)
        << pressure;  // cold water wets sooner
  }
}

TEST(Boiling, IsTotalAndLetsNaNThrough) {
  const materials::SaturatedWater water = materials::saturated_water(1e6);
  for (const double T_surface : wild)
    for (const double T_fluid : wild)
      for (const double h : {-1e3, 0.0, 1e7})
        for (const double size : {-1.0, 0.0, 1e3}) {
          const SurfaceFlux wetted = wetted_flux(water, h, T_surface, T_fluid, size);
          const SurfaceFlux film = film_flux(water, T_surface, T_fluid, size, h);
          EXPECT_TRUE(std::isfinite(wetted.flux) && std::isfinite(wetted.slope))
              << T_surface << ' ' << T_fluid;
          EXPECT_TRUE(std::isfinite(film.flux) && std::isfinite(film.slope)) << T_surface << ' ' << T_fluid;
          EXPECT_GE(wetted.slope, 0.0);
          EXPECT_GE(film.slope, 0.0);
          EXPECT_TRUE(std::isfinite(critical_heat_flux(water, T_fluid)));
          EXPECT_TRUE(std::isfinite(rewet_temperature(water, T_fluid)));
        }
  EXPECT_TRUE(std::isnan(critical_heat_flux(water, nan)));
  EXPECT_TRUE(std::isnan(wetted_flux(water, 1e3, nan, 300.0, 0.013).flux));
  EXPECT_TRUE(std::isnan(wetted_flux(water, nan, 500.0, 300.0, 0.013).flux));
  EXPECT_TRUE(std::isnan(film_flux(water, nan, 300.0, 0.013, 1e3).flux));
  EXPECT_TRUE(std::isnan(film_flux(water, 700.0, nan, 0.013, 1e3).flux));
  EXPECT_TRUE(std::isnan(rewet_temperature(water, nan)));
  EXPECT_NE(testing::refusal([&] { return bromley_convection(water, 0.0, 0.01); }), "");
  EXPECT_NE(testing::refusal([&] { return bromley_convection(water, 100.0, nan); }), "");
}

}  // namespace
}  // namespace dullcast::thermal
