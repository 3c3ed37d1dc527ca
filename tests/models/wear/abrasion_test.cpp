#include "models/wear/abrasion.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "models/common/constants.hpp"
#include "models/geometry/wear_flat.hpp"

namespace dullcast::wear {
namespace {

AbrasionLaw made_law() {
  return {1e-17, 1.5, 150.0, 350.0 + celsius_zero, 100.0};
}

TEST(Abrasion, AccelerationIsOneWhenColdContinuousAndCapped) {
  const AbrasionLaw law = made_law();
  EXPECT_EQ(heat_acceleration(law, 290.0), 1.0);
  EXPECT_EQ(heat_acceleration(law, 350.0 + celsius_zero), 1.0);
  EXPECT_NEAR(heat_acceleration(law, 350.0 + celsius_zero + 1e-6), 1.0, 1.1e-8);
  EXPECT_NEAR(heat_acceleration(law, 450.0 + celsius_zero), std::exp(1.0), 1e-12);
  EXPECT_NEAR(heat_acceleration(law, 650.0 + celsius_zero), std::exp(3.0), 1e-11);
  // exp(x) = 150 at 501.06 K over; never more, however hot, so that diamond never wears faster than carbide.
  const double cap = 350.0 + celsius_zero + 100.0 * std::log(150.0);
  EXPECT_NEAR(heat_acceleration(law, cap - 1e-6), 150.0, 1e-5);
  for (const double T : {cap, cap + 100.0, 5000.0, 1e300})
    EXPECT_NEAR(heat_acceleration(law, T), 150.0, 1e-10);
  double before = 0.0;
  for (double T = 250.0; T < 2000.0; T += 1.0) {
    ASSERT_GE(heat_acceleration(law, T), before);
    before = heat_acceleration(law, T);
  }
  EXPECT_TRUE(std::isnan(heat_acceleration(law, std::numeric_limits<double>::quiet_NaN())));
}

TEST(Abrasion, CoefficientFollowsRockGradeAndHeat) {
  const AbrasionLaw law = made_law();
  EXPECT_NEAR(diamond_wear_coefficient(law, 1.0, 1.0, 300.0, false) / 1e-17, 1.0, 1e-12);
  EXPECT_NEAR(diamond_wear_coefficient(law, 4.0, 1.0, 300.0, false) / 8e-17, 1.0, 1e-12);
  EXPECT_NEAR(diamond_wear_coefficient(law, 4.0, 2.0, 300.0, false) / 4e-17, 1.0, 1e-12);
  EXPECT_NEAR(diamond_wear_coefficient(law, 1.0, 1.0, 450.0 + celsius_zero, false) / 1e-17, std::exp(1.0),
              1e-12);
  // A ruined table wears as carbide does.
  EXPECT_NEAR(diamond_wear_coefficient(law, 1.0, 1.0, 300.0, true) / 1e-17, 150.0, 1e-10);
}

TEST(Abrasion, CarbideTakesPressureAsItResistsWear) {
  const AbrasionLaw law = made_law();
  EXPECT_NEAR(carbide_pressure_share(law, 300.0, 0.0, false), 1.0 / 150.0, 1e-15);
  EXPECT_NEAR(carbide_pressure_share(law, 450.0 + celsius_zero, 0.0, false), std::exp(1.0) / 150.0, 1e-14);
  EXPECT_NEAR(carbide_pressure_share(law, 3000.0, 0.0, false), 1.0, 1e-12);
  EXPECT_EQ(carbide_pressure_share(law, 300.0, 0.0, true), 1.0);
}

// Rock that springs back behind the diamond presses on the carbide whatever their wear.
TEST(Abrasion, CarbideTakesItsLeastShareWhileColdAndMoreWhenHot) {
  AbrasionLaw law = made_law();
  law.carbide_load_least = 0.1;
  EXPECT_EQ(carbide_pressure_share(law, 300.0, 0.0, false), 0.1);
  const double meets = 350.0 + celsius_zero + 100.0 * std::log(15.0);  // where diamond wears 15 times as fast
  EXPECT_EQ(carbide_pressure_share(law, meets - 1.0, 0.0, false), 0.1);
  EXPECT_NEAR(carbide_pressure_share(law, meets + 10.0, 0.0, false), 0.1 * std::exp(0.1), 1e-12);
  EXPECT_EQ(carbide_pressure_share(law, 300.0, 0.0, true), 1.0);
  law.carbide_load_least = 5.0;  // never more than the diamond's
  EXPECT_EQ(carbide_pressure_share(law, 300.0, 0.0, false), 1.0);
}

// The grinding ratio of turning tests: volume of rock cut per volume of diamond lost is 1/(kappa w eps),
// whatever the speed, the cut and the flat.
TEST(Abrasion, CuttingLosesOneVolumeOfDiamondPerSoMuchRock) {
  AbrasionLaw law = made_law();
  law.cutting_share = 2.0;
  const double w = 8e-17, eps = 200e6, theta = 0.3;
  for (const double area_of_cut : {0.1e-6, 3e-6}) {
    for (const double flat : {2e-6, 20e-6}) {
      for (const double v : {0.1, 2.0}) {
        const double rate = cutting_wear_rate(law, w, eps, area_of_cut, v, flat, theta);
        const double diamond = rate * flat * std::cos(theta), rock = area_of_cut * v;
        EXPECT_NEAR(rock / diamond * (2.0 * w * eps), 1.0, 1e-12);
      }
    }
  }
  EXPECT_EQ(cutting_wear_rate(law, w, eps, 0.0, 1.0, 0.0, theta), 0.0);
  law.cutting_share = 0.0;
  EXPECT_EQ(cutting_wear_rate(law, w, eps, 1e-6, 1.0, 1e-6, theta), 0.0);
}

// Leached and cobalt-bearing diamond in one flat: pressures p_l and p_c that wear both alike and carry the
// mean.
TEST(Abrasion, PartsOfAFlatRecedeTogether) {
  AbrasionLaw law = made_law();
  law.leached_acceleration_temperature = 650.0 + celsius_zero;
  for (const double T : {300.0, 750.0, 900.0, 1000.0, 1300.0}) {
    const double g = heat_acceleration(law, T);
    const double g_l = T < law.leached_acceleration_temperature
                           ? 1.0
                           : std::min(150.0, std::exp((T - law.leached_acceleration_temperature) / 100.0));
    for (const double share : {0.1, 0.6, 1.0}) {
      const double recedes = flat_acceleration(law, T, share);
      const double p_l = recedes / g_l, p_c = recedes / g;  // of the mean pressure
      EXPECT_NEAR(share * p_l + (1.0 - share) * p_c, 1.0, 1e-12) << T << " " << share;
    }
    EXPECT_EQ(flat_acceleration(law, T, 0.0), g);
  }
  EXPECT_EQ(flat_acceleration(law, 600.0, 0.5), 1.0) << "cool diamond wears as it did";
}

TEST(Abrasion, WornHeightRateIsArchardsLawOnTheFlat) {
  // dV_d/dt = w_d F_d v with F_d = sigma_c A_d on a mobilised flat (Archard; Glowka, SPE 14222, 1985): the
  // volume is that of the worn cylinder, followed over a short time.
  const double a = 8e-3, l = 13e-3, t = 2e-3, w = 3e-17, sigma = 90e6, v = 0.9;
  for (const double theta : {0.09, 0.26, 0.44}) {
    for (const double u : {1e-5, 3e-4, 1e-3, 3e-3}) {
      const double rate = worn_height_rate(w, sigma, 1.0, v, theta);
      const double time = 1e-4 * u / rate;  // a ten-thousandth of the wear so far, each way
      const double volume_rate = (geometry::wear_flat(a, l, t, theta, u + rate * time).diamond_volume -
                                  geometry::wear_flat(a, l, t, theta, u - rate * time).diamond_volume) /
                                 (2.0 * time);
      const double force = sigma * geometry::wear_flat(a, l, t, theta, u).diamond_area;
      // Central difference: (1e-4)^2 of the third derivative, and 1e-14 of rounding over 1e-4.
      EXPECT_NEAR(volume_rate / (w * force * v), 1.0, 1e-7) << theta << " " << u;
    }
  }
}

TEST(Abrasion, DiamondAndCarbideRecedeTogether) {
  // The pressure p_c on carbide is the share of the diamond's that makes both recede alike: w_c p_c = w_d
  // p_d.
  const AbrasionLaw law = made_law();
  const double w_carbide = law.coefficient * law.carbide_ratio;
  for (const double T : {300.0, 700.0, 800.0, 950.0}) {
    const double w_diamond = diamond_wear_coefficient(law, 1.0, 1.0, T, false);
    EXPECT_NEAR(w_carbide * carbide_pressure_share(law, T, 0.0, false) / w_diamond, 1.0, 1e-12) << T;
  }
}

TEST(Abrasion, WearOfAMobilisedFlatDoesNotAskForTheWeight) {
  // So wear per metre drilled falls as depth of cut grows (J. Energy Resour. Technol. 116, 1994, 268: wear
  // per mass of rock falls with depth of cut [pub]): worn height per metre is rate/(d N), with the rate
  // unchanged.
  const double N = 1.5, v = two_pi * N * 0.09, rate = worn_height_rate(1e-17, 90e6, 1.0, v, 0.26);
  EXPECT_EQ(worn_height_rate(1e-17, 90e6, 0.0, v, 0.26), 0.0);
  EXPECT_NEAR(worn_height_rate(1e-17, 90e6, 0.5, v, 0.26), 0.5 * rate, 1e-25);
  EXPECT_NEAR(worn_height_rate(1e-17, 90e6, 1.0, 2.0 * v, 0.26), 2.0 * rate, 1e-25);
  EXPECT_NEAR(rate, 1e-17 * 90e6 * v / std::cos(0.26), 1e-22);
}

}  // namespace
}  // namespace dullcast::wear
