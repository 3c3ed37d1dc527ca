#include "models/cutting/cutting_force.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <limits>
#include <vector>

#include "support/numbers.hpp"
#include "tools/samples/made_bits.hpp"

namespace dullcast::cutting {
namespace {

using samples::Draw;
using testing::degree;

materials::Rock made_rock(double strength = 60e6) {
  materials::Rock rock;
  rock.unconfined_strength = strength;
  rock.friction_angle = 35.0 * degree;
  rock.youngs_modulus = 300.0 * strength;
  rock.poissons_ratio = 0.25;
  rock.contact_strength_ratio = 1.5;
  return rock;
}

RockResistance made_resistance() {
  return rock_resistance(made_rock(), 0.0, 0.4, 0.8);
}

/// A bit's profile, force directions and shares, ready to be loaded.
struct Loaded {
  geometry::WornProfile profile;
  ForceDirections directions;
  Eigen::ArrayXd carbide_share;

  Loaded(const geometry::BitLayout& bit, const Eigen::ArrayXd& u, double spacing_share = 1.0 / 16.0,
         const geometry::EdgeLaw& law = samples::made_edge_law())
      : profile(bit, law, spacing_share * bit.shapes.front().radius),
        directions(force_directions(bit, law)),
        carbide_share(Eigen::ArrayXd::Constant(bit.count(), 1.0 / 150.0)) {
    profile.update(u);
  }
  CutterLoads loads(double d, const RockResistance& rock = made_resistance()) const {
    CutterLoads loads;
    cutter_loads(profile, rock, carbide_share, d, loads);
    return loads;
  }
  double weight(double d, const RockResistance& rock = made_resistance()) const {
    return axial_force(profile, rock, directions, carbide_share, d);
  }
};

TEST(CuttingForce, ResistanceOfARock) {
  const RockResistance r = rock_resistance(made_rock(60e6), 2e6, 0.35, 0.7);
  // Mohr-Coulomb at 35 deg: UCS + 3.6902 p_d.
  EXPECT_NEAR(r.specific_energy, 60e6 + 3.6902 * 2e6, 1e3);
  EXPECT_NEAR(r.contact_strength, 1.5 * r.specific_energy, 1.0);
  EXPECT_EQ(r.bearing_strength, r.specific_energy);  // unless a bearing ratio is given
  EXPECT_NEAR(r.mobilisation_slope, 4.0 * (1.0 - 0.0625) * r.contact_strength / 18e9, 1e-12);
  EXPECT_EQ(r.flat_friction, 0.35);
  EXPECT_EQ(r.drilling_efficiency, 0.7);
}

// Stones raise all strengths of their ground alike, that under blades too.
TEST(CuttingForce, StonesRaiseEveryStrengthByTheMeanOfTheirShares) {
  const RockResistance ground = rock_resistance(made_rock(20e6), 0.0, 0.4, 0.8, 4.0);
  const RockResistance stony = stony_resistance(ground, 0.25, 160e6);
  EXPECT_NEAR(stony.specific_energy, 0.75 * 20e6 + 0.25 * 160e6, 1e-6);
  EXPECT_NEAR(stony.contact_strength, 1.5 * 55e6, 1e-6);
  EXPECT_NEAR(stony.bearing_strength, 4.0 * 55e6, 1e-6);
  EXPECT_NEAR(load_on_stones(stony, 0.25, 160e6), 40.0 / 55.0, 1e-12);
}

TEST(CuttingForce, DirectionsOfACutter) {
  const geometry::BitLayout bit = samples::flat_faced_bit(3, 3, 8e-3, 20.0 * degree, 10e-3);
  const ForceDirections f = force_directions(bit, samples::made_edge_law());
  // psi = 15 - 0.8 (20 - 15) = 11 deg.
  EXPECT_NEAR(f.zeta(1), std::tan(31.0 * degree), 1e-14);
  EXPECT_NEAR(f.chip_friction(1), std::sin(11.0 * degree) / std::cos(31.0 * degree), 1e-14);
  EXPECT_EQ(f.axial(1), f.zeta(1));
  EXPECT_EQ(f.across(1), 0.0);
}

// A face that looks outward is pushed inward along the profile: on the shoulder partly downward, in the cone
// partly upward, and never more downward than the rake pushes up.
TEST(CuttingForce, SideRakePushesAcrossTheAxisAndOnTheShoulderIn) {
  geometry::BitLayout bit = samples::flat_faced_bit(4, 4, 8e-3, 20.0 * degree, 10e-3);
  bit.side_rake.setConstant(10.0 * degree);
  bit.profile_angle << 0.0, 40.0 * degree, -15.0 * degree, 85.0 * degree;
  const ForceDirections f = force_directions(bit, samples::made_edge_law());
  const geometry::CuttingDirection one =
      geometry::cutting_direction(20.0 * degree, 10.0 * degree, samples::made_edge_law());
  EXPECT_NEAR(f.axial(0), one.normal, 1e-15);
  EXPECT_NEAR(f.across(0), one.sideways, 1e-15);
  EXPECT_NEAR(f.axial(1), one.normal * std::cos(40.0 * degree) - one.sideways * std::sin(40.0 * degree),
              1e-15);
  EXPECT_NEAR(f.across(1), one.normal * std::sin(40.0 * degree) + one.sideways * std::cos(40.0 * degree),
              1e-15);
  EXPECT_NEAR(std::hypot(f.axial(2), f.across(2)), std::hypot(one.normal, one.sideways), 1e-15);
  EXPECT_GT(f.axial(2), one.normal * std::cos(15.0 * degree));
  EXPECT_EQ(f.axial(3), 0.0);
}

TEST(CuttingForce, BothWaysToTheAxialForceAgree) {
  Draw draw(12);
  for (int b = 0; b < 40; ++b) {
    const geometry::BitLayout bit = samples::random_bit(draw);
    const Loaded loaded(bit, samples::random_wear(bit, draw));
    for (const double d : {1e-6, 1e-4, 1e-3, 5e-3}) {
      const double direct = loaded.weight(d);
      EXPECT_NEAR(axial_force(loaded.loads(d), made_resistance(), loaded.directions), direct, 1e-12 * direct);
    }
  }
}

TEST(CuttingForce, WeightRisesStrictlyAndContinuouslyWithDepthOfCut) {
  Draw draw(13);
  for (int b = 0; b < 30; ++b) {
    const geometry::BitLayout bit = samples::random_bit(draw);
    const Loaded loaded(bit, samples::random_wear(bit, draw));
    EXPECT_EQ(loaded.weight(0.0), 0.0);
    double before = 0.0, at = 0.0;
    for (double d = 1e-7; d < 0.02; d *= 1.02) {
      const double now = loaded.weight(d);
      ASSERT_GT(now, before) << "bit " << b << " d " << d;
      // No steps: over 2 % of d, force never grows by more than 2 % of what a force proportional to the whole
      // cut plus the mobilised contact, twice over (edges start to cut as d grows), could.
      if (at > 0.0) {
        ASSERT_LT(now - before, 0.1 * now) << "bit " << b << " d " << d;
      }
      before = now, at = d;
    }
    // A step would not shrink with the increment; the rise does.
    for (const double d : {2e-4, 1e-3, 3e-3}) {
      const double coarse = loaded.weight(d * (1.0 + 1e-4)) - loaded.weight(d);
      const double fine = loaded.weight(d * (1.0 + 1e-7)) - loaded.weight(d);
      ASSERT_LT(fine, 0.01 * coarse) << "bit " << b << " d " << d;
    }
  }
}

TEST(CuttingForce, NothingBearsOffBottom) {
  Draw draw(14);
  const geometry::BitLayout bit = samples::random_bit(draw);
  const Loaded loaded(bit, samples::random_wear(bit, draw));
  const CutterLoads loads = loaded.loads(0.0);
  EXPECT_EQ(loads.area.size(), bit.count());
  EXPECT_EQ(loads.area.sum() + loads.contact_force.sum() + loads.engaged_width.sum(), 0.0);
  EXPECT_EQ(loaded.weight(-1e-3), 0.0);
}

TEST(CuttingForce, WeightConvergesAsCellsShrink) {
  constexpr int bits = 20;
  Draw draw(15);
  std::vector<double> mean(5, 0.0);
  for (int b = 0; b < bits; ++b) {
    const geometry::BitLayout bit = samples::random_bit(draw);
    const Eigen::ArrayXd u = samples::random_wear(bit, draw);
    const double fine = Loaded(bit, u, 1.0 / 2048.0).weight(1e-3);
    double share = 1.0 / 8.0;
    for (double& error : mean) {
      error += std::abs(Loaded(bit, u, share).weight(1e-3) / fine - 1.0) / bits;
      share *= 0.5;
    }
  }
  for (std::size_t k = 0; k < mean.size(); ++k)
    std::printf("  cells of a/%d: weight off by %.2g (mean)\n", 8 << k, mean[k]);
  const double order = std::log2(mean[0] / mean[4]) / 4.0;
  std::printf("  observed order %.2f\n", order);
  EXPECT_GT(order, 1.4);  // second order inside, 3/2 at the ends of outlines
  EXPECT_LT(mean[1], 2e-3);
}

TEST(CuttingForce, AFlatFullyMobilisedBearsItsStrengthTimesItsArea) {
  // One cutter alone on its radius cuts d everywhere; at a deep cut all of its edge is mobilised.
  const geometry::BitLayout bit = samples::flat_faced_bit(1, 1, 8e-3, 20.0 * degree, 30e-3);
  const Loaded loaded(bit, Eigen::ArrayXd::Constant(1, 2e-3));
  const CutterLoads loads = loaded.loads(2e-3);
  const RockResistance r = made_resistance();
  EXPECT_NEAR(loads.contact_force(0), r.contact_strength * loads.contact_area(0),
              0.03 * loads.contact_force(0));
  EXPECT_LE(loads.contact_force(0), r.contact_strength * loads.contact_area(0) * (1.0 + 1e-12));
  EXPECT_NEAR(loads.flat_mobilised(0), loaded.profile.flat_weight_total()(0), 1e-12);
  EXPECT_NEAR(loads.area(0), 2e-3 * 2.0 * std::sqrt(64e-6 - 0.0), 1e-12);
}

// Below the bearing strength a contact's force grows with the root of the cut, so the cut with the square of
// the force: Maurer's law of drilling, J. Petroleum Technology 14(11), 1962.
TEST(CuttingForce, MobilisationGrowsWithTheRootOfTheCutToItsFullCut) {
  // On the level flat of a lone worn cutter h_n = d, and the contact is mobilised by min(1, M(d/d*(L_d))).
  const geometry::BitLayout bit = samples::flat_faced_bit(1, 1, 8e-3, 20.0 * degree, 30e-3);
  geometry::EdgeLaw law = samples::made_edge_law();
  const RockResistance r = made_resistance();
  const Loaded loaded(bit, Eigen::ArrayXd::Constant(1, 4e-3), 1.0 / 16.0, law);
  const double least_length = geometry::bearing_land(bit.shapes.front(), 20.0 * degree, law);
  const double least_full = r.mobilisation_slope * least_length;
  const auto mobilised = [](double share_of_full) {
    const double rest = std::sqrt(elastic_share);
    return (std::sqrt(share_of_full + elastic_share) - rest) / (std::sqrt(1.0 + elastic_share) - rest);
  };
  for (const double share : {1e-4, 0.01, 0.2, 0.8}) {
    const double d = share * least_full;  // nowhere mobilised fully
    double expected = 0.0;
    for (const geometry::ProfileCell& cell : loaded.profile.cells()) {
      if (cell.count == 0) continue;
      const geometry::OutlineSegment s = loaded.profile.segment(cell, 0);
      expected += s.flat_weight * (cell.outer - cell.inner) / s.cosine *
                  mobilised(d / (r.mobilisation_slope * s.diamond_length / s.cosine));
    }
    EXPECT_NEAR(loaded.loads(d).flat_mobilised(0), expected, 1e-9 * expected) << share;
  }
  // Elastic at first: twice the cut, twice the force; then its root, from which elastic_share takes a little.
  const double tiny = 1e-6 * least_full, much = 0.4 * least_full;
  EXPECT_NEAR(loaded.loads(2.0 * tiny).contact_force(0) / loaded.loads(tiny).contact_force(0), 2.0, 1e-3);
  const double grows = loaded.loads(2.0 * much).contact_force(0) / loaded.loads(much).contact_force(0);
  EXPECT_GT(grows, std::sqrt(2.0));
  EXPECT_LT(grows, 1.1 * std::sqrt(2.0));
  // Where the flat is longest: L_d = t/cos(theta), so all of it is mobilised from d = slope t/cos(theta) on.
  const double most_full = r.mobilisation_slope * 2e-3 / std::cos(20.0 * degree);
  EXPECT_LT(loaded.loads(0.9 * most_full).flat_mobilised(0), 0.9999 * loaded.profile.flat_weight_total()(0));
  EXPECT_NEAR(loaded.loads(1.0001 * most_full).flat_mobilised(0), loaded.profile.flat_weight_total()(0),
              1e-15);
}

TEST(CuttingForce, ContactGrowsWithWearAndDoesNotDropWhereTheFlatTakesOver) {
  Draw draw(16);
  geometry::BitLayout bit = samples::flat_faced_bit(12, 4, 8e-3, 15.0 * degree, 8e-3);
  // All worn alike on a flat face: the flats stay level, the cut deep enough to mobilise them all.
  double before = 0.0, first = 0.0, last = 0.0, weight_before = 0.0;
  for (double u = 0.0; u < 4e-3; u += 0.02e-3) {
    const Loaded loaded(bit, Eigen::ArrayXd::Constant(12, u));
    const double contact = loaded.loads(3e-3).contact_axial.sum();
    // Cells move with the flats' ends; their chords change the last digits of a strip's length.
    ASSERT_GE(contact, before * (1.0 - 1e-3)) << u;
    ASSERT_GE(loaded.weight(3e-3), weight_before * (1.0 - 1e-3)) << u;
    before = contact;
    weight_before = loaded.weight(3e-3);
    if (u == 0.0) first = contact;
    last = contact;
  }
  EXPECT_GT(last, 2.0 * first);
}

TEST(CuttingForce, CarbideBehindTheTableTakesItsShare) {
  const geometry::BitLayout bit = samples::flat_faced_bit(1, 1, 8e-3, 20.0 * degree, 30e-3);
  Loaded loaded(bit, Eigen::ArrayXd::Constant(1, 4e-3), 1.0 / 256.0);
  const double d = 3e-3;
  loaded.carbide_share.setZero();
  const CutterLoads diamond = loaded.loads(d);
  loaded.carbide_share.setConstant(1.0);
  const CutterLoads equal = loaded.loads(d);
  loaded.carbide_share.setConstant(0.25);
  const CutterLoads quarter = loaded.loads(d);
  // Linear in the share, in force and in bearing area, and nothing else moves.
  const double carbide_force = equal.contact_force(0) - diamond.contact_force(0);
  EXPECT_GT(carbide_force, 0.2 * diamond.contact_force(0));
  EXPECT_NEAR(quarter.contact_force(0), diamond.contact_force(0) + 0.25 * carbide_force,
              1e-9 * carbide_force);
  EXPECT_EQ(quarter.area(0), diamond.area(0));
  EXPECT_EQ(quarter.flat_mobilised(0), diamond.flat_mobilised(0));
  // The carbide's flat itself, at a full share: its area by the worn cylinder.
  double carbide_area = 0.0;
  for (const geometry::ProfileCell& cell : loaded.profile.cells())
    carbide_area += loaded.profile.segment(cell, 0).carbide_length * (cell.outer - cell.inner);
  EXPECT_NEAR(equal.contact_area(0) - diamond.contact_area(0), carbide_area, 1e-4 * carbide_area);
}

TEST(CuttingForce, TorqueIsFrictionAndCuttingAtTheirRadii) {
  Draw draw(18);
  const geometry::BitLayout bit = samples::random_bit(draw);
  const Loaded loaded(bit, samples::random_wear(bit, draw));
  const RockResistance r = made_resistance();
  const CutterLoads loads = loaded.loads(1e-3);
  const double torque = cutter_torque(loads, r);
  EXPECT_NEAR(torque,
              r.specific_energy / r.drilling_efficiency * loads.area_moment.sum() +
                  r.flat_friction * loads.contact_moment.sum(),
              1e-12 * torque);
  for (Eigen::Index i = 0; i < bit.count(); ++i) {
    if (loads.area(i) < 1e-9) continue;
    // Each cutter's arms lie within its own reach.
    const geometry::Outline outline = geometry::make_outline(bit, i, 0.0);
    EXPECT_GE(loads.area_moment(i), loads.area(i) * outline.reach_inner) << i;
    EXPECT_LE(loads.area_moment(i), loads.area(i) * outline.reach_outer) << i;
    EXPECT_LE(loads.contact_moment(i), loads.contact_force(i) * outline.reach_outer) << i;
    // Along and across the axis are parts of the whole, strip by strip: |sum| of vectors is at most the sum.
    EXPECT_LE(std::hypot(loads.contact_axial(i), loads.contact_across(i)),
              loads.contact_force(i) * (1.0 + 1e-12))
        << i;
  }
}

TEST(CuttingForce, ANotANumberDoesNotPassAsAForce) {
  const geometry::BitLayout bit = samples::flat_faced_bit(3, 3, 8e-3, 0.3, 10e-3);
  const Loaded loaded(bit, Eigen::ArrayXd::Zero(3));
  RockResistance r = made_resistance();
  r.specific_energy = std::numeric_limits<double>::quiet_NaN();
  EXPECT_TRUE(std::isnan(loaded.weight(1e-3, r)));
}

}  // namespace
}  // namespace dullcast::cutting
