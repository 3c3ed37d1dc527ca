#include "models/thermal/heat.hpp"

#include <gtest/gtest.h>

#include <boost/math/quadrature/tanh_sinh.hpp>
#include <boost/multiprecision/cpp_bin_float.hpp>
#include <cmath>

#include "models/common/constants.hpp"
#include "support/numbers.hpp"
#include "support/refusal.hpp"

namespace dullcast::thermal {
namespace {

using testing::nan;

TEST(RockContactConductance, IsTheStationarySpotAtRest) {
  const double area = 1.2e-5, k = 2.9;
  EXPECT_NEAR(rock_contact_conductance(k, 1e-6, 0.0, 2e-3, area) * area * uniform_spot_resistance(k, area),
              1.0, 1e-14);
}

TEST(RockContactConductance, GrowsWithTheRootOfSpeedWhenFast) {
  const double slow = rock_contact_conductance(2.9, 1e-6, 1.0, 2e-3, 1.0);
  EXPECT_NEAR(rock_contact_conductance(2.9, 1e-6, 4.0, 2e-3, 1.0) / slow, 2.0, 1e-6);
}

TEST(RockContactConductance, RefusesWhatHasNoMeaning) {
  EXPECT_EQ(testing::refusal([] { return rock_contact_conductance(2.9, 1e-6, -1.0, 2e-3, 1e-5); }),
            "rock_contact_conductance: the sliding speed must be 0 m/s or more (got -1)");
  EXPECT_NE(testing::refusal([] { return rock_contact_conductance(0.0, 1e-6, 1.0, 2e-3, 1e-5); }), "");
  EXPECT_NE(testing::refusal([] { return rock_contact_conductance(2.9, 0.0, 1.0, 2e-3, 1e-5); }), "");
  EXPECT_NE(testing::refusal([] { return rock_contact_conductance(2.9, 1e-6, nan, 2e-3, 1e-5); }), "");
  EXPECT_NE(testing::refusal([] { return rock_contact_conductance(2.9, 1e-6, 1.0, 0.0, 1e-5); }), "");
  EXPECT_NE(testing::refusal([] { return rock_contact_conductance(2.9, 1e-6, 1.0, 2e-3, 0.0); }), "");
}

TEST(SpotResistance, UniformSpotIsEightPercentAboveTheIsothermal) {
  // 8/(3 pi^2) over 1/4 = 32/(3 pi^2) = 1.0808.
  EXPECT_NEAR(uniform_spot_resistance(543.0, 1e-5) / isothermal_spot_resistance(543.0, 1e-5),
              32.0 / (3.0 * pi * pi), 1e-14);
  EXPECT_NE(testing::refusal([] { return uniform_spot_resistance(543.0, 0.0); }), "");
  EXPECT_NE(testing::refusal([] { return isothermal_spot_resistance(nan, 1e-5); }), "");
}

TEST(DiamondHeatCapacity, TableIsWithinAHundredthOfAPercentOfTheIntegral) {
  double worst = 0.0;
  for (double T = 200.0; T <= 1600.0; T += 0.37) {
    const double exact = debye_heat_capacity(T, 1860.0, 12.011e-3);
    worst = std::max(worst, std::abs(diamond_heat_capacity(T) / exact - 1.0));
  }
  EXPECT_LT(worst, 1e-4);
  EXPECT_GT(worst, 0.0);  // it is a table: the comparison is not with itself
  RecordProperty("worst_relative_error", std::to_string(worst * 1e6) + "e-6");
}

// Simpson's rule on the nodes' halves is exact where the capacity runs straight between nodes.
TEST(DiamondHeat, IsTheIntegralOfTheHeatCapacity) {
  const auto by_simpson = [](double from, double to) {
    constexpr int slices = 2000;
    double sum = diamond_heat_capacity(from) + diamond_heat_capacity(to);
    for (int k = 1; k < slices; ++k)
      sum += (k % 2 == 1 ? 4.0 : 2.0) * diamond_heat_capacity(from + (to - from) * k / slices);
    return sum * (to - from) / slices / 3.0;
  };
  for (const double to : {300.5, 512.3, 900.0, 1599.0})
    EXPECT_NEAR(DiamondHeat(288.0).to(to) / by_simpson(288.0, to), 1.0, 1e-6) << to;
  EXPECT_EQ(DiamondHeat(400.0).to(400.0), 0.0);
  EXPECT_NEAR(DiamondHeat(900.0).to(300.0), -DiamondHeat(300.0).to(900.0), 1e-9);
  // Past the table its ends' capacities hold.
  EXPECT_NEAR(DiamondHeat(1700.0).to(1900.0), 200.0 * diamond_heat_capacity(1600.0), 1e-6);
  EXPECT_NEAR(DiamondHeat(150.0).to(190.0), 40.0 * diamond_heat_capacity(200.0), 1e-6);
  EXPECT_THROW(DiamondHeat(std::nan("")).to(300.0), std::domain_error);
}

TEST(DiamondHeatCapacity, IsHeldAtTheEndsOfItsTable) {
  EXPECT_EQ(diamond_heat_capacity(150.0), diamond_heat_capacity(200.0));
  EXPECT_EQ(diamond_heat_capacity(2500.0), diamond_heat_capacity(1600.0));
  EXPECT_NEAR(diamond_heat_capacity(1600.0), debye_heat_capacity(1600.0, 1860.0, 12.011e-3), 1e-9);
  EXPECT_NE(testing::refusal([] { return diamond_heat_capacity(nan); }), "");
}

TEST(DebyeHeatCapacity, FollowsTheCubeOfTemperatureWhenColdAndDulongPetitWhenHot) {
  const double gas_constant = 8.314462618, molar_mass = 12.011e-3;
  const double cube = 12.0 * std::pow(pi, 4) / 5.0 * gas_constant / molar_mass * std::pow(10.0 / 1860.0, 3);
  EXPECT_NEAR(debye_heat_capacity(10.0, 1860.0, molar_mass) / cube, 1.0, 1e-12);
  // 1 - (theta/T)^2/20 towards 3 R/M, next term 1e-10.
  const double hot = 3.0 * gas_constant / molar_mass * (1.0 - std::pow(1860.0 / 186000.0, 2) / 20.0);
  EXPECT_NEAR(debye_heat_capacity(186000.0, 1860.0, molar_mass) / hot, 1.0, 1e-9);
}

TEST(DebyeHeatCapacity, AgreesWithAnotherQuadrature) {
  boost::math::quadrature::tanh_sinh<double> quadrature;
  for (const double T : {20.0, 77.0, 298.0, 973.0}) {
    const double integral = quadrature.integrate(
        [](double x) {
          return x < 1e-60 ? 0.0 : std::pow(x, 4) * std::exp(-x) / std::pow(std::expm1(-x), 2);
        },
        0.0, 1860.0 / T);
    const double expected = 9.0 * 8.314462618 / 12.011e-3 * std::pow(T / 1860.0, 3) * integral;
    EXPECT_NEAR(debye_heat_capacity(T, 1860.0, 12.011e-3) / expected, 1.0, 1e-12) << T;
  }
}

TEST(DebyeHeatCapacity, RefusesWhatHasNoMeaning) {
  EXPECT_NE(testing::refusal([] { return debye_heat_capacity(0.0, 1860.0, 12e-3); }), "");
  EXPECT_NE(testing::refusal([] { return debye_heat_capacity(nan, 1860.0, 12e-3); }), "");
  EXPECT_NE(testing::refusal([] { return debye_heat_capacity(300.0, 0.0, 12e-3); }), "");
  EXPECT_NE(testing::refusal([] { return debye_heat_capacity(300.0, 1860.0, -1.0); }), "");
}

TEST(HalfSpaceConvectionShare, KeepsItsDigitsOverElevenDecades) {
  using Long = boost::multiprecision::cpp_bin_float_100;
  double worst = 0.0;
  for (double x = 1e-9; x < 14.0; x *= 1.09) {
    // At h = x, k = 1, kappa = 1, t = 1 the argument is x itself.
    const Long argument(x);
    const Long exact = 1 - exp(argument * argument) * boost::math::erfc(argument);
    const double share = half_space_convection_share(x, 1.0, 1.0, 1.0);
    worst = std::max(worst, static_cast<double>(abs(Long(share) / exact - 1)));
  }
  EXPECT_LT(worst, 1e-13);
}

TEST(HalfSpaceConvectionShare, GoesFromNoneToAllWithoutOverflow) {
  EXPECT_EQ(half_space_convection_share(100.0, 1.0, 1e-6, 0.0), 0.0);
  EXPECT_EQ(half_space_convection_share(0.0, 1.0, 1e-6, 10.0), 0.0);
  EXPECT_NEAR(half_space_convection_share(1e9, 1.0, 1.0, 1.0), 1.0, 1e-9);
  double last = 0.0;
  for (double time = 1e-6; time < 1e12; time *= 1.5) {
    const double share = half_space_convection_share(50.0, 2.0, 1e-6, time);
    EXPECT_GT(share, last) << time;
    EXPECT_LT(share, 1.0) << time;
    last = share;
  }
  EXPECT_NE(testing::refusal([] { return half_space_convection_share(nan, 1.0, 1.0, 1.0); }), "");
  EXPECT_NE(testing::refusal([] { return half_space_convection_share(1.0, 0.0, 1.0, 1.0); }), "");
  EXPECT_NE(testing::refusal([] { return half_space_convection_share(1.0, 1.0, 0.0, 1.0); }), "");
  EXPECT_NE(testing::refusal([] { return half_space_convection_share(1.0, 1.0, 1.0, -1.0); }), "");
}

}  // namespace
}  // namespace dullcast::thermal
