#include <gtest/gtest.h>

#include "models/common/constants.hpp"
#include "models/thermal/boiling.hpp"
#include "tools/proofs/handbook_setting.hpp"

// Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, examples 10.1 and 10.2 [hb, from memory].
namespace dullcast::published {
namespace {

using proofs::textbook_water;

TEST(CriticalHeatFlux, OfTheTextbooksPan) {
  const materials::SaturatedWater water = textbook_water();
  EXPECT_NEAR(thermal::critical_heat_flux(water, water.temperature), 1.26e6,
              0.005e6);  // half of the last figure printed
}

TEST(CriticalHeatFlux, OfSaturatedWaterAtOneAtmosphere) {
  const materials::SaturatedWater water = materials::saturated_water(standard_atmosphere);
  EXPECT_NEAR(thermal::critical_heat_flux(water, water.temperature), 1.26e6, 0.005e6);
}

TEST(CriticalHeatFlux, PeaksNearAThirdOfTheCriticalPressure) {
  // Cichelli & Bonilla 1945 [pub, from memory]: the greatest critical heat flux of many liquids, water among
  // them by theory, lies near a third of the critical pressure (22.064 MPa), between 0.3 and 0.4.
  const double at = proofs::pressure_of_greatest_critical_flux() / 22.064e6;
  EXPECT_GT(at, 0.3);
  EXPECT_LT(at, 0.4);
}

TEST(CriticalHeatFlux, SubcoolingFactorOfIveyAndMorris) {
  // 1 + 0.1 (957.9/0.5955)^0.75 4,217 x 20/2.257e6 = 1.9496, by hand.
  const materials::SaturatedWater water = textbook_water();
  EXPECT_NEAR(thermal::critical_heat_flux(water, water.temperature - 20.0) /
                  thermal::critical_heat_flux(water, water.temperature),
              1.9496, 5e-4);
}

TEST(NucleateBoiling, OfTheTextbooksPan) {
  // Polished copper at 118 C, C_sf 0.0128: 836 kW/m2 printed.
  const materials::SaturatedWater water = textbook_water();
  EXPECT_NEAR(thermal::wetted_flux(water, 0.0, celsius_zero + 118.0, water.temperature, 0.0128).flux, 836e3,
              0.5e3);
}

TEST(FilmBoiling, OfTheTextbooksCylinder) {
  // A cylinder of 6 mm at 255 C in saturated water at one atmosphere; steam at 450 K and one atmosphere from
  // table A.4: 238 W/m2K by convection printed.
  EXPECT_NEAR(thermal::bromley_convection(proofs::textbook_film(), 155.0, 0.006), 238.0, 0.5);
}

TEST(FilmBoiling, CarriesSteamToItsFilmTemperature) {
  // The same example by film_flux, with its own steam properties, less the radiation it adds. The textbook's
  // total of 254.1 W/m2K holds emissivity 1; 4.2 % as the header states of the steam, and 0.2 % of the
  // softened superheat.
  const materials::SaturatedWater water = materials::saturated_water(standard_atmosphere);
  const double T = water.temperature + 155.0;
  const double radiation =
      0.75 * 0.9 * 5.670374419e-8 *
      (T * T * T * T - water.temperature * water.temperature * water.temperature * water.temperature) / 155.0;
  EXPECT_NEAR((thermal::film_flux(water, T, water.temperature, 0.006, 5e3).flux / 155.0 - radiation) / 238.0,
              1.0, 0.045);
}

}  // namespace
}  // namespace dullcast::published
