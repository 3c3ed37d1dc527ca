#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "models/cutting/bit_forces.hpp"
#include "models/cutting/sixty_megapascals.hpp"
#include "tools/samples/made_bits.hpp"

namespace dullcast::cutting {
namespace {

using samples::Draw;

/// A random bit whose cutters are worn past what they stand out by, so that its blades bear.
struct Rubbing {
  Draw draw;
  geometry::BitLayout bit;
  BitMechanics mechanics;
  geometry::WornProfile profile;
  Eigen::ArrayXd worn, share;
  RockResistance rock = bearing();

  explicit Rubbing(unsigned seed)
      : draw(seed),
        bit(shallow(samples::random_bit(draw))),
        mechanics(bit_mechanics(bit, samples::made_edge_law(), 20e-3, 0.3, 1e-3)),
        profile(bit, samples::made_edge_law(), geometry::usual_spacing(bit)),
        worn(samples::random_wear(bit, draw)),
        share(Eigen::ArrayXd::Constant(bit.count(), 1.0 / 150.0)) {
    profile.update(worn);
  }
  static RockResistance bearing() {
    RockResistance rock = sixty_megapascals();
    rock.bearing_strength = 240e6;
    rock.core_strength = 60e6;
    return rock;
  }
  static geometry::BitLayout shallow(geometry::BitLayout bit) {
    bit.exposure.setConstant(1e-3);
    return bit;
  }
  ForceDemand demand(double weight, double lost_steel) const {
    return {worn, share, rock, weight, std::numeric_limits<double>::infinity(), lost_steel};
  }
};

// What was found for other outlines, surfaces or steel is not taken for these.
TEST(BladeClearances, KeptOnesAreThoseFoundAnewToTheLastBit) {
  Rubbing one(5), other(6);
  BladeClearances kept;
  int bear = 0;
  const auto the_same = [&](const Rubbing& of, double lost_steel) {
    const BladeBearing blades{&of.mechanics.surfaces, 20e-3, lost_steel, {0.0, 0.0}};
    kept.find(of.profile, of.mechanics.surfaces, lost_steel);
    for (const double d : {0.5e-3, 2e-3, 8e-3}) {
      const BladeContact here = kept.contact(of.rock, blades, d),
                         anew = blade_contact(of.profile, of.rock, blades, d);
      EXPECT_EQ(here.weight, anew.weight);
      EXPECT_EQ(here.moment, anew.moment);
      bear += anew.weight > 0.0;
    }
  };
  the_same(one, 0.0);
  the_same(one, 0.0);
  the_same(one, 0.4e-3);
  one.profile.update(one.worn + 0.2e-3);
  the_same(one, 0.4e-3);
  the_same(other, 0.4e-3);
  the_same(one, 0.4e-3);
  EXPECT_GT(bear, 9);
}

TEST(SitOnBottom, BladesStandWhileTheyHaveLostLessThanTheTolerance) {
  constexpr ForceTolerance tolerance{1e-6, 1e-6};
  Rubbing bit(5);
  ForceMemory memory;
  BitForces forces;
  forces.resize(bit.bit.count());
  int stood = 0, followed = 0;
  double stands_at = -1.0;
  for (int k = 0; k < 40; ++k) {
    // Slowly, so that a blade that were found anew whenever it has lost little would creep away.
    const double lost_steel = 0.3e-6 * k, weight = k % 2 == 0 ? 90e3 : 91e3;
    sit_on_bottom(bit.mechanics, bit.demand(weight, lost_steel), bit.profile, memory, forces, tolerance);
    ASSERT_GT(forces.balance.blade_weight, 0.0);
    EXPECT_LE(std::abs(memory.found_steel - lost_steel), tolerance.worn_height);
    ++(memory.found_steel == stands_at ? stood : followed);
    stands_at = memory.found_steel;
    ForceMemory nothing;
    BitForces exact;
    exact.resize(bit.bit.count());
    geometry::WornProfile profile(bit.bit, samples::made_edge_law(), geometry::usual_spacing(bit.bit));
    sit_on_bottom(bit.mechanics, bit.demand(weight, lost_steel), profile, nothing, exact);
    EXPECT_EQ(nothing.found_steel, lost_steel) << "without a tolerance nothing stands";
    // What blades lose lets the bit down by so much, and by as many times that as a limit falls by.
    EXPECT_NEAR(forces.balance.depth_of_cut, exact.balance.depth_of_cut,
                rubbing_limit_falls_by * tolerance.worn_height + 1e-4 * exact.balance.depth_of_cut);
  }
  EXPECT_GT(stood, 20);
  EXPECT_GT(followed, 8);
}

}  // namespace
}  // namespace dullcast::cutting
