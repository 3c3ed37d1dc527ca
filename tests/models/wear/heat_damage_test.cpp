#include "models/wear/heat_damage.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "models/common/constants.hpp"

namespace dullcast::wear {
namespace {

const HeatDamageLaw law{60.0, 600.0, 1200.0 + celsius_zero};
double celsius(double t) {
  return t + celsius_zero;
}

TEST(HeatDamage, LivesAt750And700AreTheStatedSeconds) {
  EXPECT_NEAR(1.0 / cobalt_damage_rate(law, celsius(750.0)), 60.0, 1e-9);
  EXPECT_NEAR(1.0 / cobalt_damage_rate(law, celsius(700.0)), 600.0, 1e-8);
}

TEST(HeatDamage, BetweenAndBeyondItIsArrhenius) {
  // ln(rate) is a straight line in 1/T through the two lives: by interpolation, not by the law's own
  // constant.
  const auto life = [](double T) {
    const double x750 = 1.0 / celsius(750.0), x700 = 1.0 / celsius(700.0);
    return 60.0 * std::pow(10.0, (1.0 / T - x750) / (x700 - x750));
  };
  for (const double t : {20.0, 350.0, 600.0, 725.0, 800.0, 1000.0})
    EXPECT_NEAR(cobalt_damage_rate(law, celsius(t)) * life(celsius(t)), 1.0, 1e-9) << t;
  // At a driller's ordinary 350 C: longer than a working life.
  EXPECT_GT(1.0 / cobalt_damage_rate(law, celsius(350.0)), 3600.0 * 24.0 * 365.0 * 10.0);
}

TEST(HeatDamage, TheLeachedLayerLastsAtItsLimitAsCobaltDoesAt750) {
  EXPECT_NEAR(1.0 / leached_damage_rate(law, celsius(1200.0)), 60.0, 1e-9);
  EXPECT_LT(leached_damage_rate(law, celsius(800.0)), 1e-3 * cobalt_damage_rate(law, celsius(800.0)));
}

TEST(HeatDamage, WithoutLeachingTheFlatItselfDecides) {
  EXPECT_EQ(table_damage_rate(law, celsius(740.0), 5e7, 0.0, 0.0, 543.0),
            cobalt_damage_rate(law, celsius(740.0)));
}

TEST(HeatDamage, AFlatLeachedThroughoutIsJudgedAtTheCobaltUnderIt) {
  // 54.3 MW/m2 into diamond of 543 W/(m K) falls by 100 K a millimetre: 20 K at 0.2 mm.
  const double rate = table_damage_rate(law, celsius(770.0), 54.3e6, 1.0, 0.2e-3, 543.0);
  EXPECT_NEAR(rate * 60.0, 1.0, 1e-9);
  // Cobalt that lies deeper is spared more, until the leached layer itself is the worse of the two.
  EXPECT_LT(table_damage_rate(law, celsius(770.0), 54.3e6, 1.0, 0.4e-3, 543.0), rate);
  const double deep = table_damage_rate(law, celsius(1200.0), 1e9, 1.0, 0.8e-3, 543.0);
  EXPECT_NEAR(deep * 60.0, 1.0, 1e-9);
  // Heat that flows out of the table does not make it hotter inside than at the flat.
  EXPECT_EQ(table_damage_rate(law, celsius(740.0), -5e7, 1.0, 0.2e-3, 543.0),
            cobalt_damage_rate(law, celsius(740.0)));
}

TEST(HeatDamage, CobaltAtTheFlatIsAsHotAsTheFlat) {
  const double bare = cobalt_damage_rate(law, celsius(750.0));
  for (const double share : {0.1, 0.5, 0.9}) {
    // So much heat that the cobalt under the leached part is cool.
    const double rate = table_damage_rate(law, celsius(750.0), 1e9, share, 0.5e-3, 543.0);
    EXPECT_NEAR(rate / bare, 1.0 - share, 1e-3) << share;
  }
}

// Drawn apart from each other, one pair of lives in thirty comes out the wrong way round.
TEST(HeatDamage, LivesThatCrossStillLeaveADiamondThatOutlastsDrilling) {
  const HeatDamageLaw usual = heat_damage_law(60.0, 600.0, 1473.15);
  EXPECT_EQ(usual.life_at_700, 600.0);
  for (const double at_700 : {10.0, 60.0, 100.0}) {
    const HeatDamageLaw crossed = heat_damage_law(60.0, at_700, 1473.15);
    EXPECT_EQ(crossed.life_at_750, 60.0);
    EXPECT_EQ(crossed.life_at_700, 180.0);
    EXPECT_NEAR(1.0 / cobalt_damage_rate(crossed, celsius(750.0)), 60.0, 1e-9);
    EXPECT_NEAR(1.0 / cobalt_damage_rate(crossed, celsius(700.0)), 180.0, 1e-9);
    // Nearly two years, as the header says.
    EXPECT_NEAR(1.0 / cobalt_damage_rate(crossed, celsius(350.0)) / 86400.0, 634.5, 0.1);
  }
}

TEST(HeatDamage, RisesWithTemperatureAndStaysFinite) {
  double before = 0.0;
  for (double T = 200.0; T <= 3000.0; T += 20.0) {
    ASSERT_GT(cobalt_damage_rate(law, T), before) << T;
    before = cobalt_damage_rate(law, T);
  }
  EXPECT_TRUE(std::isfinite(cobalt_damage_rate(law, 1e9)));
  EXPECT_TRUE(std::isfinite(cobalt_damage_rate(law, 0.0)));
  EXPECT_EQ(cobalt_damage_rate(law, 1e9), cobalt_damage_rate(law, 3000.0));
  EXPECT_TRUE(std::isnan(cobalt_damage_rate(law, std::nan(""))));
  EXPECT_TRUE(std::isnan(table_damage_rate(law, std::nan(""), 1e7, 0.5, 0.2e-3, 543.0)));
  EXPECT_TRUE(std::isnan(table_damage_rate(law, 1000.0, std::nan(""), 0.5, 0.2e-3, 543.0)));
}

}  // namespace
}  // namespace dullcast::wear
