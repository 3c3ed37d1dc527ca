#include "models/cutting/gauge.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "models/common/constants.hpp"
#include "models/cutting/bit_forces.hpp"
#include "models/geometry/outline.hpp"
#include "support/numbers.hpp"
#include "tools/samples/made_bits.hpp"

namespace dullcast::cutting {
namespace {

using testing::infinity;
using testing::nan;

/// Cutters at the azimuths given, all on one radius.
geometry::BitLayout ring(const Eigen::ArrayXd& azimuth) {
  geometry::BitLayout bit;
  bit.bit_radius = 0.1;
  bit.azimuth = azimuth;
  bit.radius.setConstant(azimuth.size(), 0.09);
  return bit;
}

TEST(LateralImbalance, EqualCuttersEvenlySpacedBalance) {
  for (int n = 2; n < 13; ++n) {
    const geometry::BitLayout bit = ring(0.3 + Eigen::ArrayXd::LinSpaced(n, 0.0, n - 1.0) * (two_pi / n));
    const Eigen::ArrayXd tangential = Eigen::ArrayXd::Constant(n, 4000.0);
    const Eigen::ArrayXd radial = Eigen::ArrayXd::Constant(n, 900.0);
    EXPECT_NEAR(lateral_imbalance(bit, tangential, radial).force, 0.0, 1e-10);
  }
}

TEST(LateralImbalance, OneCutterAloneGivesItsOwnForce) {
  for (const double azimuth : {0.0, 1.0, 2.5, 4.0, 6.0}) {
    const geometry::BitLayout bit = ring(Eigen::ArrayXd::Constant(1, azimuth));
    const auto alone = [&](double tangential, double radial) {
      return lateral_imbalance(bit, Eigen::ArrayXd::Constant(1, tangential),
                               Eigen::ArrayXd::Constant(1, radial));
    };
    const auto turned = [](double from, double to) { return std::remainder(to - from, two_pi); };
    // Against the travel: a quarter turn behind the cutter.
    EXPECT_NEAR(alone(5000.0, 0.0).force, 5000.0, 1e-9);
    EXPECT_NEAR(turned(azimuth, alone(5000.0, 0.0).direction), -0.5 * pi, 1e-12);
    // Towards the axis and past it: to the other side.
    EXPECT_NEAR(std::abs(turned(azimuth, alone(0.0, 700.0).direction)), pi, 1e-12);
    EXPECT_NEAR(turned(azimuth, alone(0.0, -700.0).direction), 0.0, 1e-12);
    EXPECT_NEAR(alone(3000.0, 4000.0).force, 5000.0, 1e-9);
  }
}

TEST(LateralImbalance, LosingOneOfEvenCuttersLeavesItsForceTurnedAbout) {
  const int n = 5;
  const geometry::BitLayout bit = ring(Eigen::ArrayXd::LinSpaced(n, 0.0, n - 1.0) * (two_pi / n));
  Eigen::ArrayXd tangential = Eigen::ArrayXd::Constant(n, 4000.0);
  const Eigen::ArrayXd radial = Eigen::ArrayXd::Zero(n);
  tangential(2) = 0.0;
  const LateralLoad load = lateral_imbalance(bit, tangential, radial);
  EXPECT_NEAR(load.force, 4000.0, 1e-9);
  EXPECT_NEAR(std::remainder(load.direction - (bit.azimuth(2) + 0.5 * pi), two_pi), 0.0, 1e-12);
}

TEST(LateralImbalance, TurnsWithTheBitAndHasADirectionInRange) {
  samples::Draw draw(7);
  for (int trial = 0; trial < 100; ++trial) {
    geometry::BitLayout bit = samples::random_bit(draw);
    Eigen::ArrayXd tangential(bit.count()), radial(bit.count());
    for (auto& force : tangential) force = draw.between(0.0, 5000.0);
    for (auto& force : radial) force = draw.between(-1000.0, 1000.0);
    const LateralLoad before = lateral_imbalance(bit, tangential, radial);
    bit.azimuth += 1.0;
    const LateralLoad after = lateral_imbalance(bit, tangential, radial);
    EXPECT_NEAR(after.force, before.force, 1e-8);
    EXPECT_NEAR(std::remainder(after.direction - before.direction - 1.0, two_pi), 0.0, 1e-9);
    EXPECT_GE(before.direction, 0.0);
    EXPECT_LT(before.direction, two_pi);
  }
}

TEST(LateralImbalance, LetsNaNThroughAndRestsAtZero) {
  const geometry::BitLayout bit = ring(Eigen::ArrayXd::LinSpaced(2, 0.0, pi));
  const Eigen::ArrayXd zero = Eigen::ArrayXd::Zero(2);
  EXPECT_EQ(lateral_imbalance(bit, zero, zero).force, 0.0);
  EXPECT_EQ(lateral_imbalance(bit, zero, zero).direction, 0.0);
  EXPECT_TRUE(std::isnan(lateral_imbalance(bit, Eigen::ArrayXd::Constant(2, nan), zero).force));
}

TEST(GaugeLoss, OfAnUprightUnrakedCutterIsItsWornHeight) {
  // Profile angle 90 deg, no rake: the disc faces the wall, and its flat is the reach. A flat at height u
  // takes u off.
  geometry::BitLayout bit = samples::flat_faced_bit(1, 1, 8e-3, 0.0, 0.1);
  bit.profile_angle.setConstant(0.5 * pi);
  for (const double u : {0.0, 0.1e-3, 1e-3, 3e-3})
    EXPECT_NEAR(gauge_loss(bit, Eigen::ArrayXd::Constant(1, u)), u, 1e-15) << u;
}

TEST(GaugeLoss, IsCarriedByTheNextCutterWhenOneIsGone) {
  samples::Draw draw(11);
  for (int trial = 0; trial < 50; ++trial) {
    const geometry::BitLayout bit = samples::random_bit(draw);
    Eigen::ArrayXd u = Eigen::ArrayXd::Zero(bit.count());
    EXPECT_EQ(gauge_loss(bit, u), 0.0);
    Eigen::ArrayXd reach(bit.count());
    for (Eigen::Index i = 0; i < bit.count(); ++i) reach(i) = geometry::make_outline(bit, i, 0.0).reach_outer;
    Eigen::Index outermost = 0;
    const double first = reach.maxCoeff(&outermost);
    reach(outermost) = 0.0;
    u(outermost) = infinity;
    EXPECT_NEAR(gauge_loss(bit, u), first - reach.maxCoeff(), 1e-15);
    // Wear never gives gauge back.
    double last = 0.0;
    for (double worn = 0.0; worn < 1.9 * bit.shapes.front().radius; worn += 0.1 * bit.shapes.front().radius) {
      const double loss = gauge_loss(bit, Eigen::ArrayXd::Constant(bit.count(), worn));
      EXPECT_GE(loss, last);
      last = loss;
    }
    u.setConstant(infinity);
    EXPECT_NEAR(gauge_loss(bit, u), first, 1e-15);
    u(0) = nan;
    EXPECT_TRUE(std::isnan(gauge_loss(bit, u)));
  }
}

TEST(GaugeCutters, AreThoseWhoseOutlineNearlyReachesTheBitsRadius) {
  samples::Draw draw(7);
  geometry::BitLayout bit = samples::random_bit(draw);
  const Eigen::ArrayXi at_gauge = gauge_cutters(bit);
  EXPECT_GE(at_gauge.sum(), 1);
  for (Eigen::Index i = 0; i < bit.count(); ++i)
    EXPECT_EQ(at_gauge(i) != 0, geometry::make_outline(bit, i, 0.0).reach_outer > bit.bit_radius - 1e-3) << i;
  bit.bit_radius += 2e-3;
  EXPECT_EQ(gauge_cutters(bit).sum(), 0) << "a bit under size touches no wall";
}

TEST(HoleDiameterLoss, IsTwiceTheRadiusLostAndCountsLostCuttersAsGone) {
  samples::Draw draw(8);
  const geometry::BitLayout bit = samples::random_bit(draw);
  const Eigen::ArrayXd worn = Eigen::ArrayXd::Constant(bit.count(), 1e-3);
  Eigen::ArrayXi lost = Eigen::ArrayXi::Zero(bit.count());
  EXPECT_EQ(hole_diameter_loss(bit, worn, lost), 2.0 * gauge_loss(bit, worn));
  Eigen::Index outermost = 0;
  bit.radius.maxCoeff(&outermost);
  lost(outermost) = 1;
  Eigen::ArrayXd gone = worn;
  gone(outermost) = std::numeric_limits<double>::infinity();
  EXPECT_EQ(hole_diameter_loss(bit, worn, lost), 2.0 * gauge_loss(bit, gone));
}

TEST(PadClearance, IsWhatPadsHaveWornBackBeyondTheHole) {
  EXPECT_NEAR(pad_clearance(1e-3, 0.25e-3), 0.75e-3, 1e-18);
  EXPECT_LT(pad_clearance(0.0, 0.25e-3), 0.0);  // the pads rub
}

/// Four straight blades that each carry the same cutters, the outermost at gauge, and one cutter missing so
/// that a force is left over.
struct OnWall {
  geometry::BitLayout bit;
  BitMechanics mechanics;
  RockResistance rock;
  BitForces forces;
  Eigen::ArrayXd u;

  explicit OnWall(double gauge_angle) {
    geometry::BladePlan plan;
    plan.bit_diameter = 0.2;
    plan.cutters_per_blade.resize(4);
    plan.cutters_per_blade << 5, 4, 5, 4;
    plan.wing_sweep = 20.0 * pi / 180.0;
    plan.cone_angle = 12.0 * pi / 180.0;
    plan.gauge_angle = gauge_angle;
    plan.inner_back_rake = plan.outer_back_rake = 15.0 * pi / 180.0;
    plan.exposure = 8e-3;
    bit = geometry::lay_out_blades(plan, {8e-3, 13e-3, 2e-3, 0.0, 0.4e-3, pi / 4.0, 30e-6});
    // One gauge cutter on each of the four blades, a quarter turn apart.
    const Eigen::Index n = bit.count();
    for (Eigen::Index k = n - 4; k < n; ++k) {
      bit.radius(k) = bit.radius(n - 1), bit.depth(k) = bit.depth(n - 1);
      bit.profile_angle(k) = gauge_angle;
      bit.azimuth(k) = 0.25 * two_pi * static_cast<double>(n - 1 - k);
    }
    mechanics = bit_mechanics(bit, samples::made_edge_law(), 22e-3, 0.3, 1e-4);
    materials::Rock granite;
    granite.unconfined_strength = 190e6;
    granite.youngs_modulus = 60e9;
    granite.poissons_ratio = 0.25;
    granite.contact_strength_ratio = 1.5;
    rock = rock_resistance(granite, 0.0, 0.4, 0.7);
    u = Eigen::ArrayXd::Zero(n);
    forces.resize(n);
  }

  const BitForces& press(double pad_wear) {
    geometry::WornProfile profile(bit, samples::made_edge_law(), geometry::usual_spacing(bit));
    ForceMemory memory;
    const Eigen::ArrayXd share = Eigen::ArrayXd::Constant(bit.count(), 1.0 / 150.0);
    sit_on_bottom(mechanics, {u, share, rock, 31e3, infinity}, profile, memory, forces);
    press_on_wall(mechanics, bit, rock, pad_wear,
                  Eigen::Array<bool, Eigen::Dynamic, 1>::Constant(bit.count(), false), forces);
    return forces;
  }
  Eigen::Index facing_cutter() const {
    Eigen::Index most = 0;
    forces.side_force.tail(4).maxCoeff(&most);
    return bit.count() - 4 + most;
  }
};

TEST(SideForce, LeavesAGaugeCutterThatStandsOffTheWall) {
  OnWall on(75.0 * pi / 180.0);
  on.press(1.0);  // pads a metre back: all of it on gauge cutters
  const Eigen::Index facing = on.facing_cutter();
  EXPECT_GT(on.forces.side_force(facing), 0.3 * on.forces.lateral.force);
  on.u(facing) = 2e-3;
  on.press(1.0);
  ASSERT_GT(on.forces.stand_off(facing), 0.5e-3);
  EXPECT_LT(on.forces.side_force(facing), 0.02 * on.forces.lateral.force);
}

double held(double faces) {
  const double s = std::min(std::max(faces, 0.0) / 0.17, 1.0);
  return s * (2.0 - s);
}

// By hand: pads take exp(-clearance/0.1 mm) of the side force, gauge cutters share the rest by the cosine of
// the angle to it and exp(-stand-off/0.1 mm).
TEST(SideForce, IsSharedByHowNearPadsAndGaugeCuttersStand) {
  OnWall on(75.0 * pi / 180.0);
  on.press(1.0);
  const Eigen::Index facing = on.facing_cutter(), n = on.bit.count();
  on.u(facing) = 0.6e-3;
  on.press(0.05e-3);
  const LateralLoad& lateral = on.forces.lateral;
  const double gone = on.mechanics.unworn_reach - on.forces.outer_radius;
  ASSERT_NEAR(gone, 0.0, 1e-12);
  EXPECT_NEAR(on.forces.pad_force / lateral.force, std::exp(-0.5), 1e-12);
  ASSERT_GT(on.forces.stand_off(facing), 5e-6);
  const auto faces = [&](Eigen::Index i) {
    return std::max(0.0, std::cos(on.bit.azimuth(i) - lateral.direction));
  };
  const auto weight = [&](Eigen::Index i) { return faces(i) * std::exp(-on.forces.stand_off(i) / 1e-4); };
  double sum = 0.0, nearest = 0.0;
  for (Eigen::Index i = n - 4; i < n; ++i) {
    sum += weight(i);
    nearest = std::max(nearest, held(faces(i)) * std::exp(-on.forces.stand_off(i) / 1e-4));
  }
  const double left = (1.0 - std::exp(-0.5)) * nearest * lateral.force;
  for (Eigen::Index i = n - 4; i < n; ++i)
    EXPECT_NEAR(on.forces.side_force(i), left * weight(i) / sum, 1e-9 * left) << i;
}

TEST(SideForce, GrowsFromNothingOnACutterThatTurnsTowardsIt) {
  OnWall on(75.0 * pi / 180.0);
  on.press(1.0);
  const Eigen::Index only = on.facing_cutter();
  on.mechanics.gauge_share.setZero();
  on.mechanics.gauge_share(only) = 1.0;
  int barely = 0, none = 0;
  for (double past = 70.0; past <= 95.0; past += 0.5) {
    // Its own load turns the force a little with it.
    for (int turn = 0; turn < 20; ++turn) {
      on.bit.azimuth(only) = on.forces.lateral.direction + past * pi / 180.0;
      on.press(1.0);
    }
    const double faces = std::cos(on.bit.azimuth(only) - on.forces.lateral.direction);
    EXPECT_NEAR(on.forces.side_force(only), held(faces) * on.forces.lateral.force,
                1e-9 * on.forces.lateral.force)
        << past;
    if (faces <= 0.0) ++none;
    if (faces > 0.0 && faces < 0.03) ++barely;
  }
  EXPECT_GT(barely, 0);
  EXPECT_GT(none, 0);
}

TEST(SideForce, StaysOnTheBottomWherePadsAndGaugeCuttersStandBack) {
  OnWall on(75.0 * pi / 180.0);
  on.press(1.0);
  // Only the cutters that face away from the force keep the gauge.
  for (Eigen::Index i = on.bit.count() - 4; i < on.bit.count(); ++i)
    on.mechanics.gauge_share(i) = on.forces.side_force(i) > 0.0 ? 0.0 : on.mechanics.gauge_share(i);
  on.press(0.0);
  EXPECT_NEAR(on.forces.pad_force, on.forces.lateral.force, 1e-9 * on.forces.lateral.force)
      << "pads at the wall";
  on.press(3e-3);
  EXPECT_GT(on.forces.lateral.force, 100.0);
  EXPECT_LT(on.forces.pad_force, 1e-6 * on.forces.lateral.force) << "pads 3 mm off it";
  EXPECT_EQ(on.forces.side_force.maxCoeff(), 0.0);
}

TEST(SideForce, PressesNoContactPastTheRocksStrength) {
  OnWall on(75.0 * pi / 180.0);
  on.press(1.0);
  for (Eigen::Index i = 0; i < on.bit.count(); ++i)
    EXPECT_LE(on.forces.side_force(i), (1.0 + 1e-12) * on.rock.contact_strength * on.forces.contact_area(i));
}

}  // namespace
}  // namespace dullcast::cutting
