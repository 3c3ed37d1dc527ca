#include "models/failure/chipping.hpp"

#include <gtest/gtest.h>

#include <boost/math/quadrature/gauss.hpp>
#include <cmath>
#include <limits>

#include "models/common/constants.hpp"
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
const EdgeImpacts shale{10e-3, 1e-3, 0.7, 40e6, {}};

EdgeImpacts in_gravel(double depth = 1e-3) {
  return {10e-3, depth, 0.7, 8e6, gravel};
}

TEST(Weibull, CharacteristicStrengthBreaks63Percent) {
  EXPECT_NEAR(chip_probability(3e9, 3e9, 10.0), 1.0 - std::exp(-1.0), 1e-15);
  // Twice a small chance at 2^(1/m) of the stress.
  const double rare = chip_probability(3e8, 3e9, 10.0);
  EXPECT_NEAR(chip_probability(3e8 * std::pow(2.0, 0.1), 3e9, 10.0) / rare, 2.0, 1e-9);
  EXPECT_NEAR(rare, 1e-10, 1e-19);  // no cancellation: exp(-1e-10) loses six digits
}

TEST(Weibull, MeanStrengthIsGammaOfOnePlusOneOverModulus) {
  // Mean = integral of the chance to survive [hb: Weibull 1951].
  for (const double modulus : {3.0, 10.0, 20.0}) {
    double mean = 0.0;
    for (int panel = 0; panel < 40; ++panel)
      mean += boost::math::quadrature::gauss<double, 20>::integrate(
          [&](double stress) { return 1.0 - chip_probability(stress, 2.0, modulus); }, 0.25 * panel,
          0.25 * (panel + 1));
    EXPECT_NEAR(mean, 2.0 * std::tgamma(1.0 + 1.0 / modulus), 1e-9) << modulus;
  }
}

TEST(Weibull, TheWeakestOfManyLinksIsWeakerByTheRootOfTheirNumber) {
  // All of n links survive with (1 - p)^n: one link of strength n^(-1/m) [hb: Weibull 1951].
  for (const double stress : {0.5, 0.8, 1.0})
    EXPECT_NEAR(1.0 - std::pow(1.0 - chip_probability(stress, 1.0, 10.0), 7.0),
                chip_probability(stress, std::pow(7.0, -0.1), 10.0), 1e-14);
}

TEST(Weibull, NeverOverflowsAndKnowsItsEnds) {
  EXPECT_EQ(chip_probability(1e300, 1.0, 50.0), 1.0);
  EXPECT_EQ(chip_probability(1e9, 0.0, 10.0), 1.0);
  EXPECT_EQ(chip_probability(0.0, 3e9, 10.0), 0.0);
  EXPECT_EQ(chip_probability(-1e9, 3e9, 10.0), 0.0);
  EXPECT_EQ(chip_probability(0.0, 0.0, 10.0), 0.0);
  for (int i = 0; i < 3; ++i)
    EXPECT_TRUE(std::isnan(chip_probability(i == 0 ? nan : 1.0, i == 1 ? nan : 1.0, i == 2 ? nan : 10.0)));
}

TEST(EdgeStrength, HoldsItsStatedShares) {
  EXPECT_NEAR(edge_strength(law, 20.0 + celsius_zero, 0.0), 3.2e9, 1.0);
  EXPECT_NEAR(edge_strength(law, 360.0 + celsius_zero, 0.0) / 3.2e9, 0.85, 0.0015);  // half way; the corner
  EXPECT_NEAR(edge_strength(law, 700.0 + celsius_zero, 0.0), 0.7 * 3.2e9, 1.0);
  EXPECT_NEAR(edge_strength(law, 700.0 + celsius_zero, 1.0), 0.7 * 0.3 * 3.2e9, 1.0);
  EXPECT_NEAR(edge_strength(law, 5000.0, 0.0), 0.1 * 3.2e9, 1.0);
  EXPECT_EQ(edge_strength(law, -400.0, -3.0), 3.2e9);
  EXPECT_EQ(edge_strength(law, 293.0, 7.0), edge_strength(law, 293.0, 1.0));
}

TEST(EdgeStrength, IsContinuouslyDifferentiableInTemperature) {
  // Slopes 1e-3 K apart differ by at most the corners' curvature: 0.3/675 over 10 K at 20 C, (0.3/675)^2 over
  // 0.04 at a tenth; 5e-5 per K2. A sharp corner would jump by 4.4e-4.
  ChipLaw unit = law;
  unit.edge_strength = 1.0;
  const auto slope = [&](double T) {
    return (edge_strength(unit, T + 0.5e-3, 0.0) - edge_strength(unit, T - 0.5e-3, 0.0)) / 1e-3;
  };
  for (const double start : {290.0, 2300.0})
    for (double T = start; T < start + 60.0; T += 0.01) ASSERT_NEAR(slope(T + 0.01), slope(T), 1e-6) << T;
}

TEST(ChipHazard, IsTheSumOfItsBlows) {
  // By hand: rate of a constant state = v (n P + met P), and 1 - exp(-rate t) the chance over t.
  const geometry::CutterShape shape = cutter();
  const double strength = edge_strength(law, edge.temperature, 0.0);
  const auto each = [&](double impedance, double rock, double depth) {
    return chip_probability(impact_stress(impedance, shape, edge, rock, 0.7, depth), strength, 10.0);
  };
  const double ground = each(3e6, 8e6, 1e-3), stone = each(1.2e7, 175e6, 1e-3);
  // The stone is met to the depth of cut: (1 + (1/12.5)^4)^(1/4) is 1 to 1e-5, its fifth power to 1e-4.
  const double met = inclusions_met_per_metre(gravel, 10e-3, 1e-3);
  EdgeImpacts impacts = in_gravel();
  impacts.rock_impedance = 3e6;
  EXPECT_NEAR(chip_hazard_rate(law, shape, edge, impacts) / (0.7 * (0.5 * ground + (0.5 + met) * stone)), 1.0,
              1e-4);
  // Stones that stand out by 2 mm are met 3 mm deep.
  impacts.inclusions.protrusion = 2e-3;
  EXPECT_NEAR(chip_hazard_rate(law, shape, edge, impacts) /
                  (0.7 * (0.5 * ground + 0.5 * stone +
                          met * each(1.2e7, 175e6, depth_in_stone(impacts.inclusions, 1e-3)))),
              1.0, 1e-12);
  EXPECT_NEAR(depth_in_stone(impacts.inclusions, 1e-3), 3e-3, 3e-6);
  // As deep as half their size, rounded: that over the fourth root of 2.
  EXPECT_NEAR(depth_in_stone({0.5, 25e-3, 175e6}, 12.5e-3), 12.5e-3 / std::pow(2.0, 0.25), 1e-12);
  // No stones at all: the peaks in the ground alone, exactly.
  EXPECT_NEAR(chip_hazard_rate(law, shape, edge, {10e-3, 1e-3, 0.7, 8e6, {}, 3e6}) / (0.7 * ground), 1.0,
              1e-13);
  // Peaks are as deep as peak_depth says, and break as much more often as their factor says.
  ChipLaw uneven = law;
  uneven.unevenness = 0.4e-3;
  const double peak = each(3e6, 8e6, peak_depth(1e-3, 0.4e-3));
  EXPECT_NEAR(chip_hazard_rate(uneven, shape, edge, {10e-3, 1e-3, 0.7, 8e6, {}, 3e6}, {7.0, 1.0}) /
                  (7.0 * 0.7 * peak),
              1.0, 1e-9);
}

TEST(ChipHazard, OfAConstantRateIsTheChanceToSurviveEachBlow) {
  // n blows survive with (1 - P)^n, against exp(-integral): equal to P^2 n/2 (Poisson thinning).
  const double rate = chip_hazard_rate(law, cutter(), edge, in_gravel());
  const double met_rate = 0.7 * inclusions_met_per_metre(gravel, 10e-3, 1e-3);
  const double time = 1.0 / rate, blows = met_rate * time;
  const double each = rate / met_rate;  // stones do nearly all of it
  EXPECT_NEAR(std::exp(blows * std::log1p(-each)), std::exp(-1.0), each);
}

TEST(ChipHazard, FallsAsTheBevelAngleRises) {
  // Common practice: chip risk falls as the bevel angle rises.
  for (const EdgeImpacts& impacts : {shale, in_gravel()}) {
    double last = std::numeric_limits<double>::infinity();
    for (double bevel = 0.0; bevel <= 45.0; bevel += 1.0) {
      const double rate = chip_hazard_rate(law, cutter(bevel), edge, impacts);
      ASSERT_GT(rate, 0.0);
      ASSERT_LT(rate, last) << bevel;
      last = rate;
    }
  }
}

TEST(ChipHazard, RisesWithHeatDamageSpeedDepthAndStrength) {
  const geometry::CutterShape shape = cutter();
  const double rate = chip_hazard_rate(law, shape, edge, in_gravel());
  CuttingEdge worse = edge;
  worse.temperature += 300.0;
  const double hotter = chip_hazard_rate(law, shape, worse, in_gravel());
  // 300 K of 675 at 0.3: about 0.86 of the strength, so 4 to 5 times the rate at modulus 10.
  EXPECT_GT(hotter, 3.5 * rate);
  EXPECT_LT(hotter, 5.5 * rate);
  worse.heat_damage = 0.5;
  EXPECT_GT(chip_hazard_rate(law, shape, worse, in_gravel()), 10.0 * hotter);
  EXPECT_GT(chip_hazard_rate(law, shape, edge, in_gravel(2e-3)), 10.0 * rate);  // about the fifth power
  EdgeImpacts faster = in_gravel();
  faster.sliding_speed *= 2.0;
  EXPECT_GT(chip_hazard_rate(law, shape, edge, faster), 2.0 * rate);
  EXPECT_GT(chip_hazard_rate(law, shape, edge, {10e-3, 1e-3, 0.7, 180e6, {}}),
            100.0 * chip_hazard_rate(law, shape, edge, shale));
  // A sharper finish is frailer.
  geometry::CutterShape keen = shape;
  keen.edge_radius = 20e-6;
  EXPECT_GT(chip_hazard_rate(law, keen, edge, in_gravel()), rate);
}

TEST(ChipHazard, StonesSmallerThanTheCutAreMetToHalfTheirSize) {
  // With 2 mm stones under a 20 mm cut the depth met is 1 mm, to (1 + 20^-4)^(1/4).
  const geometry::CutterShape shape = cutter();
  const Inclusions grit{0.1, 2e-3, 175e6};
  const double strength = edge_strength(law, edge.temperature, 0.0);
  const double blow =
      chip_probability(impact_stress(law.impact_impedance, shape, edge, 175e6, 0.7, 1e-3), strength, 10.0);
  ChipLaw smooth = law;
  smooth.roughness_impacts = 0.0;
  const double rate = chip_hazard_rate(smooth, shape, edge, {10e-3, 20e-3, 0.7, 8e6, grit});
  EXPECT_NEAR(rate / (0.7 * inclusions_met_per_metre(grit, 10e-3, 20e-3) * blow), 1.0, 1e-4);
}

TEST(ChipHazard, IsZeroWhenNothingIsCutAndGrowsFromThereWithoutAStep) {
  const geometry::CutterShape shape = cutter();
  EXPECT_EQ(chip_hazard_rate(law, shape, edge, {0.0, 0.0, 0.7, 40e6, gravel}), 0.0);
  EXPECT_EQ(chip_hazard_rate(law, shape, edge, {10e-3, 1e-3, 0.0, 40e6, gravel}), 0.0);
  EXPECT_EQ(chip_hazard_rate(law, shape, edge, {-1.0, -1.0, -1.0, 40e6, gravel}), 0.0);
  EXPECT_LT(chip_hazard_rate(law, shape, edge, in_gravel(1e-7)), 1e-30);
}

TEST(ChipHazard, IsFiniteForWildStatesAndLetsANaNThrough) {
  const geometry::CutterShape shape = cutter();
  for (const double T : {-1e4, 0.0, 300.0, 1e6})
    for (const double depth : {-1.0, 0.0, 1e-9, 1.0, 1e6})
      for (const double u : {-1.0, 1.0}) {
        const CuttingEdge wild{15.0 * degree, u, T, 5.0};
        const double rate = chip_hazard_rate(law, shape, wild, {10e-3, depth, 0.7, 180e6, gravel});
        ASSERT_TRUE(std::isfinite(rate)) << T << " " << depth;
        ASSERT_GE(rate, 0.0);
      }
  for (int i = 0; i < 8; ++i) {
    CuttingEdge e = edge;
    EdgeImpacts impacts = in_gravel();
    double* const numbers[] = {&e.back_rake,           &e.worn_height,        &e.temperature,
                               &e.heat_damage,         &impacts.width,        &impacts.depth,
                               &impacts.sliding_speed, &impacts.rock_strength};
    *numbers[i] = nan;
    EXPECT_TRUE(std::isnan(chip_hazard_rate(law, shape, e, impacts))) << i;
  }
  for (int i = 0; i < 3; ++i) {
    EdgeImpacts impacts = in_gravel();
    (i == 0   ? impacts.inclusions.share
     : i == 1 ? impacts.inclusions.size
              : impacts.inclusions.strength) = nan;
    EXPECT_TRUE(std::isnan(chip_hazard_rate(law, shape, edge, impacts))) << i;
  }
}

/// Chance of at least one chip over a length drilled, for a bit of 18 cutters from 10 to 100 mm at 85 rpm and
/// two depths of cut a revolution: what a four-blade 200 mm bit has.
double bit_chance(double depth, double T, double length, double rock, const Inclusions& stones, bool gauge) {
  ChipLaw usual = law;
  usual.load_variation = 0.45;
  usual.brittle_strength = 100e6;
  usual.unevenness = 0.15e-3;
  const PeakFactors factors = peak_factors(usual, rock, stones);
  const double impedance = std::sqrt(2600.0 * 300.0 * rock);
  double sum = 0.0;
  for (int i = gauge ? 17 : 0; i < 18; ++i) {
    const double v = two_pi * (85.0 / 60.0) * (0.01 + 0.09 * i / 17.0);
    const double time = length / (2.0 * depth * 85.0 / 60.0);
    const CuttingEdge hot{15.0 * degree, 0.0, T + celsius_zero, 0.0};
    const EdgeImpacts impacts{10e-3, depth, v, rock, stones, impedance};
    sum += time * chip_hazard_rate(usual, cutter(), hot, impacts, factors);
  }
  return -std::expm1(-sum);
}

TEST(ChipHazard, HasTheOrdersThatPracticeExpects) {
  // Common practice, no source: kind rock does not chip cutters, gravel and granite do. The strength of the
  // edge is an assumption chosen for these orders, so this holds the orders, not the strength.
  for (const double depth : {0.5e-3, 1e-3, 2e-3}) {
    EXPECT_LT(bit_chance(depth, 100.0, 1000.0, 40e6, {}, true), 0.01);
    EXPECT_LT(bit_chance(depth, 150.0, 1000.0, 50e6, {}, true), 0.01);
  }
  const double pressed = bit_chance(1.5e-3, 120.0, 2.0, 8e6, gravel, false);
  EXPECT_GT(pressed, 0.1);
  EXPECT_LT(pressed, 0.9);
  EXPECT_LT(bit_chance(0.5e-3, 120.0, 2.0, 8e6, gravel, false), 0.05);  // eased to a third
  const double granite = bit_chance(0.5e-3, 340.0, 100.0, 180e6, {}, false);
  EXPECT_GT(granite, 0.05);
  EXPECT_LT(granite, 0.9);
}

TEST(Boundary, IsItsBlowsTimesTheChanceOfEach) {
  const double strength = edge_strength(law, edge.temperature, 0.0);
  const double each =
      chip_probability(impact_stress(law.impact_impedance, cutter(), edge, 125e6, 0.7, 2e-3), strength, 10.0);
  EXPECT_NEAR(boundary_hazard(law, cutter(), edge, 2e-3, 125e6, 0.7, 5.0) / (5.0 * each), 1.0, 1e-14);
  EXPECT_EQ(boundary_hazard(law, cutter(), edge, 0.0, 125e6, 0.7, 5.0), 0.0);
  EXPECT_EQ(boundary_hazard(law, cutter(), edge, 2e-3, 125e6, 0.7, -5.0), 0.0);
  EXPECT_TRUE(std::isnan(boundary_hazard(law, cutter(), edge, nan, 125e6, 0.7, 5.0)));
  EXPECT_TRUE(std::isnan(boundary_hazard(law, cutter(), edge, 2e-3, 125e6, 0.7, nan)));
}

TEST(ImpactLineLoad, IsStrengthAndImpedanceTimesDepth) {
  EXPECT_NEAR(impact_line_load(1.2e7, 150e6, 0.5, 1e-3), 156e3, 1e-6);  // 150 MPa + 1.2e7 x 0.5 = 156 MPa
  EXPECT_EQ(impact_line_load(1.2e7, 150e6, 0.5, -1e-3), 0.0);
}

TEST(Quench, IsFullConstraintTimesMansonsShare) {
  // 800 GPa x 2.5e-6 x 400 K/0.9 = 888.9 MPa; Bi = 10000 x 0.002/500 = 0.04: 1/(1.5 + 81.25) = 0.012085; 0.6
  // of it.
  EXPECT_NEAR(quench_stress(law, 700.0, 300.0, 1e4, 2e-3, 500.0), 0.6 * 888.889e6 * 0.0120846, 100.0);
  EXPECT_EQ(quench_stress(law, 300.0, 700.0, 1e4, 2e-3, 500.0), 0.0);
  EXPECT_EQ(quench_stress(law, 700.0, 300.0, 0.0, 2e-3, 500.0), 0.0);
  EXPECT_TRUE(std::isnan(quench_stress(law, nan, 300.0, 1e4, 2e-3, 500.0)));
  EXPECT_TRUE(std::isnan(quench_stress(law, 700.0, 300.0, nan, 2e-3, 500.0)));
}

TEST(Quench, HazardGivesBackTheWeibullChance) {
  for (const double stress : {1e9, 2.5e9, 4e9}) {
    const double strength = edge_strength(law, edge.temperature, 0.0);
    EXPECT_NEAR(-std::expm1(-quench_hazard(law, stress, edge)), chip_probability(stress, strength, 10.0),
                1e-14);
  }
  EXPECT_EQ(quench_hazard(law, 1e300, edge), 700.0);
  EXPECT_EQ(quench_hazard(law, 0.0, edge), 0.0);
  EXPECT_TRUE(std::isnan(quench_hazard(law, nan, edge)));
}

TEST(ChipHeight, FollowsTheDepthBetweenEdgeRadiusAndHalfTheCutter) {
  EXPECT_NEAR(chip_height(law, cutter(), 1e-3), 0.4e-3, 1e-18);
  EXPECT_EQ(chip_height(law, cutter(), 0.0), 30e-6);
  EXPECT_EQ(chip_height(law, cutter(), 1.0), 4e-3);
  EXPECT_TRUE(std::isnan(chip_height(law, cutter(), nan)));
}

}  // namespace
}  // namespace dullcast::failure
