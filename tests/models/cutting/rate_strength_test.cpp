#include "models/cutting/rate_strength.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "models/common/constants.hpp"
#include "models/cutting/cutting_force.hpp"
#include "tools/samples/made_bits.hpp"

namespace dullcast::cutting {
namespace {

constexpr RateLaw law{0.1, 0.4, 0.4e-3};

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

// Strength that follows speed and depth: at twice the speed every force grows by 2^a at one depth of cut, and
// so does the weight; a cut twice as deep on a lone level edge needs 2^(1 - a) times the cutting force.
TEST(RateStrength, EveryForceFollowsSpeedAndDepthOfCut) {
  samples::Draw draw(17);
  materials::Rock rock;
  rock.unconfined_strength = 60e6;
  rock.youngs_modulus = 18e9;
  rock.poissons_ratio = 0.25;
  rock.contact_strength_ratio = 1.5;
  for (int b = 0; b < 10; ++b) {
    const geometry::BitLayout bit = samples::random_bit(draw);
    const geometry::EdgeLaw edge = samples::made_edge_law();
    geometry::WornProfile profile(bit, edge, geometry::usual_spacing(bit.shape));
    profile.update(samples::random_wear(bit, draw));
    const ForceDirections directions = force_directions(bit, edge);
    const Eigen::ArrayXd carbide = Eigen::ArrayXd::Constant(bit.count(), 0.1);
    RockResistance slow = rock_resistance(rock, 0.0, 0.4, 0.8);
    slow.rate = {0.1, 0.4, 0.4e-3};
    slow.rotary_speed = 3.0;
    RockResistance fast = slow;
    fast.rotary_speed *= 2.0;
    const double d = 1e-3, grows = std::pow(2.0, 0.1);
    // Cutters on the axis are too slow for the law's range.
    if (!((two_pi * 3.0 * bit.radius) > least_rate_speed).all()) continue;
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
}

}  // namespace
}  // namespace dullcast::cutting
