#include "tools/heat_reference/worn_cutter.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <stdexcept>

#include "models/common/constants.hpp"
#include "models/geometry/wear_flat.hpp"

namespace dullcast::heat_reference {
namespace {

WornCutter worn_cutter(double worn) {
  WornCutter c;
  c.shape = {6.5e-3, 8e-3, 2e-3, 0.0, 0.0, pi / 4.0, 30e-6};
  c.back_rake = 15.0 * pi / 180.0;
  c.worn = worn;
  return c;
}

TEST(WornCutter, FlatWithoutABevelIsTheModelsWearFlat) {
  for (const double worn : {0.05e-3, 0.4e-3, 1.5e-3, 4e-3}) {
    const WornCutter c = worn_cutter(worn);
    const geometry::WearFlat closed =
        geometry::wear_flat(c.shape.radius, c.shape.length, c.shape.table_thickness, c.back_rake, worn);
    const Flat found = flat_of(c);
    EXPECT_NEAR(found.diamond_area / closed.diamond_area, 1.0, 1e-6) << worn;
    EXPECT_NEAR(found.carbide_area, closed.carbide_area, 1e-6 * closed.diamond_area) << worn;
    EXPECT_NEAR(found.width, 2.0 * std::sqrt(2.0 * c.shape.radius * worn - worn * worn), 1e-12) << worn;
  }
}

TEST(WornCutter, BevelTakesItsShareOfTheFlat) {
  WornCutter c = worn_cutter(0.8e-3);
  const Flat plain = flat_of(c);
  c.shape.bevel_width = 0.4e-3;
  const Flat bevelled = flat_of(c);
  EXPECT_LT(bevelled.diamond_area, plain.diamond_area);
  EXPECT_GT(bevelled.diamond_area, 0.9 * plain.diamond_area);
  EXPECT_EQ(bevelled.carbide_area, plain.carbide_area);
  // Worn less than the bevel is wide, the flat begins behind the bevel.
  c.worn = 0.2e-3;
  EXPECT_FALSE(on_flat(c, 0.0, 1e-5));
  EXPECT_TRUE(on_flat(c, 0.0, bevel_height(c.shape)));
}

TEST(WornCutter, WornHeightOfAFlatGivesThatFlat) {
  WornCutter c = worn_cutter(0.0);
  c.shape.bevel_width = 0.3e-3;
  for (const double area : {2e-6, 12e-6, 60e-6}) {
    c.worn = worn_height_of_flat(c, area);
    EXPECT_NEAR(flat_of(c).area() / area, 1.0, 1e-9);
  }
  EXPECT_THROW(worn_height_of_flat(c, 1e-3), std::domain_error);
  EXPECT_THROW(worn_height_of_flat(c, 0.0), std::domain_error);
}

TEST(WornCutter, SurfaceIsContinuousWhereFlatMeetsCylinder) {
  const WornCutter c = worn_cutter(1e-3);
  const double rim = contact_half_angle(c, 1e-3);
  EXPECT_NEAR(surface_radius(c, rim * (1.0 - 1e-9), 1e-3), surface_radius(c, rim * (1.0 + 1e-9), 1e-3),
              1e-11);
  EXPECT_LT(surface_radius(c, 0.0, 0.0), c.shape.radius);
}

TEST(WornCutter, ImpossibleCuttersAreRefused) {
  const auto refused = [](auto change) {
    WornCutter c = worn_cutter(1e-3);
    change(c);
    EXPECT_THROW(require_cutter(c), std::domain_error);
  };
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  refused([](WornCutter& c) { c.worn = c.shape.radius; });
  refused([](WornCutter& c) { c.worn = nan; });
  refused([](WornCutter& c) { c.back_rake = 0.0; });
  refused([](WornCutter& c) { c.shape.table_thickness = 9e-3; });
  refused([](WornCutter& c) { c.shape.bevel_width = 3e-3; });
  refused([](WornCutter& c) { c.exposed_share = 1.1; });
  refused([](WornCutter& c) { c.land_width = 2e-3; });
}

}  // namespace
}  // namespace dullcast::heat_reference
