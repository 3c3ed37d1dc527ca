#include <gtest/gtest.h>

#include <cmath>

#include "models/cutting/cutting_force.hpp"
#include "tools/samples/made_bits.hpp"

// Sharp bits in closed form: Detournay & Defourny, Int. J. Rock Mech. Min. Sci. 29(1), 1992 [pub].
namespace dullcast::published {
namespace {

using samples::Draw;

/// An edge so sharp that its contact weighs nothing: a land of a thousandth of a nanometre.
constexpr double sharpest = 1e-12;

geometry::EdgeLaw sharp_law() {
  geometry::EdgeLaw law = samples::made_edge_law();
  law.land_reference = 0.0;
  return law;
}

cutting::RockResistance resistance(double efficiency) {
  materials::Rock rock;
  rock.unconfined_strength = 70e6;
  rock.youngs_modulus = 20e9;
  rock.poissons_ratio = 0.25;
  rock.contact_strength_ratio = 1.5;
  return cutting::rock_resistance(rock, 0.0, 0.4, efficiency);
}

struct Sharp {
  geometry::WornProfile profile;
  cutting::ForceDirections directions;
  Eigen::ArrayXd share;
  explicit Sharp(geometry::BitLayout bit)
      : profile((bit.shapes.front().edge_radius = sharpest, bit), sharp_law(), geometry::usual_spacing(bit)),
        directions(cutting::force_directions(bit, sharp_law())),
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
    const Sharp sharp(samples::random_bit(draw));
    const double R = sharp.profile.outer_radius(), core = sharp.profile.core_radius();
    for (const double d : {2e-5, 5e-4, 3e-3}) {
      for (const double e : {1.0, 0.6}) {
        cutting::CutterLoads loads;
        cutting::cutter_loads(sharp.profile, resistance(e), sharp.share, d, loads);
        const double expected = 70e6 * d * (R * R - core * core) / (2.0 * e);
        EXPECT_NEAR(cutting::cutter_torque(loads, resistance(e)) / expected, 1.0, rounding)
            << "bit " << b << ", d " << d;
      }
    }
  }
}

TEST(SharpBit, WeightIsInclinationTimesEnergyTimesDepthOfCutTimesRadiusOnAFlatProfile) {
  for (const double back_rake : {0.1, 0.26, 0.4}) {
    for (const int blades : {2, 3, 5}) {
      const geometry::BitLayout bit = samples::flat_faced_bit(11, blades, 7e-3, back_rake, 8e-3);
      const Sharp sharp(bit);
      const double zeta = std::tan(back_rake + geometry::face_friction_angle(back_rake, sharp_law()));
      const double R = sharp.profile.outer_radius(), core = sharp.profile.core_radius();
      for (const double d : {2e-5, 5e-4, 3e-3}) {
        const double weight =
            cutting::axial_force(sharp.profile, resistance(0.8), sharp.directions, sharp.share, d);
        EXPECT_NEAR(weight / (zeta * 70e6 * d * (R - core) / 0.8), 1.0, rounding)
            << back_rake << " " << blades;
      }
    }
  }
}

TEST(SharpBit, SpecificEnergyOfTheHoleIsTheRocksOwnOverEfficiency) {
  // 2 T/(R^2 d) of a bit that reaches its axis.
  const Sharp sharp(samples::flat_faced_bit(11, 4, 7e-3, 0.26, 8e-3));
  ASSERT_EQ(sharp.profile.core_radius(), 0.0);
  cutting::CutterLoads loads;
  cutting::cutter_loads(sharp.profile, resistance(0.7), sharp.share, 1e-3, loads);
  const double R = sharp.profile.outer_radius();
  EXPECT_NEAR(2.0 * cutting::cutter_torque(loads, resistance(0.7)) / (R * R * 1e-3) / (70e6 / 0.7), 1.0,
              rounding);
}

}  // namespace
}  // namespace dullcast::published
