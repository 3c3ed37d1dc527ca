#include <gtest/gtest.h>

#include <cmath>

#include "models/cutting_force.hpp"
#include "support/made_bits.hpp"

// Sharp bits in closed form: Detournay & Defourny, Int. J. Rock Mech. Min. Sci. 29(1), 1992 [pub].
namespace dullcast {
namespace {

using testing::Draw;

/// An edge so sharp that its contact weighs nothing: a land of a thousandth of a nanometre.
constexpr double sharpest = 1e-12;

EdgeLaw sharp_law() {
  EdgeLaw law = testing::made_edge_law();
  law.land_reference = 0.0;
  return law;
}

RockResistance resistance(double efficiency) {
  Rock rock;
  rock.unconfined_strength = 70e6;
  rock.youngs_modulus = 20e9;
  rock.poissons_ratio = 0.25;
  rock.contact_strength_ratio = 1.5;
  return rock_resistance(rock, 0.0, 0.4, efficiency);
}

struct Sharp {
  WornProfile profile;
  ForceDirections directions;
  Eigen::ArrayXd share;
  explicit Sharp(BitLayout bit)
      : profile((bit.shape.edge_radius = sharpest, bit), sharp_law(), usual_spacing(bit.shape)),
        directions(force_directions(bit, sharp_law())),
        share(Eigen::ArrayXd::Zero(bit.count())) {
    profile.update(Eigen::ArrayXd::Zero(bit.count()));
  }
};

// Contact of the land: 1.5 times the strength over 1e-12 m against strength over d/e: under 2e-7 at the least
// d below.
constexpr double rounding = 5e-7;

TEST(SharpBit, TorqueIsHalfTheEnergyTimesDepthOfCutTimesRadiusSquaredOnAnyProfile) {
  Draw draw(31);
  for (int b = 0; b < 40; ++b) {
    const Sharp sharp(testing::random_bit(draw));
    const double R = sharp.profile.outer_radius(), core = sharp.profile.core_radius();
    for (const double d : {2e-5, 5e-4, 3e-3}) {
      for (const double e : {1.0, 0.6}) {
        CutterLoads loads;
        cutter_loads(sharp.profile, resistance(e), sharp.share, d, loads);
        const double expected = 70e6 * d * (R * R - core * core) / (2.0 * e);
        EXPECT_NEAR(cutter_torque(loads, resistance(e)) / expected, 1.0, rounding)
            << "bit " << b << ", d " << d;
      }
    }
  }
}

TEST(SharpBit, WeightIsInclinationTimesEnergyTimesDepthOfCutTimesRadiusOnAFlatProfile) {
  for (const double back_rake : {0.1, 0.26, 0.4}) {
    for (const int blades : {2, 3, 5}) {
      const BitLayout bit = testing::flat_faced_bit(11, blades, 7e-3, back_rake, 8e-3);
      const Sharp sharp(bit);
      const double zeta = std::tan(back_rake + face_friction_angle(back_rake, sharp_law()));
      const double R = sharp.profile.outer_radius(), core = sharp.profile.core_radius();
      for (const double d : {2e-5, 5e-4, 3e-3}) {
        const double weight = axial_force(sharp.profile, resistance(0.8), sharp.directions, sharp.share, d);
        EXPECT_NEAR(weight / (zeta * 70e6 * d * (R - core) / 0.8), 1.0, rounding)
            << back_rake << " " << blades;
      }
    }
  }
}

TEST(SharpBit, SpecificEnergyOfTheHoleIsTheRocksOwnOverEfficiency) {
  // 2 T/(R^2 d) of a bit that reaches its axis.
  const Sharp sharp(testing::flat_faced_bit(11, 4, 7e-3, 0.26, 8e-3));
  ASSERT_EQ(sharp.profile.core_radius(), 0.0);
  CutterLoads loads;
  cutter_loads(sharp.profile, resistance(0.7), sharp.share, 1e-3, loads);
  const double R = sharp.profile.outer_radius();
  EXPECT_NEAR(2.0 * cutter_torque(loads, resistance(0.7)) / (R * R * 1e-3) / (70e6 / 0.7), 1.0, rounding);
}

}  // namespace
}  // namespace dullcast
