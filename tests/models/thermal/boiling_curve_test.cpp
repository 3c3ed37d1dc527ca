#include "models/thermal/boiling_curve.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace dullcast::thermal {
namespace {

constexpr double surface_factor = 0.0128, size = 0.016;

BoilingFlux at(const materials::SaturatedWater& water, double T, double T_fluid, double h) {
  return boiling_flux(water, nucleation(water, T_fluid, surface_factor), h, T, size,
                      critical_heat_flux(water, T_fluid));
}

TEST(BoilingCurve, IsWettedFluxUpToTheCriticalFluxAndFilmPastRewetting) {
  for (const double pressure : {101325.0, 1e6, 5e6}) {
    const materials::SaturatedWater water = materials::saturated_water(pressure);
    for (const double below : {0.0, 5.0, 60.0}) {
      const double T_fluid = water.temperature - below, h = 3000.0;
      const double critical = critical_heat_flux(water, T_fluid), rewets = rewet_temperature(water, T_fluid);
      bool nucleate = false, transition = false, film = false;
      for (double T = T_fluid - 20.0; T < rewets + 300.0; T += 0.5) {
        const BoilingFlux flux = at(water, T, T_fluid, h);
        const SurfaceFlux wet = wetted_flux(water, h, T, T_fluid, surface_factor);
        switch (flux.regime) {
          case BoilingRegime::single_phase:
            EXPECT_LE(T, water.temperature);
            EXPECT_EQ(flux.out.flux, h * (T - T_fluid));
            break;
          case BoilingRegime::nucleate:
            // The last half kelvin before the critical flux is rounded.
            if (wetted_flux(water, h, T + 0.5, T_fluid, surface_factor).flux <= critical) {
              EXPECT_EQ(flux.out.flux, wet.flux);
            }
            EXPECT_LE(flux.out.flux, wet.flux);
            EXPECT_LE(flux.out.flux, critical);
            nucleate = true;
            break;
          case BoilingRegime::transition:
            EXPECT_GT(wet.flux, critical);
            EXPECT_LT(T, rewets);
            EXPECT_LE(flux.out.flux, critical);
            if (wetted_flux(water, h, T - 0.5, T_fluid, surface_factor).flux >= critical) {
              EXPECT_LE(flux.out.slope, 0.0);
            }
            transition = true;
            break;
          case BoilingRegime::film:
            EXPECT_GE(T, rewets);
            EXPECT_EQ(flux.out.flux, film_flux(water, T, T_fluid, size, h).flux);
            film = true;
            break;
        }
      }
      EXPECT_TRUE(nucleate && transition && film) << pressure << " " << below;
    }
  }
}

// How far past its peak a surface is: two of them differ by what lies between them, and the flux is greatest
// where it begins, to the half kelvin over which the peak is rounded.
TEST(BoilingCurve, TellsHowFarPastItsPeakASurfaceIs) {
  const materials::SaturatedWater water = materials::saturated_water(2e5);
  const double T_fluid = water.temperature - 30.0, h = 4000.0;
  double greatest = 0.0, T_greatest = 0.0;
  for (double T = water.temperature; T < water.temperature + 100.0; T += 0.01) {
    const double flux = at(water, T, T_fluid, h).out.flux;
    if (flux > greatest) greatest = flux, T_greatest = T;
  }
  EXPECT_NEAR(at(water, T_greatest + 5.0, T_fluid, h).past_peak, 5.0, 0.5);
  EXPECT_NEAR(
      at(water, T_greatest + 8.0, T_fluid, h).past_peak - at(water, T_greatest + 5.0, T_fluid, h).past_peak,
      3.0, 1e-6);
  EXPECT_EQ(at(water, T_greatest - 2.0, T_fluid, h).past_peak, 0.0);
  EXPECT_EQ(at(water, rewet_temperature(water, T_fluid) + 20.0, T_fluid, h).past_peak, 0.0);
}

// How far a surface is from a film: differences are what lies between two of them, on both sides of where the
// film begins, which is where the regime changes; a wetted surface is further than any.
TEST(BoilingCurve, TellsHowFarFromAFilmASurfaceIs) {
  const materials::SaturatedWater water = materials::saturated_water(2e5);
  const double T_fluid = water.temperature - 30.0, h = 4000.0;
  double begins = water.temperature;
  while (at(water, begins, T_fluid, h).regime != BoilingRegime::film) begins += 0.01;
  for (const double apart : {-20.0, -5.0, -0.02, 5.0, 60.0}) {
    const BoilingFlux there = at(water, begins + apart, T_fluid, h);
    EXPECT_NEAR(there.past_film, apart, 0.0101) << apart;
    EXPECT_EQ(there.regime, apart < 0.0 ? BoilingRegime::transition : BoilingRegime::film) << apart;
  }
  EXPECT_EQ(at(water, water.temperature - 1.0, T_fluid, h).past_film, far_from_film);
  EXPECT_EQ(at(water, water.temperature + 1.0, T_fluid, h).past_film, far_from_film);
  EXPECT_LT(far_from_film, water.temperature - begins);
}

// A bed that dries out has its film from its peak on.
TEST(BoilingCurve, ABedsFilmBeginsAtItsPeak) {
  const materials::SaturatedWater water = materials::saturated_water(2e5);
  const Nucleation wetted = nucleation(water, water.temperature - 30.0, surface_factor);
  const double h_bed = 200.0, h_dry = 40.0, dry_out = 1.5e5;
  const auto bed = [&](double T) { return bed_flux(water, wetted, h_bed, h_dry, T, dry_out); };
  double begins = water.temperature;
  while (bed(begins).regime != BoilingRegime::film) begins += 0.01;
  EXPECT_NEAR(bed(begins + 3.0).past_film, 3.0, 0.0101);
  EXPECT_EQ(bed(begins + 3.0).past_film, bed(begins + 3.0).past_peak);
  EXPECT_NEAR(bed(begins - 0.02).past_film, -0.02, 0.0101);
  EXPECT_EQ(bed(begins - 2.0).past_film, far_from_film);
}

// Steps of a millikelvin: the flux may move by its slope, and by no more than twice the steepest on the
// curve.
TEST(BoilingCurve, IsContinuousAndItsSlopeIsItsDerivative) {
  const materials::SaturatedWater water = materials::saturated_water(2e5);
  const double T_fluid = water.temperature - 30.0, h = 4000.0, step = 1e-3;
  double steepest = 0.0;
  for (double T = T_fluid; T < water.temperature + 400.0; T += 1.0)
    steepest = std::max(steepest, std::abs(at(water, T, T_fluid, h).out.slope));
  for (double T = T_fluid; T < water.temperature + 400.0; T += 0.317) {
    const BoilingFlux low = at(water, T - step, T_fluid, h), mid = at(water, T, T_fluid, h),
                      high = at(water, T + step, T_fluid, h);
    EXPECT_LE(std::abs(high.out.flux - low.out.flux), 2.0 * step * 2.0 * steepest) << T;
    if (low.regime != high.regime) continue;
    const double slope = (high.out.flux - low.out.flux) / (2.0 * step);
    EXPECT_NEAR(mid.out.slope, slope, 1e-5 * steepest) << T;
  }
}

// Around the peak: value and slope have no step, and no more than three hundredths of the peak are rounded
// off.
TEST(BoilingCurve, IsRoundedAtItsPeak) {
  const materials::SaturatedWater water = materials::saturated_water(2e5);
  for (const double below : {0.0, 30.0, 80.0}) {
    const double T_fluid = water.temperature - below, h = 4000.0, step = 1e-4;
    const double critical = critical_heat_flux(water, T_fluid);
    double T_c = water.temperature, greatest = 0.0;
    while (wetted_flux(water, h, T_c, T_fluid, surface_factor).flux < critical) T_c += 1e-3;
    double last = at(water, T_c - 1.0, T_fluid, h).out.slope;
    // From the rise's slope to the fall's over a kelvin: a cubic bends by no more than six times their
    // difference.
    const double bend = 6.0 * (last - at(water, T_c + 1.0, T_fluid, h).out.slope);
    for (double T = T_c - 1.0 + step; T < T_c + 1.0; T += step) {
      const BoilingFlux flux = at(water, T, T_fluid, h);
      ASSERT_LE(std::abs(flux.out.slope - last), bend * step) << T - T_c;
      last = flux.out.slope;
      greatest = std::max(greatest, flux.out.flux);
    }
    EXPECT_LT(greatest, critical);
    EXPECT_GT(greatest, 0.97 * critical) << below;
  }
}

// Nukiyama's experiment [hb: Incropera & DeWitt, section 10.3]: at a flux above the critical one only the
// film is left, hundreds of kelvins hotter; below it the wetted branch holds.
TEST(BoilingCurve, JustAboveTheCriticalFluxOnlyAFarHotterFilmIsLeft) {
  const materials::SaturatedWater water = materials::saturated_water(101325.0);
  const double T_fluid = water.temperature, critical = critical_heat_flux(water, T_fluid);
  double hottest_below = 0.0, first_above = 0.0;
  for (double T = T_fluid; T < 3000.0 && first_above == 0.0; T += 0.25) {
    const double flux = at(water, T, T_fluid, 500.0).out.flux;
    if (flux < critical && T < water.temperature + 60.0) hottest_below = T;
    if (flux > 1.001 * critical) first_above = T;
  }
  EXPECT_GT(first_above - hottest_below, 500.0);
}

TEST(BoilingCurve, LessCriticalFluxMovesTheFallToLowerTemperature) {
  const materials::SaturatedWater water = materials::saturated_water(101325.0);
  const double T = water.temperature + 18.0;
  const double critical = critical_heat_flux(water, water.temperature);
  const auto full =
      boiling_flux(water, nucleation(water, water.temperature, surface_factor), 200.0, T, size, critical);
  const auto tenth = boiling_flux(water, nucleation(water, water.temperature, surface_factor), 200.0, T, size,
                                  0.1 * critical);
  EXPECT_EQ(full.regime, BoilingRegime::nucleate);
  EXPECT_EQ(tenth.regime, BoilingRegime::transition);
  EXPECT_LT(tenth.out.flux, 0.1 * critical);
}

// It has no step at the rewetting temperature, where the film takes over, nor at the critical flux; and where
// the caller leaves less than the stream alone takes, the critical flux counts as a fifth above that.
TEST(BoilingCurve, FallsOntoTheFilmsFluxAndFromNoLessThanAFifthAboveTheStreams) {
  const materials::SaturatedWater water = materials::saturated_water(101325.0);
  const double T_fluid = 300.0, h = 3000.0, rewets = rewet_temperature(water, T_fluid);
  const auto flux = [&](double T, double critical) {
    return boiling_flux(water, nucleation(water, T_fluid, surface_factor), h, T, size, critical);
  };
  const double critical = critical_heat_flux(water, T_fluid);
  ASSERT_EQ(flux(rewets, critical).regime, BoilingRegime::film);
  ASSERT_EQ(flux(rewets - 1e-6, critical).regime, BoilingRegime::transition);
  EXPECT_NEAR(flux(rewets - 1e-6, critical).out.flux / flux(rewets, critical).out.flux, 1.0, 1e-6);
  const auto in_bed = [&](double T) {
    return bed_flux(water, nucleation(water, T_fluid, surface_factor), 200.0, 40.0, T, 1.5e5);
  };
  const double bed_rewets = rewet_temperature(water, water.temperature);
  EXPECT_NEAR(in_bed(bed_rewets - 1e-6).out.flux / in_bed(bed_rewets).out.flux, 1.0, 1e-6);
  double greatest = 0.0;
  for (double T = water.temperature; T < 500.0; T += 1e-3)
    greatest = std::max(greatest, flux(T, 0.0).out.flux);
  // Less what the peak's rounding takes.
  EXPECT_LT(greatest / (h * (water.temperature - T_fluid)), 1.2);
  EXPECT_GT(greatest / (h * (water.temperature - T_fluid)), 1.2 * 0.97);
}

TEST(BoilingCurve, IsTotalAndLetsANaNThrough) {
  const materials::SaturatedWater water = materials::saturated_water(101325.0);
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double T : {-1e4, 0.0, 300.0, 400.0, 2000.0, 1e5}) {
    for (const double T_fluid : {250.0, 350.0, 700.0}) {
      const BoilingFlux flux =
          boiling_flux(water, nucleation(water, T_fluid, surface_factor), 1e4, T, size, 0.0);
      EXPECT_TRUE(std::isfinite(flux.out.flux) && std::isfinite(flux.out.slope)) << T << " " << T_fluid;
    }
  }
  EXPECT_TRUE(std::isnan(at(water, nan, 350.0, 1e3).out.flux));
  EXPECT_TRUE(std::isnan(
      boiling_flux(water, nucleation(water, nan, surface_factor), 1e3, 500.0, size, 1e6).out.flux));
}

// A rough surface reaches the critical flux only above the rewetting temperature: it still falls from the one
// flux to the other over ten kelvins, and does not leap.
TEST(BoilingCurve, FallsFromTheCriticalFluxOverTenKelvinsAtLeast) {
  const materials::SaturatedWater water = materials::saturated_water(101325.0);
  const double T_fluid = water.temperature - 5.0, critical = critical_heat_flux(water, T_fluid);
  const Nucleation rough = nucleation(water, T_fluid, 10.0 * surface_factor);
  double first = 0.0, last = 0.0;
  for (double T = water.temperature; T < 1500.0; T += 0.01) {
    const BoilingFlux flux = boiling_flux(water, rough, 3000.0, T, size, critical);
    if (flux.regime != BoilingRegime::transition) continue;
    if (first == 0.0) first = T;
    last = T;
  }
  ASSERT_GT(first, rewet_temperature(water, T_fluid)) << "the case that is meant";
  EXPECT_NEAR(last - first, 10.0, 0.03);
}

constexpr double h_bed = 230.0, h_dry = 40.0, dry_out = 1.5e5;

BoilingFlux in_bed(const materials::SaturatedWater& water, double T, double T_fluid) {
  return bed_flux(water, nucleation(water, T_fluid, surface_factor), h_bed, h_dry, T, dry_out);
}

TEST(BedFlux, NeverPassesWhatTheBedLetsThroughUntilItIsDryAndHot) {
  const materials::SaturatedWater water = materials::saturated_water(101325.0);
  const double rewets = rewet_temperature(water, water.temperature);
  for (double T = water.temperature; T < rewets; T += 0.5)
    EXPECT_LE(in_bed(water, T, 300.0).out.flux, dry_out);
  EXPECT_EQ(in_bed(water, rewets + 1.0, 300.0).regime, BoilingRegime::film);
}

// A surface in grains that steam fills loses no more than they conduct: a tenth of what a film gives off.
TEST(BedFlux, DriedOutItIsConductionOnly) {
  const materials::SaturatedWater water = materials::saturated_water(101325.0);
  const double T = 900.0;
  EXPECT_NEAR(in_bed(water, T, water.temperature).out.flux, h_dry * (T - water.temperature), 1e-9);
  EXPECT_EQ(in_bed(water, T, water.temperature).out.slope, h_dry);
  EXPECT_LT(in_bed(water, T, water.temperature).out.flux,
            0.3 * film_flux(water, T, water.temperature, size, h_bed).flux);
}

TEST(BedFlux, IsWettedConductionBelowSaturation) {
  const materials::SaturatedWater water = materials::saturated_water(101325.0);
  EXPECT_EQ(in_bed(water, 350.0, 300.0).out.flux, h_bed * 50.0);
}

TEST(BedFlux, IsContinuousAndItsSlopeIsItsDerivative) {
  const materials::SaturatedWater water = materials::saturated_water(2e5);
  const double T_fluid = water.temperature - 30.0, step = 1e-3;
  double steepest = 0.0;
  for (double T = T_fluid; T < water.temperature + 400.0; T += 0.5)
    steepest = std::max(steepest, std::abs(in_bed(water, T, T_fluid).out.slope));
  for (double T = T_fluid; T < water.temperature + 400.0; T += 0.317) {
    const BoilingFlux low = in_bed(water, T - step, T_fluid), high = in_bed(water, T + step, T_fluid);
    EXPECT_LE(std::abs(high.out.flux - low.out.flux), 2.0 * step * 2.0 * steepest) << T;
    if (low.regime != high.regime) continue;
    EXPECT_NEAR(in_bed(water, T, T_fluid).out.slope, (high.out.flux - low.out.flux) / (2.0 * step),
                1e-5 * steepest)
        << T;
  }
}

TEST(BedFlux, IsTotalAndLetsANaNThrough) {
  const materials::SaturatedWater water = materials::saturated_water(101325.0);
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double T : {-1e4, 0.0, 300.0, 400.0, 2000.0, 1e5}) {
    for (const double T_fluid : {250.0, 350.0, 700.0}) {
      const BoilingFlux flux =
          bed_flux(water, nucleation(water, T_fluid, surface_factor), h_bed, h_dry, T, 1.0);
      EXPECT_TRUE(std::isfinite(flux.out.flux) && std::isfinite(flux.out.slope)) << T << " " << T_fluid;
    }
  }
  EXPECT_TRUE(std::isnan(in_bed(water, nan, 350.0).out.flux));
}

}  // namespace
}  // namespace dullcast::thermal
