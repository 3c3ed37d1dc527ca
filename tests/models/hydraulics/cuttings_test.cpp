#include "models/hydraulics/cuttings.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "models/common/constants.hpp"
#include "support/numbers.hpp"

namespace dullcast::hydraulics {
namespace {

using testing::infinity;
using testing::nan;
const materials::Fluid water{998.2, 1.002e-3, 0.6, 4180.0};
const materials::Fluid air{1.2, 1.8e-5, 0.025, 1005.0};

TEST(SlipVelocity, IsStokesLawWhenSmall) {
  // (rho_p - rho_f) g D^2/(18 mu) [hb]; drag of the moving fluid adds 0.06 % at 2 micrometres in water.
  const double D = 2e-6;
  EXPECT_NEAR(
      slip_velocity(water, 2650.0, D) / ((2650.0 - 998.2) * standard_gravity * D * D / (18.0 * 1.002e-3)),
      1.0, 1e-3);
}

TEST(SlipVelocity, IsNewtonsLawWithADragCoefficientOfOneWhenLarge) {
  // sqrt(4 g D (rho_p/rho_f - 1)/(3 C_d)) [hb]; what viscosity takes falls as D^-3/2: 2e-5 at half a metre.
  const double D = 0.5;
  EXPECT_NEAR(
      slip_velocity(water, 2650.0, D) / std::sqrt(4.0 / 3.0 * standard_gravity * D * (2650.0 / 998.2 - 1.0)),
      1.0, 5e-5);
}

TEST(SlipVelocity, BalancesWeightAndDragOfTheCurveItStandsFor) {
  // The paper's form is a drag coefficient of (2 C_1/sqrt(3 Re) + sqrt(C_2))^2 at the grain's own Re = v
  // D/nu.
  for (double D = 1e-5; D < 0.05; D *= 1.5) {
    const double v = slip_velocity(water, 2500.0, D), reynolds = 998.2 * v * D / 1.002e-3;
    // From g D^2 = v (C_1 nu + sqrt(0.75 C_2 g D^3)): solve the quadratic for sqrt(g D/v^2).
    const double y = 0.5 * (std::sqrt(0.75) + std::sqrt(0.75 + 72.0 / reynolds));
    const double drag_coefficient = 4.0 / 3.0 * y * y;
    const double weight = pi / 6.0 * D * D * D * (2500.0 - 998.2) * standard_gravity;
    const double drag = drag_coefficient * 0.25 * pi * D * D * 0.5 * 998.2 * v * v;
    EXPECT_NEAR(drag / weight, 1.0, 1e-12) << D;
  }
}

TEST(SlipVelocity, RisesWithSizeAndDensityAndFallsWithViscosity) {
  double last = 0.0;
  for (double D = 1e-6; D < 1.0; D *= 1.2) {
    const double v = slip_velocity(water, 2600.0, D);
    EXPECT_GT(v, last);
    last = v;
    EXPECT_GT(slip_velocity(water, 2700.0, D), v);
    EXPECT_LT(slip_velocity({998.2, 5e-3, 0.6, 4180.0}, 2600.0, D), v);
    EXPECT_GT(slip_velocity(air, 2600.0, D), v);
  }
}

TEST(SlipVelocity, IsTotal) {
  EXPECT_EQ(slip_velocity(water, 2600.0, 0.0), 0.0);
  EXPECT_EQ(slip_velocity(water, 2600.0, -1.0), 0.0);
  EXPECT_EQ(slip_velocity(water, 900.0, 1e-3), 0.0);
  EXPECT_EQ(slip_velocity(materials::Fluid{998.2, 0.0, 0.6, 4180.0}, 2600.0, 0.0), 0.0);
  EXPECT_TRUE(std::isfinite(slip_velocity(water, 2600.0, 1e300)));
  EXPECT_TRUE(std::isfinite(slip_velocity(materials::Fluid{}, 2600.0, 1e-3)));
  EXPECT_TRUE(std::isnan(slip_velocity(water, 2600.0, nan)));
  EXPECT_TRUE(std::isnan(slip_velocity(water, nan, 1e-3)));
}

TEST(SizeLifted, IsTheInverseOfSlip) {
  for (const materials::Fluid& fluid :
       {water, air, materials::Fluid{1100.0, 0.03, 0.6, 4000.0}, materials::Fluid{998.2, 0.0, 0.6, 4180.0}}) {
    for (double D = 1e-7; D < 10.0; D *= 1.4)
      EXPECT_NEAR(size_lifted(fluid, 2600.0, slip_velocity(fluid, 2600.0, D)) / D, 1.0, 1e-13) << D;
  }
}

TEST(SizeLifted, IsTotal) {
  EXPECT_EQ(size_lifted(water, 2600.0, 0.0), 0.0);
  EXPECT_EQ(size_lifted(water, 2600.0, -3.0), 0.0);
  EXPECT_EQ(size_lifted(water, 998.0, 0.1), infinity);  // floats
  EXPECT_EQ(size_lifted(water, 998.0, 0.0), 0.0);
  EXPECT_TRUE(std::isfinite(size_lifted(water, 2600.0, 1e300)));
  EXPECT_TRUE(std::isnan(size_lifted(water, 2600.0, nan)));
}

TEST(ShareFiner, IsRosinAndRammlersLaw) {
  EXPECT_NEAR(share_finer(1e-3, 1e-3, 1.0), 1.0 - std::exp(-1.0), 1e-15);
  EXPECT_NEAR(share_finer(1e-3, 1e-3, 3.0), 1.0 - std::exp(-1.0), 1e-15);  // whatever the spread
  EXPECT_NEAR(share_finer(std::log(2.0) * 1e-3, 1e-3, 1.0), 0.5, 1e-15);   // median of the exponential
  EXPECT_NEAR(share_finer(2e-3, 1e-3, 2.0), 1.0 - std::exp(-4.0), 1e-15);
  EXPECT_EQ(share_finer(0.0, 1e-3, 1.0), 0.0);
  EXPECT_EQ(share_finer(-1.0, 1e-3, 1.0), 0.0);
  EXPECT_EQ(share_finer(infinity, 1e-3, 1.0), 1.0);
  EXPECT_TRUE(std::isfinite(share_finer(1e-3, 0.0, -1.0)));
  EXPECT_TRUE(std::isnan(share_finer(nan, 1e-3, 1.0)));
  EXPECT_TRUE(std::isnan(share_finer(1e-3, nan, 1.0)));
  EXPECT_TRUE(std::isnan(share_finer(1e-3, 1e-3, nan)));
}

TEST(CuttingsSize, OrdinarySettingsGiveAFractionOfAMillimetreToTwo) {
  // Common practice: most chips in shale and sandstone are finer than 2 mm. Four blades at 90 rpm, from 5 to
  // 60 m/h.
  for (double rop = 5.0 / 3600.0; rop < 61.0 / 3600.0; rop += 5.0 / 3600.0) {
    const double size = cuttings_size(rop / 1.5 / 4.0);
    EXPECT_GT(size, 0.2e-3);
    EXPECT_LT(size, 2e-3);
    EXPECT_GT(share_finer(2e-3, size, 1.0), 0.75);
  }
  EXPECT_NEAR(cuttings_size(1e-3), 0.1e-3 + 2.9e-3 * 0.8 / 3.7, 1e-12);
}

TEST(CuttingsSize, GrowsWithDepthOfCutWithinItsBounds) {
  EXPECT_EQ(cuttings_size(0.0), 0.1e-3);
  EXPECT_EQ(cuttings_size(-1.0), 0.1e-3);
  double last = 0.0;
  for (double d = 1e-6; d < 1.0; d *= 1.5) {
    EXPECT_GT(cuttings_size(d), last);
    last = cuttings_size(d);
  }
  EXPECT_LT(cuttings_size(infinity), 3e-3);
  EXPECT_TRUE(std::isnan(cuttings_size(nan)));
}

TEST(CuttingsConcentration, IsTheShareOfRockInWhatFlows) {
  // 30 m/h in a 200 mm hole against 10 gal/min (0.63 l/s): 0.26 l/s of rock, 29 % of the stream.
  EXPECT_NEAR(cuttings_concentration(30.0 / 3600.0, 0.01 * pi, 0.63e-3), 0.2618 / (0.63 + 0.2618), 1e-4);
  EXPECT_EQ(cuttings_concentration(0.0, 1.0, 0.0), 0.0);
  EXPECT_EQ(cuttings_concentration(1.0, 1.0, 0.0), 1.0);
  EXPECT_EQ(cuttings_concentration(1.0, 1.0, -1.0), 1.0);
  EXPECT_EQ(cuttings_concentration(-1.0, 1.0, 1.0), 0.0);
  EXPECT_TRUE(std::isnan(cuttings_concentration(1.0, 1.0, nan)));
  EXPECT_TRUE(std::isnan(cuttings_concentration(nan, 1.0, 1.0)));
}

TEST(TransportRatio, IsWhatSlipLeavesOfTheFlow) {
  EXPECT_NEAR(transport_ratio(0.5, 0.1), 0.8, 1e-15);
  EXPECT_EQ(transport_ratio(0.1, 0.5), 0.0);
  EXPECT_EQ(transport_ratio(0.5, -0.1), 1.0);
  EXPECT_EQ(transport_ratio(0.0, 0.0), 0.0);
  EXPECT_EQ(transport_ratio(-1.0, 0.0), 0.0);
  EXPECT_TRUE(std::isnan(transport_ratio(nan, 0.1)));
  EXPECT_TRUE(std::isnan(transport_ratio(0.5, nan)));
}

TEST(LiftedShare, IsTheShareFinerThanTheSizeLifted) {
  for (const double v : {0.02, 0.1, 0.5, 2.0}) {
    const double exact = share_finer(size_lifted(water, 2600.0, v), 0.8e-3, 1.0);
    EXPECT_NEAR(lifted_share(water, 2600.0, 0.8e-3, 1.0, v) / exact, 1.0, 0.0026) << v;  // (1 mm/s / v)^2
  }
  // A creep of a millimetre a second moves nothing: there half the speed counts.
  EXPECT_NEAR(lifted_share(water, 2600.0, 0.05e-3, 1.0, 1e-3),
              share_finer(size_lifted(water, 2600.0, 0.5e-3), 0.05e-3, 1.0), 1e-12);
  EXPECT_EQ(lifted_share(water, 990.0, 0.8e-3, 1.0, 0.1), 1.0);  // floats
}

TEST(LiftedShare, ComesUpSmoothlyFromRest) {
  EXPECT_EQ(lifted_share(water, 2600.0, 1e-3, 1.0, 0.0), 0.0);
  EXPECT_EQ(lifted_share(water, 2600.0, 1e-3, 1.0, -1.0), 0.0);
  // The slope at rest vanishes: the share falls faster than the speed.
  double last = 1.0;
  for (double v = 1e-3; v > 1e-9; v *= 0.1) {
    const double slope = lifted_share(water, 2600.0, 1e-3, 0.8, v) / v;
    EXPECT_LT(slope, last * 1e3);
    last = slope / 1e3;
  }
  EXPECT_LT(last, 0.01);
  EXPECT_TRUE(std::isnan(lifted_share(water, 2600.0, 1e-3, 1.0, nan)));
  EXPECT_TRUE(std::isfinite(lifted_share(water, 2600.0, 1e-3, 1.0, infinity)));
}

TEST(LiftedShare, WaterAtHalfAMetreASecondLiftsNearlyAll) {
  // Common practice of water wells: about 0.5 m/s uphole with water; ordinary chips of 1 mm.
  EXPECT_GT(lifted_share(water, 2600.0, 1e-3, 1.0, 0.5), 0.99);
  EXPECT_LT(lifted_share(water, 2600.0, 1e-3, 1.0, 0.03), 0.3);
}

}  // namespace
}  // namespace dullcast::hydraulics
