// How forces and loads grow with the depth of cut, and balances that make use of it.
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <utility>

#include "models/cutting/sixty_megapascals.hpp"
#include "models/cutting/weight_balance.hpp"
#include "tools/samples/made_bits.hpp"

namespace dullcast::cutting {
namespace {

using samples::Draw;

RockResistance strained_rock() {
  RockResistance rock = sixty_megapascals();
  rock.rate = {0.12, 1.0, 1e-3};
  rock.rotary_speed = 1.5;
  return rock;
}

/// A random worn bit on that rock.
struct WornBit {
  explicit WornBit(unsigned seed)
      : draw(seed),
        bit(samples::random_bit(draw)),
        profile(bit, samples::made_edge_law(), geometry::usual_spacing(bit)),
        directions(force_directions(bit, samples::made_edge_law())),
        carbide_share(Eigen::ArrayXd::Constant(bit.count(), 1.0 / 150.0)) {
    profile.update(samples::random_wear(bit, draw));
  }
  double force(double d) const { return axial_force(profile, rock, directions, carbide_share, d); }
  CutterLoads loads(double d, double further = 0.0) {
    CutterLoads found;
    cutter_loads(profile, rock, carbide_share, d, found, storage, further);
    return found;
  }
  Draw draw;
  geometry::BitLayout bit;
  geometry::WornProfile profile;
  ForceDirections directions;
  Eigen::ArrayXd carbide_share;
  RockResistance rock = strained_rock();
  ForceStorage storage;
};

// Beside the difference of two forces a little apart: what they miss is of its square, and of hand-overs
// between.
TEST(ForceSlope, IsThatOfTheForce) {
  for (unsigned seed = 1; seed <= 12; ++seed) {
    WornBit worn(seed);
    for (const double d : {0.15e-3, 1e-3, 4e-3}) {
      const double way = 1e-4 * d;
      const double by_difference = (worn.force(d + way) - worn.force(d - way)) / (2.0 * way);
      for (const bool loads_follow : {false, true}) {
        axial_force(worn.profile, worn.rock, worn.directions, worn.carbide_share, d, worn.storage,
                    loads_follow);
        EXPECT_NEAR(worn.storage.force_slope / by_difference, 1.0, 1e-3) << seed << ' ' << d;
      }
    }
  }
}

// What is cut goes on nearly straight. What bears on a cutter that just begins to cut does not: over the most
// that one bears it is wrong by no more than the way, and for most cutters by a tenth of it.
TEST(ForceSlope, LoadsGoStraightOnALittle) {
  Eigen::Index close = 0, all = 0;
  for (unsigned seed = 1; seed <= 12; ++seed) {
    WornBit worn(seed);
    const double d = 1e-3;
    for (const double share : {1e-2, -1e-2, 1e-3}) {
      const CutterLoads there = worn.loads(d * (1.0 + share)), on = worn.loads(d, share * d);
      const auto apart = [](const Eigen::ArrayXd& a, const Eigen::ArrayXd& b) {
        return (a - b).abs().maxCoeff() / b.maxCoeff();
      };
      const double way = std::abs(share);
      EXPECT_LT(apart(on.area, there.area), 0.1 * way) << seed;
      EXPECT_LT(apart(on.depth_moment, there.depth_moment), 0.1 * way) << seed;
      for (const auto& [straight, found] : {std::pair(&on.contact_axial, &there.contact_axial),
                                            {&on.contact_area, &there.contact_area},
                                            {&on.flat_mobilised, &there.flat_mobilised},
                                            {&on.diamond_area, &there.diamond_area}}) {
        EXPECT_LT(apart(*straight, *found), way) << seed;
        close += ((*straight - *found).abs() <= 0.1 * way * found->maxCoeff()).count();
        all += found->size();
      }
      EXPECT_GT(apart(worn.loads(d).area, there.area), 0.2 * way) << "they do change";
    }
  }
  EXPECT_GT(close, 9 * all / 10);
}

// From a guess within reach one look at the force does; what it leaves is of the square of how far off it
// was.
TEST(WeightBalance, ReachesTheSolutionFromNearByWithOneLook) {
  for (unsigned seed = 1; seed <= 12; ++seed) {
    WornBit worn(seed);
    const double weight = worn.force(1e-3), guess = 1.008e-3;
    BalanceStorage storage;
    storage.loads_follow = true;
    storage.reach = 0.01;
    const Balance balance =
        balance_weight(worn.profile, worn.rock, worn.directions, worn.carbide_share, weight,
                       std::numeric_limits<double>::infinity(), {}, guess, weight / 1e-3, &storage, 1e-6);
    EXPECT_EQ(balance.tried, guess);
    EXPECT_NEAR(balance.depth_of_cut, 1e-3, 0.1 * (guess - 1e-3)) << seed;
    storage.reach = 1e-4;
    const Balance closer =
        balance_weight(worn.profile, worn.rock, worn.directions, worn.carbide_share, weight,
                       std::numeric_limits<double>::infinity(), {}, guess, weight / 1e-3, &storage, 1e-6);
    EXPECT_NE(closer.tried, guess);
    EXPECT_NEAR(closer.depth_of_cut, 1e-3, 1e-7 * 1e-3) << seed;
  }
}

}  // namespace
}  // namespace dullcast::cutting
