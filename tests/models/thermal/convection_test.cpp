#include "models/thermal/convection.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/numbers.hpp"

namespace dullcast::thermal {
namespace {

using testing::nan;
const materials::Fluid water{998.0, 1.0e-3, 0.6, 4180.0};

TEST(Gnielinski, IsLaminarBelowAndMeetsItselfAtBothEnds) {
  EXPECT_EQ(gnielinski(0.0, 7.0), 3.66);
  EXPECT_EQ(gnielinski(2300.0, 7.0), 3.66);
  EXPECT_NEAR(gnielinski(2300.001, 7.0), 3.66, 1e-4);
  EXPECT_NEAR(gnielinski(3999.999, 7.0), gnielinski(4000.0, 7.0), 1e-4);
  // Halfway between the two ends, half of each (Gnielinski 2013).
  EXPECT_NEAR(gnielinski(3150.0, 7.0), 0.5 * (3.66 + gnielinski(4000.0, 7.0)), 1e-12);
}

TEST(Gnielinski, NeverFallsAsFlowGrows) {
  for (const double prandtl : {0.7, 7.0, 200.0}) {
    double last = 0.0;
    for (double reynolds = 10.0; reynolds < 1e8; reynolds *= 1.1) {
      EXPECT_GE(gnielinski(reynolds, prandtl), last);
      last = gnielinski(reynolds, prandtl);
    }
  }
}

TEST(Gnielinski, IsTotalAndLetsNaNThrough) {
  for (const double reynolds : {-1e9, 0.0, 1e30})
    for (const double prandtl : {-1.0, 0.0, 1e30}) EXPECT_TRUE(std::isfinite(gnielinski(reynolds, prandtl)));
  EXPECT_TRUE(std::isnan(gnielinski(nan, 7.0)));
  EXPECT_TRUE(std::isnan(gnielinski(100.0, nan)));
  EXPECT_TRUE(std::isnan(gnielinski(1e5, nan)));
}

TEST(SlotConvection, IsTheNusseltNumberOnTheHydraulicDiameter) {
  const double expected = gnielinski(998.0 * 2.0 * 0.03 / 1e-3, 1e-3 * 4180.0 / 0.6) * 0.6 / 0.03;
  EXPECT_NEAR(slot_convection(water, 2.0, 0.03), expected, 1e-9);
  EXPECT_EQ(slot_convection(water, -2.0, 0.03), slot_convection(water, 2.0, 0.03));
  EXPECT_TRUE(std::isfinite(slot_convection(water, 0.0, 0.0)));
  EXPECT_TRUE(std::isfinite(slot_convection(materials::Fluid{}, 0.0, 0.0)));
  EXPECT_TRUE(std::isnan(slot_convection(water, nan, 0.03)));
}

TEST(Jet, KeepsItsSpeedInTheCoreAndItsMomentumBeyond) {
  EXPECT_EQ(jet_speed_at(50.0, 0.01, 0.02), 50.0);
  EXPECT_NEAR(jet_speed_at(50.0, 0.01, 0.063 + 1e-12), 50.0, 1e-7);
  EXPECT_NEAR(jet_speed_at(50.0, 0.01, 0.126), 25.0, 1e-12);
  // A round jet keeps its momentum: ports of one v^2 D^2 reach one speed far out.
  EXPECT_NEAR(jet_speed_at(50.0, 0.01, 0.5), jet_speed_at(25.0, 0.02, 0.5), 1e-12);
  EXPECT_EQ(jet_speed_at(50.0, 0.01, -1.0), 50.0);
  EXPECT_EQ(jet_speed_at(50.0, 0.0, 0.1), 0.0);
  EXPECT_TRUE(std::isnan(jet_speed_at(nan, 0.01, 0.1)));
  EXPECT_TRUE(std::isnan(jet_speed_at(50.0, 0.01, nan)));
}

// Rajaratnam 1976 [from memory]: u x/(v D) = 1.03 along the wall; never faster than the jet.
TEST(WallJet, FallsAsOneOverTheDistanceAndNeverPassesTheJet) {
  EXPECT_NEAR(wall_jet_speed(20.0, 0.01, 0.1), 20.0 * 1.03 * 0.1, 1e-12);
  EXPECT_NEAR(wall_jet_speed(20.0, 0.01, 0.2), 0.5 * wall_jet_speed(20.0, 0.01, 0.1), 1e-12);
  EXPECT_EQ(wall_jet_speed(20.0, 0.01, 0.001), 20.0);
  EXPECT_EQ(wall_jet_speed(20.0, 0.01, 0.0), 20.0);
  EXPECT_EQ(wall_jet_speed(0.0, 0.01, 0.1), 0.0);
  EXPECT_TRUE(std::isnan(wall_jet_speed(20.0, 0.01, std::nan(""))));
}

TEST(PackedBed, OfEqualConductivitiesConductsLikeThem) {
  EXPECT_NEAR(packed_bed_convection(packed_bed_conductivity(0.6, 0.6, 0.4), 0.016), 2.0 * 0.6 / 0.016, 1e-12);
}

// Krupiczka's law by hand: k_s/k_f = 10, void 0.4: n = 0.280 - 0.757 lg 0.4 - 0.057 = 0.52424.
TEST(PackedBed, FollowsItsLaw) {
  const double n = 0.280 - 0.757 * std::log10(0.4) - 0.057;
  EXPECT_NEAR(packed_bed_conductivity(6.0, 0.6, 0.4), 0.6 * std::pow(10.0, n), 1e-12);
}

TEST(PackedBed, ConductsMoreWhenTighterAndIsTotal) {
  EXPECT_GT(packed_bed_convection(packed_bed_conductivity(2.5, 0.6, 0.3), 0.016),
            packed_bed_convection(packed_bed_conductivity(2.5, 0.6, 0.45), 0.016));
  EXPECT_GT(packed_bed_convection(packed_bed_conductivity(2.5, 0.6, 0.4), 0.013),
            packed_bed_convection(packed_bed_conductivity(2.5, 0.6, 0.4), 0.016));
  for (const double value : {-1.0, 0.0, 1e12})
    EXPECT_TRUE(std::isfinite(packed_bed_convection(packed_bed_conductivity(value, value, value), value)));
  EXPECT_TRUE(std::isnan(packed_bed_convection(packed_bed_conductivity(2.5, 0.6, nan), 0.016)));
}

// McAdams [hb], Nu = 0.13 Ra^1/3: by hand for water, beta dT = 0.01: Ra/L^3 = 9.81 x 0.01/(1.002e-6
// x 1.438e-7).
TEST(FreeConvection, IsTheHandbooksTurbulentLaw) {
  EXPECT_NEAR(free_convection(water, 0.01), 0.13 * 0.6 * std::cbrt(0.0980665 / (1.00200e-6 * 1.438266e-7)),
              0.1);
  EXPECT_NEAR(free_convection(water, 0.08) / free_convection(water, 0.01), 2.0, 1e-12);
  EXPECT_EQ(free_convection(water, 0.0), 0.0);
  const materials::Fluid air{1.225, 1.8e-5, 0.025, 1005.0};
  EXPECT_LT(free_convection(air, 0.01), 0.01 * free_convection(water, 0.01));
}

TEST(FreeConvection, IsTotalAndLetsNaNThrough) {
  EXPECT_TRUE(std::isfinite(free_convection({0.0, 0.0, 0.0, 0.0}, -1.0)));
  EXPECT_TRUE(std::isnan(free_convection(water, nan)));
}

TEST(RenewedShare, RotationCountsInFullWhereTheSlotsFillAnewInTimeAndNotAtAllInStillFluid) {
  EXPECT_EQ(renewed_share(0.3, 1.5, 5.0), 1.0);
  EXPECT_EQ(renewed_share(0.0, 1.5, 5.0), 0.0);
  EXPECT_EQ(renewed_share(0.0, 0.0, 5.0), 0.0);
  EXPECT_NEAR(renewed_share(0.15, 1.5, 5.0), 0.5, 1e-12);
  double last = 0.0;
  for (double renewal = 0.0; renewal < 0.5; renewal += 1e-3) {
    EXPECT_GE(renewed_share(renewal, 1.5, 5.0), last);
    last = renewed_share(renewal, 1.5, 5.0);
  }
  EXPECT_TRUE(std::isnan(renewed_share(nan, 1.5, 5.0)));
}

}  // namespace
}  // namespace dullcast::thermal
