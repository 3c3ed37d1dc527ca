#include "models/thermal/cutter_heat.hpp"

#include <gtest/gtest.h>

#include <array>

#include "models/thermal/heat.hpp"

namespace dullcast::thermal {
namespace {

CutterHeatLaw two_cutters() {
  CutterHeatLaw law;
  law.networks.kinds.resize(2);
  law.networks.kinds[0].table_mass << 1e-3, 2e-3;
  law.networks.kinds[0].carbide_capacity << 3.0, 4.0;
  law.networks.kinds[1].table_mass << 5e-3, 6e-3;
  law.networks.kinds[1].carbide_capacity << 7.0, 8.0;
  law.networks.kind = Eigen::Array2i(0, 1);
  return law;
}

// Half a kelvin is one trapezoid, by hand; each cutter holds by its own kind.
TEST(HeatInCutters, OfHalfAKelvinIsOneTrapezoidOfTheHeatCapacity) {
  Eigen::Array<double, Eigen::Dynamic, cutter_parts> parts(2, cutter_parts);
  parts.setConstant(350.0);
  const CutterHeatLaw law = two_cutters();
  EXPECT_EQ(heat_in_cutters(law, parts, 350.0), 0.0);
  const double trapezoid = 0.5 * 0.5 * (diamond_heat_capacity(350.0) + diamond_heat_capacity(350.5));
  const std::array<double, 4> first{1e-3 * trapezoid, 2e-3 * trapezoid, 1.5, 2.0},
      second{5e-3 * trapezoid, 6e-3 * trapezoid, 3.5, 4.0};
  for (Eigen::Index k = 0; k < cutter_parts; ++k) {
    parts.setConstant(350.0);
    parts(0, k) = 350.5;
    EXPECT_NEAR(heat_in_cutters(law, parts, 350.0), first[static_cast<std::size_t>(k)], 1e-12) << k;
    parts(0, k) = 350.0;
    parts(1, k) = 350.5;
    EXPECT_NEAR(heat_in_cutters(law, parts, 350.0), second[static_cast<std::size_t>(k)], 1e-12) << k;
  }
}

// Simpson's rule over 300 K against trapezoids of a kelvin.
TEST(HeatInCutters, IsTheIntegralOfTheHeatCapacity) {
  Eigen::Array<double, Eigen::Dynamic, cutter_parts> parts(2, cutter_parts);
  parts.setConstant(300.0);
  parts(0, table_near) = 600.0;
  double simpson = diamond_heat_capacity(300.0) + diamond_heat_capacity(600.0);
  for (int k = 1; k < 1000; ++k) simpson += (k % 2 == 1 ? 4.0 : 2.0) * diamond_heat_capacity(300.0 + 0.3 * k);
  simpson *= 0.3 / 3.0;
  EXPECT_NEAR(heat_in_cutters(two_cutters(), parts, 300.0) / (1e-3 * simpson), 1.0, 1e-6);
}

}  // namespace
}  // namespace dullcast::thermal
