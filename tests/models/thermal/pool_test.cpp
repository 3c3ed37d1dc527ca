#include "models/thermal/pool.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "models/common/constants.hpp"
#include "support/numbers.hpp"

namespace dullcast::thermal {
namespace {

using testing::nan;

TEST(Evaporation, SpendsSurplusHeatOnly) {
  EXPECT_EQ(evaporation_rate(2.257e6, 2.257e6), 1.0);
  EXPECT_EQ(evaporation_rate(-5e3, 2.257e6), 0.0);
  EXPECT_TRUE(std::isfinite(evaporation_rate(1e6, 0.0)));
  EXPECT_TRUE(std::isnan(evaporation_rate(nan, 2e6)));
}

TEST(Flooding, MeetsWallisWithEqualMassRates) {
  // The rate put back into j_g*^1/2 + j_f*^1/2 = 0.725 (Wallis 1969, m = 1).
  const materials::SaturatedWater water = materials::saturated_water(standard_atmosphere);
  const double area = 2e-3, diameter = 0.025, rate = flooding_steam_rate(water, area, diameter);
  const double scale = standard_gravity * diameter * (water.liquid_density - water.vapour_density);
  const double steam = rate / (water.vapour_density * area) * std::sqrt(water.vapour_density / scale);
  const double fall = rate / (water.liquid_density * area) * std::sqrt(water.liquid_density / scale);
  EXPECT_NEAR(std::sqrt(steam) + std::sqrt(fall), 0.725, 1e-12);
}

TEST(Flooding, GoesWithAreaAndRootOfDiameterAndRisesWithPressure) {
  const materials::SaturatedWater water = materials::saturated_water(standard_atmosphere);
  const double rate = flooding_steam_rate(water, 1e-3, 0.02);
  EXPECT_NEAR(flooding_steam_rate(water, 3e-3, 0.02) / rate, 3.0, 1e-12);
  EXPECT_NEAR(flooding_steam_rate(water, 1e-3, 0.08) / rate, 2.0, 1e-12);
  EXPECT_GT(flooding_steam_rate(materials::saturated_water(1e6), 1e-3, 0.02), 2.0 * rate);
  EXPECT_EQ(flooding_steam_rate(water, -1.0, 0.02), 0.0);
  EXPECT_EQ(flooding_steam_rate(water, 1.0, 0.0), 0.0);
}

TEST(Humidity, OfSaturatedAirAtRoomTemperature) {
  // ASHRAE Handbook Fundamentals, chapter 1: 0.014696 kg/kg at 20 C and 0.027329 at 30 C, 101.325 kPa [hb,
  // from memory]. The table holds the enhancement factor of real moist air, 0.5 %, and 0.62194 for 0.622.
  EXPECT_NEAR(saturated_humidity(celsius_zero + 20.0, standard_atmosphere) / 0.014696, 1.0, 0.006);
  EXPECT_NEAR(saturated_humidity(celsius_zero + 30.0, standard_atmosphere) / 0.027329, 1.0, 0.006);
}

TEST(Humidity, StaysFiniteAndNeverFalls) {
  for (const double pressure : {-1.0, 1e4, standard_atmosphere, 1e6}) {
    double last = 0.0;
    for (double T = -100.0; T < 2000.0; T += 0.37) {
      const double value = saturated_humidity(T, pressure);
      EXPECT_TRUE(std::isfinite(value));
      EXPECT_GE(value, last) << T;
      last = value;
    }
  }
  EXPECT_TRUE(std::isnan(saturated_humidity(nan, 1e5)));
}

TEST(MistCooling, IsTheLesserOfMistAndSaturation) {
  const double latent = 2.501e6 - 2361.0 * 90.0;
  // Hot: all the mist goes. At 90 C air could take up 1.4 kg/kg, seventy times the mist: the blend's error is
  // nothing.
  EXPECT_NEAR(mist_cooling(0.02, 1.0, celsius_zero + 90.0, 290.0, standard_atmosphere).flux, 0.02 * latent,
              1e-3);
  // Cool and plenty of mist: the air saturates, w(30 C) - w(20 C).
  const double gain = saturated_humidity(celsius_zero + 30.0, standard_atmosphere) -
                      saturated_humidity(celsius_zero + 20.0, standard_atmosphere);
  const double taken =
      mist_cooling(0.5, 0.3, celsius_zero + 30.0, celsius_zero + 20.0, standard_atmosphere).flux;
  EXPECT_NEAR(taken / (0.3 * gain * (2.501e6 - 2361.0 * 30.0)), 1.0, 1e-6);
}

TEST(MistCooling, IsNothingAtOrBelowTheInlet) {
  for (const double T : {-50.0, 280.0, 290.0}) {
    EXPECT_EQ(mist_cooling(0.02, 0.3, T, 290.0, standard_atmosphere).flux, 0.0);
    EXPECT_EQ(mist_cooling(0.02, 0.3, T, 290.0, standard_atmosphere).slope, 0.0);
  }
  EXPECT_EQ(mist_cooling(0.0, 0.3, 350.0, 290.0, standard_atmosphere).flux, 0.0);
  EXPECT_EQ(mist_cooling(0.02, 0.0, 350.0, 290.0, standard_atmosphere).flux, 0.0);
  EXPECT_LT(mist_cooling(0.02, 0.3, 290.001, 290.0, standard_atmosphere).slope, 10.0);  // C1 at the inlet
}

TEST(MistCooling, SlopeIsTheDerivative) {
  for (const double mist : {1e-3, 0.02, 1.0})
    for (double T = 290.2; T < 420.0; T += 0.9) {
      const double step = 1e-4;
      const double chord = (mist_cooling(mist, 0.3, T + step, 290.0, standard_atmosphere).flux -
                            mist_cooling(mist, 0.3, T - step, 290.0, standard_atmosphere).flux) /
                           (2.0 * step);
      EXPECT_NEAR(mist_cooling(mist, 0.3, T, 290.0, standard_atmosphere).slope, chord,
                  0.05 + 1e-5 * std::abs(chord));  // rounding of the chord
    }
}

TEST(MistCooling, IsTotalAndLetsNaNThrough) {
  for (const double mist : {-1.0, 0.0, 1e-300, 1e9})
    for (const double air : {-1.0, 0.0, 1e-300, 1e9})
      for (const double T : {-1e9, 0.0, 300.0, 1e9})
        for (const double pressure : {-1.0, 1e5, 1e9}) {
          const SurfaceFlux flux = mist_cooling(mist, air, T, 290.0, pressure);
          EXPECT_TRUE(std::isfinite(flux.flux) && std::isfinite(flux.slope));
          EXPECT_GE(flux.flux, 0.0);
        }
  EXPECT_TRUE(std::isnan(mist_cooling(0.1, 0.1, nan, 290.0, 1e5).flux));
  EXPECT_TRUE(std::isnan(mist_cooling(nan, 0.1, 330.0, 290.0, 1e5).flux));
  EXPECT_TRUE(std::isnan(mist_cooling(0.1, 0.1, 330.0, 290.0, nan).flux));
}

}  // namespace
}  // namespace dullcast::thermal
