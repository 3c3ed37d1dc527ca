#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "models/cutting/blade_contact.hpp"
#include "models/cutting/weight_balance.hpp"
#include "support/numbers.hpp"
#include "tools/samples/made_bits.hpp"

namespace dullcast::cutting {
namespace {

using samples::Draw;
using testing::degree;
constexpr double unlimited = std::numeric_limits<double>::infinity();

geometry::BitLayout four_blades(double exposure, double wing_sweep = 20.0 * degree) {
  geometry::BladePlan plan;
  plan.bit_diameter = 0.2;
  plan.cutters_per_blade.resize(4);
  plan.cutters_per_blade << 7, 7, 7, 7;  // so dense that other blades cover what a dull one leaves
  plan.wing_sweep = wing_sweep;
  plan.cone_angle = 10.0 * degree;
  plan.gauge_angle = 60.0 * degree;
  plan.inner_back_rake = plan.outer_back_rake = 15.0 * degree;
  plan.exposure = exposure;
  plan.crowding = 1.0;
  return geometry::lay_out_blades(plan, {8e-3, 13e-3, 2e-3, 0.0, 0.4e-3, 45.0 * degree, 30e-6});
}

geometry::WornProfile worn(const geometry::BitLayout& bit, const Eigen::ArrayXd& u,
                           double spacing_share = 1.0 / 16.0) {
  geometry::WornProfile profile(bit, samples::made_edge_law(), spacing_share * bit.shapes.front().radius);
  profile.update(u);
  return profile;
}

/// All cutters fresh but those of one blade, worn to u.
Eigen::ArrayXd one_dull_blade(const geometry::BitLayout& bit, int blade, double u) {
  return (bit.blade == blade).select(Eigen::ArrayXd::Constant(bit.count(), u), 0.0);
}

/// Depth of the cut bottom under a blade less the blade's own depth, at radius r and depth of cut d, worked
/// out from the discs themselves: max over cutters of c_m - d dphi/(2 pi), dphi how far the cutter runs ahead
/// of the blade. What the blade's own cutters cut next was left a turn ago.
double gap(const geometry::BitLayout& bit, const Eigen::ArrayXd& u, const BladeSurfaces& surfaces, int blade,
           double r, double d) {
  const auto& surface = surfaces[static_cast<std::size_t>(blade)];
  std::size_t k = 0;
  while (surface[k + 1].r < r) ++k;
  const double share = (r - surface[k].r) / (surface[k + 1].r - surface[k].r);
  const double z = surface[k].z + share * (surface[k + 1].z - surface[k].z);
  const double azimuth = surface[k].azimuth + share * (surface[k + 1].azimuth - surface[k].azimuth);
  double bottom = -unlimited;
  for (Eigen::Index i = 0; i < bit.count(); ++i) {
    const auto depth = samples::lowest_point(bit, i, u(i), r);
    if (!depth) continue;
    double lead = std::fmod(bit.azimuth(i) - azimuth + 4.0 * two_pi, two_pi);
    if (bit.blade(i) == blade) lead = two_pi;
    bottom = std::max(bottom, *depth - d * lead / two_pi);
  }
  return bottom - z;
}

double least_gap(const geometry::BitLayout& bit, const Eigen::ArrayXd& u, const BladeSurfaces& surfaces,
                 double d) {
  double least = unlimited;
  for (int blade = 0; blade < bit.blades; ++blade) {
    const auto& surface = surfaces[static_cast<std::size_t>(blade)];
    for (int k = 0; k <= 1000; ++k) {
      const double r =
          std::min(surface.front().r + k / 1000.0 * (surface.back().r - surface.front().r), surface.back().r);
      least = std::min(least, gap(bit, u, surfaces, blade, r, d));
    }
  }
  return least;
}

TEST(BladeRubbing, SurfacesLieTheExposureBehindTheTips) {
  const geometry::BitLayout bit = four_blades(6e-3);
  const BladeSurfaces surfaces = blade_surfaces(bit);
  ASSERT_EQ(surfaces.size(), 4u);
  std::size_t points = 0;
  for (const auto& surface : surfaces) {
    points += surface.size();
    for (std::size_t k = 1; k < surface.size(); ++k) {
      EXPECT_GT(surface[k].r, surface[k - 1].r);
      EXPECT_LT(std::abs(surface[k].azimuth - surface[k - 1].azimuth), pi)
          << "azimuth is unwrapped along a wing";
    }
  }
  EXPECT_EQ(points, 28u + 3u + 2u + 1u) << "each blade runs on to the gauge behind the others' tips";
  const auto& last = surfaces[static_cast<std::size_t>(bit.blade(27))].back();
  EXPECT_NEAR(std::hypot(last.r - bit.radius(27), last.z - bit.depth(27)), 6e-3, 1e-15);
  EXPECT_NEAR(last.r, bit.radius(27) - 6e-3 * std::sin(60.0 * degree), 1e-15);
}

TEST(BladeRubbing, AnUnwornBitClearsItsBladesAtAnyUsualDepthOfCut) {
  const geometry::BitLayout bit = four_blades(8e-3);
  const Eigen::ArrayXd u = Eigen::ArrayXd::Zero(28);
  const RubbingLimit limit = rubbing_limit(worn(bit, u), blade_surfaces(bit));
  EXPECT_GT(limit.depth_of_cut, 8e-3);
}

TEST(BladeRubbing, AtTheLimitOneGapIsClosedAndNoneIsNegative) {
  for (const double exposure : {3e-3, 5e-3}) {
    const geometry::BitLayout bit = four_blades(exposure);
    const BladeSurfaces surfaces = blade_surfaces(bit);
    for (int blade = 0; blade < 4; ++blade) {
      for (const double past : {0.2e-3, 1e-3, 2e-3}) {
        const Eigen::ArrayXd u = one_dull_blade(bit, blade, exposure / std::cos(15.0 * degree) + past);
        const RubbingLimit limit = rubbing_limit(worn(bit, u, 1.0 / 256.0), surfaces);
        ASSERT_TRUE(std::isfinite(limit.depth_of_cut)) << exposure << " " << blade << " " << past;
        ASSERT_GT(limit.depth_of_cut, 0.0);
        // It is found at the edges of cells, and a crest where two outlines cross lies between them: outlines
        // there slope by one to two, over half a cell of 31 um.
        EXPECT_NEAR(least_gap(bit, u, surfaces, limit.depth_of_cut), 0.0, 60e-6)
            << exposure << " " << blade << " " << past;
        // Deeper would press the blade into rock, shallower clears it.
        EXPECT_LT(least_gap(bit, u, surfaces, 1.2 * limit.depth_of_cut + 1e-3), -60e-6);
        EXPECT_GT(least_gap(bit, u, surfaces, 0.8 * limit.depth_of_cut - 0.2e-3), 0.0);
        // The blade that touches there.
        double touching = unlimited;
        for (int b = 0; b < bit.blades; ++b) {
          const auto& surface = surfaces[static_cast<std::size_t>(b)];
          if (limit.contact_radius >= surface.front().r && limit.contact_radius <= surface.back().r)
            touching = std::min(touching, gap(bit, u, surfaces, b, limit.contact_radius, limit.depth_of_cut));
        }
        EXPECT_NEAR(touching, 0.0, 1e-9);
      }
    }
  }
}

RockResistance rock_of_strength(double strength, double bearing_ratio = 4.0) {
  materials::Rock rock;
  rock.unconfined_strength = strength;
  rock.youngs_modulus = 300.0 * strength;
  rock.poissons_ratio = 0.25;
  rock.contact_strength_ratio = 1.5;
  return rock_resistance(rock, 0.0, 0.4, 0.9, bearing_ratio);
}

BladeBearing blades_of(const geometry::WornProfile& profile, const BladeSurfaces& surfaces) {
  return {&surfaces, 20e-3, 0.0, rubbing_limit(profile, surfaces)};
}

TEST(BladeRubbing, BladesBearGraduallyPastTheLimitAndUpToTheRocksStrength) {
  const geometry::BitLayout bit = four_blades(3e-3);
  const BladeSurfaces surfaces = blade_surfaces(bit);
  const RockResistance rock = rock_of_strength(20e6);
  for (const double u_blade : {0.0, 1e-3, 3.2e-3, 4.5e-3}) {
    const geometry::WornProfile profile = worn(bit, one_dull_blade(bit, 1, u_blade));
    const BladeBearing blades = blades_of(profile, surfaces);
    const double limit = blades.limit.depth_of_cut;
    ASSERT_GT(limit, 0.0);
    EXPECT_EQ(blade_contact(profile, rock, blades, 0.999 * limit).weight, 0.0);
    EXPECT_LT(blade_contact(profile, rock, blades, 1.001 * limit).weight, 10.0) << "no jump";
    double last = 0.0;
    for (double d = limit; d < 50e-3; d += 0.5e-3) {
      const BladeContact contact = blade_contact(profile, rock, blades, d);
      EXPECT_GE(contact.weight, last);
      EXPECT_LE(contact.moment, contact.weight * bit.bit_radius);
      last = contact.weight;
    }
    EXPECT_GT(last, 0.0);
    // All four faces and a millimetre of their fronts at 4 times 20 MPa are more than a millimetre past the
    // limit.
    EXPECT_LT(blade_contact(profile, rock, blades, limit + 1e-3).weight,
              4.0 * 20e6 * 4 * 21e-3 * bit.bit_radius);
  }
}

// The same summed up by brute force from the discs themselves, on wings swept far: where a blade lies x below
// the rock it bears q min(1, x/x*) over its thickness, no more than the blades have room for near the axis,
// and x more.
TEST(BladeRubbing, WhatBladesBearIsTheSumOverTheirSurfaces) {
  const geometry::BitLayout bit = four_blades(4e-3, 75.0 * degree);
  const BladeSurfaces surfaces = blade_surfaces(bit);
  const Eigen::ArrayXd u = Eigen::ArrayXd::Constant(bit.count(), 2e-3);
  const geometry::WornProfile profile = worn(bit, u, 1.0 / 256.0);
  const RockResistance rock = rock_of_strength(60e6);
  const BladeBearing blades = blades_of(profile, surfaces);
  const double d = 3.0 * blades.limit.depth_of_cut + 6e-3;
  const double yield = rock.mobilisation_slope * rock.bearing_strength / rock.contact_strength;
  double weight = 0.0, moment = 0.0;
  for (int blade = 0; blade < 4; ++blade) {
    const auto& surface = surfaces[static_cast<std::size_t>(blade)];
    const double from = std::max(surface.front().r, bit.shapes.front().radius),
                 width = (surface.back().r - from) / 20000.0;
    for (int k = 0; k < 20000; ++k) {
      const double r = from + (k + 0.5) * width;
      const double x = -gap(bit, u, surfaces, blade, r, d);
      const double along = std::min(20e-3, two_pi / 4.0 * r);
      const double force = rock.bearing_strength * std::clamp(x / (yield * along), 0.0, 1.0) *
                           (along + std::max(0.0, x)) * width;
      weight += force;
      moment += r * force;
    }
  }
  const BladeContact contact = blade_contact(profile, rock, blades, d);
  EXPECT_GT(weight, 10e3);
  // Rock over a blade is taken as straight over a cell of 31 um, in which another cutter may take over.
  EXPECT_NEAR(contact.weight / weight, 1.0, 0.02);
  EXPECT_NEAR(contact.moment / moment, 1.0, 0.02);
}

TEST(BladeRubbing, CuttersAndBladesCarryTheWeightTogether) {
  const geometry::BitLayout bit = four_blades(3e-3);
  const BladeSurfaces surfaces = blade_surfaces(bit);
  const ForceDirections directions = force_directions(bit, samples::made_edge_law());
  const RockResistance rock = rock_of_strength(20e6);
  const Eigen::ArrayXd share = Eigen::ArrayXd::Constant(28, 1.0 / 150.0);
  int rubbing = 0, clear = 0;
  for (const double u_blade : {0.0, 1e-3, 3.2e-3, 3.6e-3, 4.5e-3}) {
    const geometry::WornProfile profile = worn(bit, one_dull_blade(bit, 1, u_blade));
    const BladeBearing blades = blades_of(profile, surfaces);
    for (const double weight : {500.0, 5e3, 2e4, 6e4, 2e5}) {
      const Balance b = balance_weight(profile, rock, directions, share, weight, unlimited, blades, 0.0);
      EXPECT_NEAR(axial_force(profile, rock, directions, share, b.depth_of_cut) + b.blade_weight, weight,
                  1e-8 * weight);
      EXPECT_EQ(b.blade_weight > 0.0, b.depth_of_cut > blades.limit.depth_of_cut);
      ++(b.blade_weight > 0.0 ? rubbing : clear);
    }
  }
  EXPECT_GT(rubbing, 3);
  EXPECT_GT(clear, 5);
}

// Seven blades of one cutter each: none has a neighbour on its blade, but each blade runs on to the gauge,
// and no cutter cuts deeper in a turn than it stands out of its blade.
TEST(BladeRubbing, ABladeOfOneCutterBoundsTheDepthOfCutByItsExposure) {
  const geometry::BitLayout bit = samples::flat_faced_bit(7, 7, 8e-3, 15.0 * degree, 10e-3);
  geometry::BitLayout out = bit;
  out.exposure.setConstant(5e-3);
  const geometry::WornProfile profile = worn(out, Eigen::ArrayXd::Zero(7));
  const BladeSurfaces surfaces = blade_surfaces(out);
  const BladeBearing blades = blades_of(profile, surfaces);
  EXPECT_GT(blades.limit.depth_of_cut, 0.0);
  EXPECT_LE(blades.limit.depth_of_cut, 5e-3 * (1.0 + 1e-9));
  const Balance b =
      balance_weight(profile, rock_of_strength(0.8e6), force_directions(out, samples::made_edge_law()),
                     Eigen::ArrayXd::Constant(7, 1.0 / 150.0), 15e3, unlimited, blades, 0.0);
  EXPECT_GT(b.blade_weight, 0.2 * 15e3);
  EXPECT_LT(b.depth_of_cut, 6.0 * 5e-3) << "15 kN are much for this clay, but blades of 3.2 MPa hold them";
}

TEST(BladeRubbing, GroundWithoutStrengthCarriesNoWeightOnItsBlades) {
  const geometry::BitLayout bit = four_blades(3e-3);
  const geometry::WornProfile profile = worn(bit, Eigen::ArrayXd::Constant(28, 5e-3));
  const BladeSurfaces surfaces = blade_surfaces(bit);
  EXPECT_LT(blade_contact(profile, rock_of_strength(1e3), blades_of(profile, surfaces), 0.0).weight, 40.0)
      << "4 kPa on 4 x 20 mm x 100 mm";
}

// A bit that has lost its centre cutter leaves a core. It is of clay and breaks.
TEST(BladeRubbing, ACoreOfClayDoesNotStopTheBit) {
  geometry::BitLayout bit = samples::flat_faced_bit(8, 2, 8e-3, 15.0 * degree, 10e-3);
  bit.exposure.setConstant(6e-3);
  Eigen::ArrayXd u = Eigen::ArrayXd::Zero(8);
  u(0) = 1.9 * bit.shapes.front().radius;
  const geometry::WornProfile profile = worn(bit, u);
  const BladeSurfaces surfaces = blade_surfaces(bit);
  const BladeBearing blades = blades_of(profile, surfaces);
  EXPECT_EQ(blades.limit.depth_of_cut, 0.0);
  const BladeContact clay = blade_contact(profile, rock_of_strength(0.8e6), blades, 0.0);
  EXPECT_GT(clay.weight, 0.0);
  EXPECT_LT(clay.weight, 0.8e6 * pi * bit.shapes.front().radius * bit.shapes.front().radius)
      << "its unconfined strength";
  const Balance b =
      balance_weight(profile, rock_of_strength(0.8e6), force_directions(bit, samples::made_edge_law()),
                     Eigen::ArrayXd::Constant(8, 1.0 / 150.0), 5e3, unlimited, blades, 0.0);
  EXPECT_GT(b.depth_of_cut, 1e-3);
}

TEST(BladeRubbing, LostSteelLetsCuttersStandOutFurther) {
  const geometry::BitLayout bit = four_blades(3e-3);
  const geometry::WornProfile profile = worn(bit, one_dull_blade(bit, 1, 3.6e-3));
  geometry::BitLayout further = bit;
  further.exposure += 1e-3;
  const double rubbed = rubbing_limit(profile, blade_surfaces(bit), 1e-3).depth_of_cut;
  EXPECT_GT(rubbed, rubbing_limit(profile, blade_surfaces(bit)).depth_of_cut);
  EXPECT_NEAR(rubbed, rubbing_limit(profile, blade_surfaces(further)).depth_of_cut, 1e-12);
}

TEST(BladeRubbing, WhenNoCutterStandsOutTheBladesCarryAll) {
  const geometry::BitLayout bit = four_blades(3e-3);
  const geometry::WornProfile profile = worn(bit, Eigen::ArrayXd::Constant(28, 5e-3));
  const RubbingLimit limit = rubbing_limit(profile, blade_surfaces(bit));
  EXPECT_EQ(limit.depth_of_cut, 0.0);
}

TEST(BladeRubbing, ACutterAloneOnItsRadiusWornPastItsExposureStopsTheBit) {
  const geometry::BitLayout bit = samples::flat_faced_bit(6, 2, 8e-3, 15.0 * degree, 10e-3);
  geometry::BitLayout shallow = bit;
  shallow.exposure.setConstant(3e-3);
  Eigen::ArrayXd u = Eigen::ArrayXd::Zero(6);
  EXPECT_GT(rubbing_limit(worn(shallow, u), blade_surfaces(shallow)).depth_of_cut, 0.0);
  u(3) = 3.2e-3;  // 3.09 mm of height
  const RubbingLimit limit = rubbing_limit(worn(shallow, u), blade_surfaces(shallow));
  EXPECT_EQ(limit.depth_of_cut, 0.0);
  EXPECT_NEAR(limit.contact_radius, bit.radius(3), 8e-3);
}

TEST(BladeRubbing, TheLimitFallsAsABladeDullsFurther) {
  const geometry::BitLayout bit = four_blades(4e-3);
  const BladeSurfaces surfaces = blade_surfaces(bit);
  double before = unlimited;
  for (double u = 3e-3; u < 7e-3; u += 0.1e-3) {
    const double limit = rubbing_limit(worn(bit, one_dull_blade(bit, 2, u)), surfaces).depth_of_cut;
    EXPECT_LE(limit, before + 1e-12) << u;
    before = limit;
  }
  EXPECT_LT(before, 0.02);
}

}  // namespace
}  // namespace dullcast::cutting
