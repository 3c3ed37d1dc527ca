#include "models/thermal/bed_dry_out.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "models/common/constants.hpp"
#include "models/thermal/boiling.hpp"

namespace dullcast::thermal {
namespace {

// Worked out when asked for: nothing of the models runs before main.
const materials::SaturatedWater& at_1_bar() {
  static const materials::SaturatedWater water = materials::saturated_water(standard_atmosphere);
  return water;
}

// Hofmann, Nucl. Technol. 65, 1984 [pub, from memory]: beds of 3 mm spheres, void share 0.405, flooded from
// above by water at 1 atm, dry out at about 0.9 MW/m2; measurements of the kind scatter by a fifth.
TEST(BedDryOut, ABedOf3MillimetresDriesOutWhereItWasMeasured) {
  EXPECT_NEAR(bed_dry_out_flux(at_1_bar(), 3e-3, 0.405), 0.9e6, 0.2 * 0.9e6);
}

TEST(BedDryOut, CuttingsOfHalfAMillimetreToOneLetATenthToAThirdOfAMegawattThrough) {
  for (const double pressure : {1.0, 2.0, 4.0}) {
    const auto water = materials::saturated_water(pressure * standard_atmosphere);
    EXPECT_GT(bed_dry_out_flux(water, 0.55e-3, 0.4), 0.1e6);
    EXPECT_LT(bed_dry_out_flux(water, 0.7e-3, 0.4), 0.35e6);
  }
}

TEST(BedDryOut, IsFarUnderTheCriticalFluxOfAnOpenSurface) {
  EXPECT_LT(bed_dry_out_flux(at_1_bar(), 0.5e-3, 0.4),
            0.1 * critical_heat_flux(at_1_bar(), at_1_bar().temperature));
}

// Fine grains: drag is viscous alone and the flux goes with the square of the grain; coarse ones: with its
// root.
TEST(BedDryOut, GrowsWithTheSquareOfFineGrainsAndTheRootOfCoarseOnes) {
  const auto q = [](double grain) { return bed_dry_out_flux(at_1_bar(), grain, 0.4); };
  EXPECT_NEAR(q(2e-5) / q(1e-5), 4.0, 1e-2);
  EXPECT_NEAR(q(4.0) / q(1.0), 2.0, 1e-2);
}

// The balance that the flux solves, term by term.
TEST(BedDryOut, WeightBalancesTheDragOfBothStreams) {
  const auto& w = at_1_bar();
  const double d = 0.7e-3, e = 0.4, j = bed_dry_out_flux(w, d, e) / w.latent_heat;
  const double K_1 = std::pow(std::pow(w.vapour_viscosity / w.vapour_density, 0.25) +
                                  std::pow(w.liquid_viscosity / w.liquid_density, 0.25),
                              4.0);
  const double K_2 =
      std::pow(std::pow(w.vapour_density, -1.0 / 6.0) + std::pow(w.liquid_density, -1.0 / 6.0), 6.0);
  const double drag =
      150.0 * 0.36 / (e * e * e * d * d) * K_1 * j + 1.75 * 0.6 / (e * e * e * d) * K_2 * j * j;
  const double weight = standard_gravity * (w.liquid_density - w.vapour_density);
  EXPECT_NEAR(drag / weight, 1.0, 1e-12);
}

TEST(BedDryOut, MoreRoomAndMorePressureLetMoreThrough) {
  EXPECT_GT(bed_dry_out_flux(at_1_bar(), 0.5e-3, 0.5), bed_dry_out_flux(at_1_bar(), 0.5e-3, 0.4));
  EXPECT_GT(bed_dry_out_flux(materials::saturated_water(4e5), 0.5e-3, 0.4),
            bed_dry_out_flux(at_1_bar(), 0.5e-3, 0.4));
}

TEST(BedDryOut, IsFiniteForWildGrainsAndLetsANaNThrough) {
  for (const double value : {-1.0, 0.0, 1e-9, 1e9}) {
    EXPECT_TRUE(std::isfinite(bed_dry_out_flux(at_1_bar(), value, value)));
    EXPECT_GE(bed_dry_out_flux(at_1_bar(), value, value), 0.0);
  }
  EXPECT_TRUE(std::isnan(bed_dry_out_flux(at_1_bar(), std::numeric_limits<double>::quiet_NaN(), 0.4)));
}

}  // namespace
}  // namespace dullcast::thermal
