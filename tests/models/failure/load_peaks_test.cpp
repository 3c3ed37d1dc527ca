// How the load on an edge varies, what stones stand out, and what setting the bit on bottom does.
#include <gtest/gtest.h>

#include <boost/math/quadrature/gauss.hpp>
#include <cmath>

#include "models/failure/chipping.hpp"
#include "models/failure/sample_edge.hpp"
#include "support/numbers.hpp"

namespace dullcast::failure {
namespace {

using testing::cutter;
using testing::degree;
using testing::gravel;
using testing::nan;
constexpr const ChipLaw& law = testing::chip_law;
constexpr const CuttingEdge& edge = testing::new_edge;

TEST(PeakFactor, IsTheMomentOfAWeibullDistributionOfThatVariation) {
  // By quadrature over a Weibull density k x^(k-1) exp(-x^k), scaled to mean 1: its m-th moment, and its own
  // deviation, which Justus' exponent meets within 3 %.
  EXPECT_EQ(peak_factor(0.0, 10.0), 1.0);
  for (const double variation : {0.12, 0.25, 0.4, 0.7}) {
    const double k = std::pow(variation, -1.086);
    const auto moment = [&](double m) {
      double sum = 0.0;
      for (int panel = 0; panel < 200; ++panel)
        sum += boost::math::quadrature::gauss<double, 20>::integrate(
            [&](double x) { return std::pow(x, m) * k * std::pow(x, k - 1.0) * std::exp(-std::pow(x, k)); },
            0.2 * panel, 0.2 * (panel + 1));
      return sum;
    };
    EXPECT_NEAR(peak_factor(variation, 10.0) / (moment(10.0) / std::pow(moment(1.0), 10.0)), 1.0, 1e-4);
    EXPECT_NEAR(std::sqrt(moment(2.0) / std::pow(moment(1.0), 2) - 1.0) / variation, 1.0, 0.03) << variation;
  }
  EXPECT_EQ(peak_factor(3.0, 10.0), peak_factor(1.0, 10.0));
  EXPECT_NEAR(peak_factor(1.0, 10.0), 3628800.0, 1e-3);  // exponential: 10!
  EXPECT_TRUE(std::isnan(peak_factor(nan, 10.0)));
  EXPECT_TRUE(std::isnan(peak_factor(0.3, nan)));
}

TEST(LoadVariation, GrowsWithStrengthToItsGreatest) {
  ChipLaw varied = law;
  varied.load_variation = 0.5;
  varied.brittle_strength = 100e6;
  EXPECT_EQ(load_variation(varied, 0.0), 0.0);
  EXPECT_NEAR(load_variation(varied, 100e6), 0.25, 1e-15);
  EXPECT_NEAR(load_variation(varied, 1e12), 0.5, 1e-4);
  EXPECT_TRUE(std::isnan(load_variation(varied, nan)));
}

TEST(PeakDepth, AddsTheUnevennessButNoMoreThanFourDepths) {
  EXPECT_NEAR(peak_depth(10e-3, 0.2e-3), 10.2e-3, 1e-6);
  EXPECT_NEAR(peak_depth(1e-6, 0.2e-3) / 5e-6, 1.0, 0.02);
  EXPECT_EQ(peak_depth(0.0, 0.2e-3), 0.0);
  EXPECT_EQ(peak_depth(1e-3, 0.0), 1e-3);
  EXPECT_TRUE(std::isnan(peak_depth(nan, 0.2e-3)));
}

TEST(StoneProtrusion, GoesWithTheStonesSizeAndVanishesInGroundAsHard) {
  EXPECT_NEAR(stone_protrusion(0.02, 25e-3, 0.0, 165e6), 0.5e-3, 1e-15);
  EXPECT_NEAR(stone_protrusion(0.02, 25e-3, 82.5e6, 165e6), 0.25e-3, 1e-15);
  EXPECT_EQ(stone_protrusion(0.02, 25e-3, 165e6, 165e6), 0.0);
  EXPECT_EQ(stone_protrusion(0.02, 25e-3, 200e6, 165e6), 0.0);
}

TEST(TouchDown, IsOneBlowOfTheOverloadAndGrowsWithIt) {
  const geometry::CutterShape shape = cutter();
  ChipLaw set_down = law;
  set_down.touch_down_overload = 2.0;
  const EdgeImpacts impacts{10e-3, 1e-3, 0.7, 80e6, {}, 1e7};
  const double stress = impact_stress(1e7, shape, edge, 80e6, 0.7, 2e-3);
  EXPECT_NEAR(touch_down_hazard(set_down, shape, edge, impacts, {3.0, 1.0}) /
                  (3.0 * std::pow(stress / edge_strength(law, edge.temperature, 0.0), 10.0)),
              1.0, 1e-12);
  double last = 0.0;
  for (const double overload : {1.0, 1.5, 3.0, 6.0}) {
    set_down.touch_down_overload = overload;
    const double hazard = touch_down_hazard(set_down, shape, edge, impacts);
    EXPECT_GT(hazard, 2.0 * last) << overload;
    last = hazard;
  }
  EXPECT_GT(touch_down_hazard(set_down, shape, edge, EdgeImpacts{10e-3, 1e-3, 0.7, 8e6, gravel}),
            100.0 * touch_down_hazard(set_down, shape, edge, {10e-3, 1e-3, 0.7, 8e6, {}}));
  // Half of the ground is stones: half of each hazard.
  const EdgeImpacts all_stone{10e-3, 1e-3, 0.7, gravel.strength, {}, set_down.impact_impedance};
  const EdgeImpacts between{10e-3, 1e-3, 0.7, 60e6, {}, 1e7}, mixed{10e-3, 1e-3, 0.7, 60e6, gravel, 1e7};
  set_down.touch_down_overload = 1.0;
  EXPECT_NEAR(touch_down_hazard(set_down, shape, edge, mixed) /
                  (0.5 * touch_down_hazard(set_down, shape, edge, all_stone) +
                   0.5 * touch_down_hazard(set_down, shape, edge, between)),
              1.0, 1e-12);
  const failure::Inclusions few{0.01, 25e-3, 175e6};
  EXPECT_NEAR(touch_down_hazard(set_down, shape, edge, {10e-3, 1e-3, 0.7, 60e6, few, 1e7}) /
                  (0.01 * touch_down_hazard(set_down, shape, edge, all_stone) +
                   0.99 * touch_down_hazard(set_down, shape, edge, between)),
              1.0, 1e-12);
  EXPECT_EQ(touch_down_hazard(set_down, shape, edge, {0.0, 0.0, 0.7, 80e6, {}}), 0.0);
  EdgeImpacts wild = impacts;
  wild.rock_strength = 1e30;
  EXPECT_EQ(touch_down_hazard(set_down, shape, edge, wild), 700.0);
  wild.rock_strength = nan;
  EXPECT_TRUE(std::isnan(touch_down_hazard(set_down, shape, edge, wild)));
}

}  // namespace
}  // namespace dullcast::failure
