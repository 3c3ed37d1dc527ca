#include "models/cutting/rate_strength.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "models/common/constants.hpp"
#include "models/cutting/cutting_force.hpp"
#include "tools/samples/made_bits.hpp"

namespace dullcast::cutting {
namespace {

constexpr RateLaw law{0.1, 0.4, 0.4e-3};

/// A rock of 60 MPa that follows the law, under a bit that turns at the given speed, rev/s.
RockResistance made_resistance(double rotary_speed) {
  materials::Rock rock;
  rock.unconfined_strength = 60e6;
  rock.youngs_modulus = 18e9;
  rock.poissons_ratio = 0.25;
  rock.contact_strength_ratio = 1.5;
  RockResistance resistance = rock_resistance(rock, 0.0, 0.4, 0.8);
  resistance.rate = law;
  resistance.rotary_speed = rotary_speed;
  return resistance;
}

TEST(RateStrength, IsOneAtItsReferenceAndAPowerElsewhere) {
  EXPECT_EQ(strength_at_speed(law, 0.4), 1.0);
  EXPECT_EQ(strength_at_depth(law, 0.4e-3), 1.0);
  // Ten times the speed and a tenth of the depth are ten times the rate of deformation: 10^0.1 = 1.2589.
  EXPECT_NEAR(strength_at_speed(law, 4.0), 1.2589254117941673, 1e-12);
  EXPECT_NEAR(strength_at_depth(law, 0.04e-3), 1.2589254117941673, 1e-12);
  EXPECT_NEAR(strength_at_speed(law, 0.04) * strength_at_depth(law, 0.04e-3), 1.0, 1e-12);
}

TEST(RateStrength, WithoutExponentNothingActs) {
  const RateLaw none;
  for (const double x : {0.0, 1e-9, 1e-3, 10.0}) {
    EXPECT_EQ(strength_at_speed(none, x), 1.0);
    EXPECT_EQ(strength_at_depth(none, x), 1.0);
  }
}

TEST(RateStrength, IsBoundedAtRestAndInTheThinnestCut) {
  EXPECT_EQ(strength_at_speed(law, 0.0), strength_at_speed(law, least_rate_speed));
  EXPECT_GT(strength_at_speed(law, 0.0), 0.5);
  EXPECT_EQ(strength_at_depth(law, 0.0), strength_at_depth(law, least_rate_depth));
  EXPECT_LT(strength_at_depth(law, 0.0), 2.0);
}

// Strength that follows speed: at twice the speed every force grows by 2^a at one depth of cut, and so does
// the weight.
TEST(RateStrength, EveryForceFollowsSpeed) {
  samples::Draw draw(17);
  int tried = 0;
  for (int b = 0; b < 10; ++b) {
    const geometry::BitLayout bit = samples::random_bit(draw);
    const geometry::EdgeLaw edge = samples::made_edge_law();
    geometry::WornProfile profile(bit, edge, geometry::usual_spacing(bit));
    profile.update(samples::random_wear(bit, draw));
    const ForceDirections directions = force_directions(bit, edge);
    const Eigen::ArrayXd carbide = Eigen::ArrayXd::Constant(bit.count(), 0.1);
    const RockResistance slow = made_resistance(3.0);
    RockResistance fast = slow;
    fast.rotary_speed *= 2.0;
    const double d = 1e-3, grows = std::pow(2.0, 0.1);
    // Cutters on the axis are too slow for the law's range.
    if (!((two_pi * 3.0 * bit.radius) > least_rate_speed).all()) continue;
    ++tried;
    CutterLoads at_slow, at_fast;
    cutter_loads(profile, slow, carbide, d, at_slow);
    cutter_loads(profile, fast, carbide, d, at_fast);
    EXPECT_NEAR(axial_force(profile, fast, directions, carbide, d) /
                    axial_force(profile, slow, directions, carbide, d),
                grows, 1e-12);
    EXPECT_NEAR(cutter_torque(at_fast, fast) / cutter_torque(at_slow, slow), grows, 1e-12);
    EXPECT_NEAR(axial_force(at_slow, slow, directions), axial_force(profile, slow, directions, carbide, d),
                1e-12 * axial_force(profile, slow, directions, carbide, d));
    // What is cut and what bears are the same: only how strong the rock is differs.
    EXPECT_TRUE((at_fast.area == at_slow.area).all());
    EXPECT_TRUE((at_fast.contact_area == at_slow.contact_area).all());
    for (Eigen::Index i = 0; i < bit.count(); ++i) {
      EXPECT_NEAR(at_slow.speed_strength(i), strength_at_speed(slow.rate, two_pi * 3.0 * bit.radius(i)),
                  1e-14);
      if (at_slow.area(i) > 0.0) {
        EXPECT_NEAR(at_slow.cut_strength(i),
                    at_slow.speed_strength(i) *
                        strength_at_depth(slow.rate, at_slow.depth_moment(i) / at_slow.area(i)),
                    1e-14);
      }
    }
  }
  EXPECT_GE(tried, 5);
}

/// One bevelled cutter on the axis of a flat face, its edge worn level.
struct LevelEdge {
  geometry::BitLayout bit = samples::flat_faced_bit(1, 1, 8e-3, 20.0 * pi / 180.0, 30e-3);
  geometry::EdgeLaw edge = samples::made_edge_law();
  geometry::WornProfile profile{bit, edge, 8e-3 / 64.0};
  LevelEdge() { profile.update(Eigen::ArrayXd::Constant(1, 4e-3)); }
  CutterLoads loads(double d) const {
    CutterLoads found;
    cutter_loads(profile, made_resistance(3.0), Eigen::ArrayXd::Constant(1, 0.1), d, found);
    return found;
  }
};

// Specific energy falls with depth of cut [pub: Teale 1965]: cut twice as deep, a level edge needs 2^(1 - a)
// times the force of cutting.
TEST(RateStrength, ACutTwiceAsDeepNeedsLessThanTwiceTheForce) {
  const LevelEdge level;
  const CutterLoads one = level.loads(0.05e-3), two = level.loads(0.1e-3);
  const double force = two.cut_strength(0) * two.area(0) / (one.cut_strength(0) * one.area(0));
  // The sides of the flat add a little edge with the depth: 1 %.
  EXPECT_NEAR(force / (two.area(0) / one.area(0)), std::pow(2.0, -law.exponent), 0.01);
}

// Edge that just begins to cut must not count by its length, or forces would jump: the mean depth is over the
// rock cut. Two cutters of one radius, the later one deeper by d: the other has nothing left to cut, and a
// little less makes next to no difference.
TEST(RateStrength, GrowsFromNothingWithTheCut) {
  const geometry::BitLayout bit = samples::flat_faced_bit(12, 4, 8e-3, 15.0 * pi / 180.0, 8e-3);
  geometry::WornProfile profile(bit, samples::made_edge_law(), 8e-3 / 16.0);
  const RockResistance rock = made_resistance(1.5);
  const ForceDirections directions = force_directions(bit, samples::made_edge_law());
  const Eigen::ArrayXd carbide = Eigen::ArrayXd::Constant(12, 0.1);
  Eigen::ArrayXd worn = Eigen::ArrayXd::Constant(12, 2e-3);
  double last = 0.0, last_bears = 0.0;
  const double step = 1e-6;
  for (int k = 0; k <= 400; ++k) {
    worn(6) = 2e-3 + step * k;  // one cutter falls behind its neighbours, till they cut all that it cut
    profile.update(worn);
    CutterLoads loads;
    cutter_loads(profile, rock, carbide, 0.2e-3, loads);
    const double weight = axial_force(loads, rock, directions), bears = loads.contact_area.sum();
    if (k > 0) {
      EXPECT_NEAR(weight / last, 1.0, 0.03) << k;
      EXPECT_NEAR(bears / last_bears, 1.0, 0.03) << k;
    }
    last = weight, last_bears = bears;
  }
}

}  // namespace
}  // namespace dullcast::cutting
