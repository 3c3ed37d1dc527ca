#include <gtest/gtest.h>

#include "models/cutting/blade_contact.hpp"
#include "tools/samples/made_bits.hpp"

namespace dullcast::cutting {
namespace {

// A listed bit names its cutters in any order, and of several kinds: the core is the innermost one's.
TEST(BladeCore, TheCoreIsTheInnermostCuttersWhicheverIsListedFirst) {
  geometry::BitLayout bit = samples::flat_faced_bit(8, 2, 8e-3, 15.0 * pi / 180.0, 10e-3);
  bit.exposure.setConstant(6e-3);
  bit.shapes.push_back(bit.shapes.front());
  bit.shapes.back().radius = 5e-3;
  bit.kind(7) = 1;
  geometry::BitLayout reversed = bit;
  for (auto field : {&geometry::BitLayout::radius, &geometry::BitLayout::azimuth}) {
    reversed.*field = (bit.*field).reverse().eval();
  }
  for (auto field : {&geometry::BitLayout::kind, &geometry::BitLayout::blade}) {
    reversed.*field = (bit.*field).reverse().eval();
  }
  Eigen::ArrayXd u = Eigen::ArrayXd::Zero(8);
  u(0) = 1.9 * bit.shapes.front().radius;
  materials::Rock stone;
  stone.unconfined_strength = 20e6;
  stone.youngs_modulus = 6e9;
  stone.poissons_ratio = 0.25;
  stone.contact_strength_ratio = 1.5;
  const RockResistance rock = rock_resistance(stone, 0.0, 0.4, 0.9, 4.0);
  const auto weight = [&](const geometry::BitLayout& listed, const Eigen::ArrayXd& worn_height) {
    geometry::WornProfile profile(listed, samples::made_edge_law(), 0.5e-3);
    profile.update(worn_height);
    const BladeSurfaces surfaces = blade_surfaces(listed);
    return blade_contact(profile, rock, {&surfaces, 20e-3, 0.0, rubbing_limit(profile, surfaces)}, 0.0)
        .weight;
  };
  const double as_laid_out = weight(bit, u);
  EXPECT_GT(as_laid_out, 0.0);
  EXPECT_NEAR(weight(reversed, u.reverse()), as_laid_out, 1e-9 * as_laid_out);
}

}  // namespace
}  // namespace dullcast::cutting
