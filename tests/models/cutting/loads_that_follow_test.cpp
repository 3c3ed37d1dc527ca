#include <gtest/gtest.h>

#include "models/cutting/sixty_megapascals.hpp"
#include "tools/samples/made_bits.hpp"

namespace dullcast::cutting {
namespace {

using samples::Draw;

// What is found along with a force is what would be found anew, and nothing of another depth of cut, share or
// rock is taken for it.
TEST(CuttingForce, LoadsThatFollowAForceAreThoseFoundAnewToTheLastBit) {
  Draw draw(21);
  const geometry::BitLayout bit = samples::random_bit(draw);
  geometry::WornProfile profile(bit, samples::made_edge_law(), geometry::usual_spacing(bit));
  profile.update(samples::random_wear(bit, draw));
  const ForceDirections directions = force_directions(bit, samples::made_edge_law());
  Eigen::ArrayXd carbide_share = Eigen::ArrayXd::Constant(bit.count(), 1.0 / 150.0);
  ForceStorage kept;
  const auto the_same = [&](const RockResistance& rock, double d) {
    CutterLoads follow;
    cutter_loads(profile, rock, carbide_share, d, follow, kept);
    CutterLoads anew;
    cutter_loads(profile, rock, carbide_share, d, anew);
    EXPECT_TRUE((follow.contact_axial == anew.contact_axial).all());
    EXPECT_TRUE((follow.contact_moment == anew.contact_moment).all());
    EXPECT_TRUE((follow.depth_moment == anew.depth_moment).all());
    EXPECT_TRUE((follow.diamond_area == anew.diamond_area).all());
  };
  RockResistance rock = sixty_megapascals();
  for (const bool loads_follow : {false, true}) {
    EXPECT_EQ(axial_force(profile, rock, directions, carbide_share, 1e-3, kept, loads_follow),
              axial_force(profile, rock, directions, carbide_share, 1e-3));
    the_same(rock, 1e-3);
    the_same(rock, 1.1e-3);
    rock.mobilisation_slope *= 1.5;
    the_same(rock, 1.1e-3);
    carbide_share *= 3.0;
    the_same(rock, 1.1e-3);
    rock = sixty_megapascals();
    profile.update(samples::random_wear(bit, draw));
    the_same(rock, 1.1e-3);
  }
}

}  // namespace
}  // namespace dullcast::cutting
