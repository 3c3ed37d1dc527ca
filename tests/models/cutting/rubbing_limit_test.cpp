// How the depth of cut at which blades begin to bear answers to wear.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "models/cutting/blade_rubbing.hpp"
#include "tools/samples/made_bits.hpp"

namespace dullcast::cutting {
namespace {

double limit_of(const geometry::BitLayout& bit, const BladeSurfaces& surfaces, const Eigen::ArrayXd& u) {
  geometry::WornProfile profile(bit, samples::made_edge_law(), geometry::usual_spacing(bit));
  profile.update(u);
  return rubbing_limit(profile, surfaces).depth_of_cut;
}

TEST(RubbingLimit, FallsByNoMoreThanSaidAsCuttersWear) {
  samples::Draw draw(31);
  double most = 0.0;
  int finite = 0;
  for (int b = 0; b < 120; ++b) {
    const geometry::BitLayout bit = samples::random_bit(draw);
    const BladeSurfaces surfaces = blade_surfaces(bit);
    const Eigen::ArrayXd u = samples::random_wear(bit, draw);
    const double before = limit_of(bit, surfaces, u);
    for (const double gone : {1e-6, 1e-5, 1e-4}) {
      const Eigen::ArrayXd more =
          u + Eigen::ArrayXd::NullaryExpr(bit.count(), [&] { return draw.between(0.0, gone); });
      const double after = limit_of(bit, surfaces, more);
      if (!std::isfinite(before) || !std::isfinite(after)) continue;
      ++finite;
      most = std::max(most, (before - after) / (more - u).maxCoeff());
    }
  }
  std::printf("  the limit falls by up to %.3g times the wear\n", most);
  EXPECT_GT(finite, 100);
  EXPECT_LT(most, rubbing_limit_falls_by);
}

}  // namespace
}  // namespace dullcast::cutting
