#include "models/cutting/weight_balance.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "support/numbers.hpp"
#include "tools/samples/made_bits.hpp"

namespace dullcast::cutting {
namespace {

using samples::Draw;
using testing::degree;
constexpr double unlimited = std::numeric_limits<double>::infinity();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
const BladeBearing clear{};

RockResistance resistance_of(double strength) {
  materials::Rock rock;
  rock.unconfined_strength = strength;
  rock.youngs_modulus = 300.0 * strength;
  rock.poissons_ratio = 0.25;
  rock.contact_strength_ratio = 1.5;
  return rock_resistance(rock, 0.0, 0.4, 0.9);
}

struct OnBottom {
  geometry::WornProfile profile;
  ForceDirections directions;
  Eigen::ArrayXd carbide_share;
  RockResistance rock = resistance_of(60e6);

  OnBottom(const geometry::BitLayout& bit, const Eigen::ArrayXd& u)
      : profile(bit, samples::made_edge_law(), geometry::usual_spacing(bit)),
        directions(force_directions(bit, samples::made_edge_law())),
        carbide_share(Eigen::ArrayXd::Constant(bit.count(), 1.0 / 150.0)) {
    profile.update(u);
  }
  Balance balance(double weight, double most = unlimited, const BladeBearing& blades = clear,
                  double guess = 0.0) const {
    return balance_weight(profile, rock, directions, carbide_share, weight, most, blades, guess);
  }
  double force(double d) const { return axial_force(profile, rock, directions, carbide_share, d); }
};

TEST(WeightBalance, TheDepthOfCutFoundCarriesTheWeight) {
  Draw draw(21);
  for (int b = 0; b < 40; ++b) {
    const geometry::BitLayout bit = samples::random_bit(draw);
    const OnBottom on(bit, samples::random_wear(bit, draw));
    for (const double weight : {10.0, 1e3, 2e4, 7e4}) {
      const Balance balance = on.balance(weight);
      EXPECT_NEAR(on.force(balance.depth_of_cut) / weight, 1.0, 1e-9) << "bit " << b;
      EXPECT_EQ(balance.weight, weight);
      EXPECT_EQ(balance.blade_weight, 0.0);
      EXPECT_FALSE(balance.feed_limited);
    }
  }
}

TEST(WeightBalance, TheRootIsUniqueWhateverTheGuess) {
  Draw draw(22);
  const geometry::BitLayout bit = samples::random_bit(draw);
  const OnBottom on(bit, samples::random_wear(bit, draw));
  const double d = on.balance(3e4).depth_of_cut;
  for (const double guess : {1e-9, 1e-6, 0.1 * d, 0.999999 * d, d, 1.000001 * d, 10.0 * d, 1.0})
    EXPECT_NEAR(on.balance(3e4, unlimited, clear, guess).depth_of_cut / d, 1.0, 1e-9) << guess;
}

TEST(WeightBalance, MoreWeightCutsDeeper) {
  Draw draw(23);
  const geometry::BitLayout bit = samples::random_bit(draw);
  const OnBottom on(bit, samples::random_wear(bit, draw));
  double before = 0.0;
  for (double weight = 100.0; weight < 1e5; weight *= 1.1) {
    const double d = on.balance(weight, unlimited, clear, before).depth_of_cut;
    ASSERT_GT(d, before);
    before = d;
  }
}

TEST(WeightBalance, TheFeedLimitTakesWhatWeightItNeeds) {
  Draw draw(24);
  const geometry::BitLayout bit = samples::random_bit(draw);
  const OnBottom on(bit, samples::random_wear(bit, draw));
  const double free = on.balance(3e4).depth_of_cut;
  for (const double guess : {0.0, 0.2 * free, free}) {
    const Balance held = on.balance(3e4, 0.5 * free, clear, guess);
    EXPECT_TRUE(held.feed_limited);
    EXPECT_EQ(held.depth_of_cut, 0.5 * free);
    EXPECT_NEAR(held.weight, on.force(0.5 * free), 1e-9 * held.weight);
    EXPECT_LT(held.weight, 3e4);
    const Balance not_held = on.balance(3e4, 2.0 * free, clear, guess);
    EXPECT_FALSE(not_held.feed_limited);
    EXPECT_NEAR(not_held.depth_of_cut / free, 1.0, 1e-9);
  }
}

TEST(WeightBalance, RubbingBladesTakeWhatTheCuttersLeave) {
  geometry::BitLayout bit = samples::flat_faced_bit(14, 4, 8e-3, 15.0 * degree, 7e-3);
  bit.exposure.setConstant(1e-3);
  const OnBottom on(bit, Eigen::ArrayXd::Zero(14));
  const BladeSurfaces surfaces = blade_surfaces(bit);
  const BladeBearing blades{&surfaces, 20e-3, 0.0, rubbing_limit(on.profile, surfaces)};
  const double limit = blades.limit.depth_of_cut;
  const double begins = on.force(limit), weight = 1.5 * begins;
  const double free = on.balance(weight).depth_of_cut;
  ASSERT_GT(free, limit);
  for (const double guess : {0.0, 0.1 * free, free}) {
    const Balance rubs = on.balance(weight, unlimited, blades, guess);
    EXPECT_GT(rubs.depth_of_cut, limit);
    EXPECT_LT(rubs.depth_of_cut, free);
    EXPECT_EQ(rubs.weight, weight);
    EXPECT_NEAR(rubs.blade_weight + on.force(rubs.depth_of_cut), weight, 1e-8 * weight);
    EXPECT_GT(rubs.blade_weight, 0.0);
    EXPECT_GT(rubs.blade_moment, 0.0);
  }
  EXPECT_EQ(on.balance(0.9 * begins, unlimited, blades).blade_weight, 0.0);
  // The lower limit binds: a feed held short of the blades leaves them clear.
  const Balance both = on.balance(weight, 0.5 * limit, blades);
  EXPECT_TRUE(both.feed_limited);
  EXPECT_EQ(both.blade_weight, 0.0);
}

TEST(WeightBalance, WhatBladesAloneBearCutsNothing) {
  geometry::BitLayout bit = samples::flat_faced_bit(14, 4, 8e-3, 15.0 * degree, 7e-3);
  bit.exposure.setConstant(1e-3);
  const OnBottom on(bit, Eigen::ArrayXd::Constant(14, 3e-3));
  const BladeSurfaces surfaces = blade_surfaces(bit);
  const BladeBearing blades{&surfaces, 20e-3, 0.0, rubbing_limit(on.profile, surfaces)};
  EXPECT_EQ(blades.limit.depth_of_cut, 0.0);
  const double bears = blade_contact(on.profile, on.rock, blades, 0.0).weight;
  const Balance stands = on.balance(0.9 * bears, unlimited, blades);
  EXPECT_EQ(stands.depth_of_cut, 0.0);
  EXPECT_EQ(stands.blade_weight, 0.9 * bears);
  EXPECT_GT(on.balance(1.1 * bears, unlimited, blades).depth_of_cut, 0.0);
}

TEST(WeightBalance, OffBottomNothingIsCut) {
  Draw draw(26);
  const geometry::BitLayout bit = samples::random_bit(draw);
  const OnBottom on(bit, samples::random_wear(bit, draw));
  for (const double weight : {0.0, -5e3}) {
    const Balance off = on.balance(weight);
    EXPECT_EQ(off.depth_of_cut, 0.0);
    EXPECT_EQ(off.weight, 0.0);
    EXPECT_EQ(off.blade_weight, 0.0);
  }
  EXPECT_EQ(on.balance(3e4, 0.0).depth_of_cut, 0.0);
}

TEST(WeightBalance, RefusesWhatIsNotANumber) {
  Draw draw(27);
  const geometry::BitLayout bit = samples::random_bit(draw);
  OnBottom on(bit, samples::random_wear(bit, draw));
  EXPECT_THROW(on.balance(not_a_number), std::runtime_error);
  EXPECT_THROW(on.balance(3e4, not_a_number), std::runtime_error);
  EXPECT_THROW(on.balance(not_a_number, not_a_number), std::runtime_error);
  on.rock.specific_energy = not_a_number;
  EXPECT_THROW(on.balance(3e4), std::runtime_error);
}

TEST(WeightBalance, CuttersThatCuttingDoesNotPushUpAreToldAsSuch) {
  Draw draw(28);
  const geometry::BitLayout bit = samples::random_bit(draw);
  OnBottom on(bit, Eigen::ArrayXd::Zero(bit.count()));
  on.directions.axial.setZero();  // as of a single cutter at gauge whose face looks outward
  try {
    on.balance(3e5);
    FAIL() << "carries the weight";
  } catch (const std::runtime_error& refusal) {
    EXPECT_NE(std::string(refusal.what()).find("pushes none of these cutters up"), std::string::npos)
        << refusal.what();
  }
}

TEST(WeightBalance, ADullBitStopsDrillingOnAWeightThatASharpOneDrilledWith) {
  // Field observation [cp]; here it follows from the contact being mobilised by the cut.
  const geometry::BitLayout bit = samples::flat_faced_bit(14, 4, 8e-3, 15.0 * degree, 7e-3);
  OnBottom sharp(bit, Eigen::ArrayXd::Zero(14)), dull(bit, Eigen::ArrayXd::Constant(14, 3e-3));
  sharp.rock = dull.rock = resistance_of(130e6);
  const double weight = 35e3;
  const double d_sharp = sharp.balance(weight).depth_of_cut, d_dull = dull.balance(weight).depth_of_cut;
  EXPECT_GT(d_sharp, 0.2e-3);
  EXPECT_GT(d_dull, 0.0);
  EXPECT_LT(d_dull, 0.1 * d_sharp);
  // Not stuck for good: enough weight and it drills again.
  EXPECT_GT(dull.balance(20.0 * weight).depth_of_cut, d_sharp);
}

}  // namespace
}  // namespace dullcast::cutting
