#include "models/thermal/warm_rock.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "models/common/constants.hpp"
#include "support/numbers.hpp"

namespace dullcast::thermal {
namespace {

using testing::nan;
constexpr double many_passes = 1e12;  // so many that their own skin is nothing
constexpr double area = 0.03, depth = 0.006;

materials::Rock granite() {
  materials::Rock rock;
  rock.conductivity = 2.8;
  rock.density = 2650.0;
  rock.heat_capacity = 800.0;
  return rock;
}
constexpr double diffusivity = 2.8 / (2650.0 * 800.0);  // m2/s, of that granite

/// Surface rise of a half-space receding at rop under unit flux from time 0, K m2/W: the Laplace transform
/// (sqrt(rop^2 + 4 kappa p) - rop)/(2 k p^2) of the heat equation in the moving frame, inverted; with
/// s = rop sqrt(t)/(2 sqrt(kappa)) it is (kappa/(k rop)) (erf s + 2 s e^(-s^2)/sqrt(pi) - 2 s^2 erfc s). Its
/// limits are those of Carslaw & Jaeger 1959 [hb]: 2/k sqrt(kappa t/pi) at rest and kappa/(k rop) steady.
double exact_rise(double rop, double time) {
  if (rop == 0.0) return 2.0 / granite().conductivity * std::sqrt(diffusivity * time / pi);
  const double s = 0.5 * rop * std::sqrt(time / diffusivity);
  return diffusivity / (granite().conductivity * rop) *
         (std::erf(s) + 2.0 * s * std::exp(-s * s) / std::sqrt(pi) - 2.0 * s * s * std::erfc(s));
}

double node_rise(double rop, double time) {
  const WarmRock node = warm_rock(granite(), area, rop, many_passes, depth);
  const double out = node.to_cuttings + node.to_rock;
  return area / out * (1.0 - std::exp(-out * time / node.capacity));
}

TEST(WarmRock, SteadyRiseIsTheRecedingSurfaces) {
  // q/(rho c rop), low by e^(-6 P)/(4 P + e^(-6 P)).
  for (const double peclet : {0.3, 0.65, 1.0, 3.0, 30.0}) {
    const double rop = peclet * diffusivity / depth;
    const WarmRock node = warm_rock(granite(), area, rop, 5.0, depth);
    const double rise = area / (node.to_cuttings + node.to_rock);
    const double exact = 1.0 / (granite().density * granite().heat_capacity * rop);
    const double stated = std::exp(-6.0 * peclet) / (4.0 * peclet + std::exp(-6.0 * peclet));
    EXPECT_NEAR(1.0 - rise / exact, stated, 1e-12) << peclet;
    EXPECT_LT(1.0 - rise / exact, peclet >= 0.65 ? 0.01 : 0.13);
  }
}

TEST(WarmRock, AtRestFollowsTheHalfSpaceForMinutes) {
  // kappa t/L^2 from 1 to 20: half a minute to nine minutes here.
  for (double time = depth * depth / diffusivity; time < 20.0 * depth * depth / diffusivity; time *= 1.1) {
    const double ratio = node_rise(0.0, time) / exact_rise(0.0, time);
    EXPECT_GT(ratio, 0.78) << time;
    EXPECT_LT(ratio, 1.14) << time;
  }
}

TEST(WarmRock, CuttingSlowlyFollowsTheRecedingHalfSpace) {
  for (const double peclet : {0.01, 0.03, 0.1, 0.2, 0.3, 0.5, 0.8})
    for (double time = depth * depth / diffusivity; time < 20.0 * depth * depth / diffusivity; time *= 1.1) {
      const double rop = peclet * diffusivity / depth;
      const double ratio = node_rise(rop, time) / exact_rise(rop, time);
      EXPECT_GT(ratio, 0.66) << peclet << ' ' << time;
      EXPECT_LT(ratio, 1.22) << peclet << ' ' << time;
    }
}

TEST(WarmRock, CuttingFollowsTheRecedingHalfSpace) {
  for (const double peclet : {1.0, 2.0, 5.0, 50.0}) {
    const double rop = peclet * diffusivity / depth, scale = diffusivity / (rop * rop);
    for (double time = 0.2 * scale; time < 20.0 * scale; time *= 1.1) {
      const double ratio = node_rise(rop, time) / exact_rise(rop, time);
      EXPECT_GT(ratio, 0.79) << peclet << ' ' << time;
      EXPECT_LT(ratio, 1.21) << peclet << ' ' << time;
    }
  }
}

TEST(WarmRock, CuttingsCarryOffTheRockThatIsCut) {
  const WarmRock node = warm_rock(granite(), area, 1e-3, 5.0, depth);
  EXPECT_NEAR(node.to_cuttings, 2650.0 * 800.0 * 1e-3 * area, 1e-9);
}

TEST(WarmRock, PassesKeepTheSkinTheySoak) {
  // Fast cutting leaves only what soaks in between two passes: sqrt(kappa dt).
  const WarmRock node = warm_rock(granite(), area, 1.0, 5.0, depth);
  EXPECT_NEAR(node.capacity / (2650.0 * 800.0 * area * std::sqrt(diffusivity / 5.0)), 1.0, 0.01);
}

TEST(WarmRock, IsSmoothDownToNothing) {
  const WarmRock rest = warm_rock(granite(), area, 0.0, 0.0, depth);
  EXPECT_NEAR(rest.capacity, std::sqrt(2.0) * 2650.0 * 800.0 * area * depth, 1e-9 * rest.capacity);
  EXPECT_EQ(rest.to_cuttings, 0.0);
  EXPECT_NEAR(rest.to_rock, 2.8 * area / (4.0 * depth), 1e-12);
  EXPECT_NEAR(warm_rock(granite(), area, 1e-9, 1e-9, depth).capacity / rest.capacity, 1.0, 1e-4);
  EXPECT_EQ(warm_rock(granite(), area, -1.0, -1.0, depth).capacity, rest.capacity);
}

TEST(WarmRock, IsTotalAndLetsNaNThrough) {
  for (const double rop : {-1e9, 0.0, 1e9})
    for (const double passes : {-1e9, 0.0, 1e9})
      for (const double skin : {-1.0, 0.0, 1e3}) {
        const WarmRock node = warm_rock(granite(), area, rop, passes, skin);
        EXPECT_TRUE(std::isfinite(node.capacity) && std::isfinite(node.to_cuttings) &&
                    std::isfinite(node.to_rock));
        EXPECT_GT(node.capacity, 0.0);
        EXPECT_GE(node.to_rock, 0.0);
      }
  EXPECT_TRUE(std::isnan(warm_rock(granite(), area, nan, 5.0, depth).capacity));
  EXPECT_TRUE(std::isnan(warm_rock(granite(), area, 1e-3, nan, depth).capacity));
}

}  // namespace
}  // namespace dullcast::thermal
