#include "models/geometry/engagement.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>
#include <vector>

#include "tools/samples/made_bits.hpp"

namespace dullcast::geometry {
namespace {

using samples::Draw;

/// One piece of cut with its cutter.
struct Cut {
  int cutter;
  CutPiece piece;
};

std::vector<Cut> cuts_of(const WornProfile& profile, double d) {
  std::vector<Cut> cuts;
  for_each_cut(profile, d, [&](int cutter, const CutPiece& piece) { cuts.push_back({cutter, piece}); });
  return cuts;
}

/// Depth that each cutter cuts at one radius.
Eigen::ArrayXd cuts_at(const std::vector<Cut>& cuts, Eigen::Index cutters, double r) {
  Eigen::ArrayXd cut = Eigen::ArrayXd::Zero(cutters);
  for (const Cut& c : cuts) {
    if (r < c.piece.inner || r >= c.piece.outer) continue;
    const double share = (r - c.piece.inner) / (c.piece.outer - c.piece.inner);
    cut(c.cutter) += c.piece.cut_inner + share * (c.piece.cut_outer - c.piece.cut_inner);
  }
  return cut;
}

Eigen::ArrayXd areas_of(const WornProfile& profile, double d) {
  Eigen::ArrayXd area = Eigen::ArrayXd::Zero(profile.bit().count());
  for_each_cut(profile, d, [&](int cutter, const CutPiece& p) {
    area(cutter) += 0.5 * (p.outer - p.inner) * (p.cut_inner + p.cut_outer);
  });
  return area;
}

/// Width of radius over which at least one cutter stands.
double covered_width(const WornProfile& profile) {
  double width = 0.0;
  for (const ProfileCell& cell : profile.cells()) width += cell.outer - cell.inner;
  return width;
}

WornProfile made_profile(const BitLayout& bit, const Eigen::ArrayXd& u, double spacing_share = 1.0 / 16.0) {
  WornProfile profile(bit, samples::made_edge_law(), spacing_share * bit.shapes.front().radius);
  profile.update(u);
  return profile;
}

const double depths_of_cut[] = {1e-7, 1e-5, 2e-4, 1e-3, 4e-3, 2e-2};

TEST(Engagement, CutsSumToTheDepthOfCutAtEveryRadiusWearAndProfile) {
  Draw draw(20240601);
  double worst = 0.0;
  for (int b = 0; b < 60; ++b) {
    const BitLayout bit = samples::random_bit(draw);
    const WornProfile profile = made_profile(bit, samples::random_wear(bit, draw));
    for (const double d : depths_of_cut) {
      const std::vector<Cut> cuts = cuts_of(profile, d);
      for (int k = 0; k < 40; ++k) {
        const auto& cells = profile.cells();
        const ProfileCell& cell =
            cells[static_cast<std::size_t>(draw.count(0, static_cast<int>(cells.size()) - 1))];
        const double r = draw.between(cell.inner, cell.outer);
        const double sum = cuts_at(cuts, bit.count(), r).sum();
        worst = std::max(worst, std::abs(sum / d - 1.0));
        // Depths are a tenth of a metre and hold 1e-17 m; pieces under 1e-10 d are left out, a few at a
        // radius.
        ASSERT_NEAR(sum / d, 1.0, 1e-9 + 2e-16 / d) << "bit " << b << ", d " << d << ", r " << r;
      }
    }
  }
  EXPECT_LT(worst, 3e-9);
}

TEST(Engagement, AreasSumToDepthOfCutTimesCoveredRadius) {
  Draw draw(7);
  int whole = 0;
  for (int b = 0; b < 100; ++b) {
    const BitLayout bit = samples::random_bit(draw);
    const WornProfile profile =
        made_profile(bit, b % 2 == 0 ? Eigen::ArrayXd::Zero(bit.count()) : samples::random_wear(bit, draw));
    const double width = profile.outer_radius() - profile.core_radius();
    const double covered = covered_width(profile);
    // Worn gauge cutters of a few drawn bits open a band; there the identity holds on what is covered.
    if (std::abs(covered - width) < 1e-9 * width) ++whole;
    for (const double d : depths_of_cut)
      ASSERT_NEAR(areas_of(profile, d).sum() / (d * covered), 1.0, 1e-9 + 2e-16 / d)
          << "bit " << b << ", d " << d;
  }
  EXPECT_GT(whole, 90);
}

TEST(Engagement, NoCutterCutsLessAsTheDepthOfCutGrows) {
  Draw draw(11);
  for (int b = 0; b < 40; ++b) {
    const BitLayout bit = samples::random_bit(draw);
    const WornProfile profile = made_profile(bit, samples::random_wear(bit, draw));
    std::vector<double> radii;
    for (int k = 0; k < 30; ++k) radii.push_back(draw.between(profile.core_radius(), profile.outer_radius()));
    std::vector<Eigen::ArrayXd> before(radii.size(), Eigen::ArrayXd::Zero(bit.count()));
    for (double d = 1e-5; d < 0.02; d *= 1.3) {
      const std::vector<Cut> cuts = cuts_of(profile, d);
      for (std::size_t k = 0; k < radii.size(); ++k) {
        const Eigen::ArrayXd now = cuts_at(cuts, bit.count(), radii[k]);
        ASSERT_GE((now - before[k]).minCoeff(), -1e-9 * d) << "bit " << b << ", d " << d;
        before[k] = now;
      }
    }
  }
}

/// Areas that cutters cut in the last of as many revolutions as it takes the bottom to repeat itself, found
/// by marching: the hole is a depth at each of many radii, and the cutters pass one after the other, the bit
/// sinking d a revolution. Starts on a flat bottom.
Eigen::ArrayXd marched_areas(const BitLayout& bit, const Eigen::ArrayXd& u, double d, double core,
                             double outer, int radii) {
  const Eigen::Index n = bit.count();
  const double step = (outer - core) / radii;
  std::vector<std::vector<double>> depth(static_cast<std::size_t>(n));
  constexpr double nothing = -1e9;
  double deepest = nothing, shallowest = -nothing;
  for (Eigen::Index i = 0; i < n; ++i) {
    for (int k = 0; k < radii; ++k) {
      const auto z = samples::lowest_point(bit, i, u(i), core + (k + 0.5) * step);
      depth[static_cast<std::size_t>(i)].push_back(z.value_or(nothing));
    }
  }
  for (int k = 0; k < radii; ++k) {
    double lowest = nothing;
    for (const auto& z : depth) lowest = std::max(lowest, z[static_cast<std::size_t>(k)]);
    deepest = std::max(deepest, lowest);
    shallowest = std::min(shallowest, lowest);
  }
  std::vector<Eigen::Index> order(static_cast<std::size_t>(n));
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(),
                   [&](Eigen::Index a, Eigen::Index b) { return bit.azimuth(a) > bit.azimuth(b); });
  std::vector<double> bottom(static_cast<std::size_t>(radii), deepest);
  Eigen::ArrayXd area = Eigen::ArrayXd::Zero(n);
  const int revolutions = static_cast<int>((deepest - shallowest) / d) + 3;
  for (int turn = 0; turn < revolutions; ++turn) {
    area.setZero();
    for (const Eigen::Index i : order) {
      const double sunk = d * (turn + 1.0 - bit.azimuth(i) / two_pi);
      for (std::size_t k = 0; k < bottom.size(); ++k) {
        const double z = depth[static_cast<std::size_t>(i)][k] + sunk;
        if (z <= bottom[k]) continue;
        area(i) += (z - bottom[k]) * step;
        bottom[k] = z;
      }
    }
  }
  return area;
}

TEST(Engagement, EqualsMarchingRevolutionAfterRevolution) {
  Draw draw(5);
  double worst = 0.0;
  for (int b = 0; b < 25; ++b) {
    const BitLayout bit = samples::random_bit(draw);
    const Eigen::ArrayXd u = samples::random_wear(bit, draw);
    const WornProfile profile = made_profile(bit, u, 1.0 / 64.0);
    for (const double d : {3e-4, 1.5e-3, 6e-3}) {
      const Eigen::ArrayXd exact = areas_of(profile, d);
      const Eigen::ArrayXd marched =
          marched_areas(bit, u, d, profile.core_radius(), profile.outer_radius(), 6000);
      const double scale = d * (profile.outer_radius() - profile.core_radius());
      worst = std::max(worst, ((exact - marched) / scale).abs().maxCoeff());
    }
  }
  std::printf("  greatest difference %.2g of the bit's area of cut\n", worst);
  // Straight cells of a/64 leave the outline a (1/64)^2/8 = 3e-5 a off, some 0.2 um of the 300 um cut.
  EXPECT_LT(worst, 1e-3);
}

TEST(Engagement, AtEqualAzimuthTheLowerNumberPassesFirst) {
  // Two equal cutters in one place: the first takes all, the second nothing.
  BitLayout bit = samples::flat_faced_bit(2, 1, 6e-3, 0.2, 4e-3);
  bit.radius(1) = bit.radius(0);
  const WornProfile profile = made_profile(bit, Eigen::ArrayXd::Zero(2));
  const Eigen::ArrayXd area = areas_of(profile, 1e-3);
  EXPECT_NEAR(area(0), 1e-3 * covered_width(profile), 1e-15);
  EXPECT_EQ(area(1), 0.0);
}

TEST(Engagement, OppositeTwinsShareEvenlyAndAQuarterTurnSharesAQuarter) {
  BitLayout bit = samples::flat_faced_bit(2, 2, 6e-3, 0.2, 4e-3);
  bit.radius(1) = bit.radius(0);
  for (const double lead : {0.5, 0.25, 0.9}) {
    bit.azimuth << lead * two_pi, 0.0;  // cutter 0 leads by this share of a turn
    const WornProfile profile = made_profile(bit, Eigen::ArrayXd::Zero(2));
    const double d = 1e-3;
    const Eigen::ArrayXd area = areas_of(profile, d) / (d * covered_width(profile));
    // Twins of equal depth: each cuts what the bit sank since the other passed.
    EXPECT_NEAR(area(1), lead, 1e-12);
    EXPECT_NEAR(area(0), 1.0 - lead, 1e-12);
  }
}

TEST(Engagement, AShortenedCutterHandsItsLoadToItsNeighbours) {
  Draw draw(3);
  const BitLayout bit = samples::random_bit(draw);
  Eigen::ArrayXd u = Eigen::ArrayXd::Zero(bit.count());
  const double d = 1e-3;
  const Eigen::ArrayXd before = areas_of(made_profile(bit, u), d);
  const Eigen::Index worn = bit.count() / 2;
  u(worn) = 0.5e-3;
  const Eigen::ArrayXd after = areas_of(made_profile(bit, u), d);
  EXPECT_LT(after(worn), 0.8 * before(worn));
  for (Eigen::Index i = 0; i < bit.count(); ++i) {
    if (i == worn) continue;
    // The flat's ends are new nodes, between which other outlines are taken straight too: 1e-5 measured.
    EXPECT_GE(after(i), before(i) * (1.0 - 1e-4)) << i;
  }
  EXPECT_NEAR(after.sum(), before.sum(), 1e-9 * before.sum());
}

TEST(Engagement, MovesContinuouslyWithWear) {
  // Cells move with the outlines' ends, so that a nanometre of wear never makes the loads jump.
  Draw draw(17);
  for (int b = 0; b < 20; ++b) {
    const BitLayout bit = samples::random_bit(draw);
    const Eigen::ArrayXd u = samples::random_wear(bit, draw);
    const double d = 1e-3;
    const double width = made_profile(bit, u).outer_radius();
    const Eigen::ArrayXd before = areas_of(made_profile(bit, u), d);
    const Eigen::ArrayXd after = areas_of(made_profile(bit, u + 1e-9), d);
    // A nanometre of the whole profile moves each area by at most a few nanometres times the width.
    EXPECT_LT((after - before).abs().maxCoeff(), 20e-9 * width) << b;
  }
}

TEST(Engagement, AreasConvergeAsCellsShrink) {
  constexpr int bits = 20;
  Draw draw(29);
  std::vector<double> mean(5, 0.0), worst(5, 0.0);
  for (int b = 0; b < bits; ++b) {
    const BitLayout bit = samples::random_bit(draw);
    const Eigen::ArrayXd u = samples::random_wear(bit, draw);
    const double d = 1e-3;
    const Eigen::ArrayXd fine = areas_of(made_profile(bit, u, 1.0 / 2048.0), d);
    double share = 1.0 / 8.0;
    for (std::size_t k = 0; k < mean.size(); ++k, share *= 0.5) {
      const Eigen::ArrayXd off = (areas_of(made_profile(bit, u, share), d) - fine).abs() / fine.maxCoeff();
      mean[k] += off.mean() / bits;
      worst[k] = std::max(worst[k], off.maxCoeff());
    }
  }
  for (std::size_t k = 0; k < mean.size(); ++k)
    std::printf("  cells of a/%d: areas off by %.2g (mean), %.2g (worst) of the bit's greatest\n", 8 << k,
                mean[k], worst[k]);
  const double order = std::log2(mean[0] / mean[4]) / 4.0;
  std::printf("  observed order of the mean %.2f\n", order);
  // Straight cells are of second order on a smooth outline and of order 3/2 on the last cell before an end,
  // where the outline falls away as a square root.
  EXPECT_GT(order, 1.4);
  for (std::size_t k = 1; k < mean.size(); ++k) EXPECT_LT(mean[k], mean[k - 1] / 2.0) << k;
  EXPECT_LT(worst[1], 0.02);
}

}  // namespace
}  // namespace dullcast::geometry
