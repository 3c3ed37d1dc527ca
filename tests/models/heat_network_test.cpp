#include "models/heat_network.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <limits>

#include "models/heat.hpp"
#include "models/letters.hpp"

namespace dullcast {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// A 13 x 8 mm cutter with a 2 mm table.
CutterShape shape_of_1308() {
  return {6.5e-3, 8e-3, 2e-3, 0.0, 0.4e-3, pi / 4.0, 30e-6};
}

/// Its body held at the pocket's outside, braze film over the upper half of the side only.
CutterMaterials materials() {
  CutterMaterials m;
  m.table_conductivity = 543.0;
  m.table_density = 3510.0;
  m.carbide_conductivity = 100.0;
  m.carbide_density = 14900.0;
  m.carbide_heat_capacity = 220.0;
  m.body_conductivity = infinity;
  m.pocket_conductance = 1e4;
  m.exposed_share = 0.5;
  m.back_in_pocket = false;
  m.edge_factor = 1.15;
  return m;
}

TEST(HeatNetwork, AgreesWithA3dSolutionWithinTenPerCent) {
  // Values from an independent 3-D solution: finite elements of the heat equation in the cutter, two
  // solutions that agree: uniform heat over a 12 mm2 flat at the rim, braze 1e4 W/(m2 K) over the upper half
  // of the side.
  const struct { double h, resistance; } solved[] = {{50.0, 0.95}, {1e4, 0.57}, {5e4, 0.33}};
  for (const auto& point : solved) {
    const double found = steady_flat_resistance(cutter_network(shape_of_1308(), materials(), point.h), 12e-6);
    std::printf("  h %6.0f W/(m2 K): %.3f K/W, 3-D %.2f (%+.1f %%)\n", point.h, found, point.resistance,
                100.0 * (found / point.resistance - 1.0));
    EXPECT_NEAR(found / point.resistance, 1.0, 0.10) << point.h;
  }
}

TEST(HeatNetwork, SteadyHeatIntoTheFlatLeavesByFluidAndBody) {
  CutterMaterials m = materials();
  m.body_conductivity = 42.7;
  m.back_in_pocket = true;
  for (const double h : {0.0, 50.0, 3e3, 5e4}) {
    const CutterNetwork n = cutter_network(shape_of_1308(), m, h);
    const double heat = 200.0;
    const double flat = heat * steady_flat_resistance(n, 12e-6);
    const double table = flat - heat * n.edge_factor * isothermal_spot_resistance(543.0, 12e-6);
    const double carbide_out = n.carbide_to_fluid + n.carbide_to_body;
    const double carbide = table * n.table_to_carbide / (n.table_to_carbide + carbide_out);
    // Both nodes balance, and what goes in comes out.
    EXPECT_NEAR(n.table_to_carbide * (table - carbide), carbide_out * carbide, 1e-10 * heat);
    EXPECT_NEAR((n.table_to_fluid + n.table_to_body) * table + carbide_out * carbide, heat, 1e-10 * heat);
    EXPECT_GT(flat, table);
    EXPECT_GT(table, carbide);
    EXPECT_GT(carbide, 0.0);
  }
}

TEST(HeatNetwork, HasTheMassesAndSurfacesOfTheCylinder) {
  const CutterShape s = shape_of_1308();
  CutterMaterials m = materials();
  m.back_in_pocket = true;
  const CutterNetwork n = cutter_network(s, m, 1000.0);
  const double face = pi * 6.5e-3 * 6.5e-3;
  EXPECT_NEAR(n.table_mass, 3510.0 * face * 2e-3, 1e-15);
  EXPECT_NEAR(n.carbide_capacity, 14900.0 * 220.0 * face * 6e-3, 1e-12);
  EXPECT_NEAR(n.table_to_fluid + n.carbide_to_fluid, 1000.0 * (face + 0.5 * two_pi * 6.5e-3 * 8e-3), 1e-12);
  // An infinite body leaves the braze film: half the side and the back.
  EXPECT_NEAR(n.table_to_body + n.carbide_to_body, 1e4 * (face + 0.5 * two_pi * 6.5e-3 * 8e-3), 1e-10);
  // A real one spreads from a pocket of area 2 pi a_p^2.
  m.body_conductivity = 42.7;
  const CutterNetwork real = cutter_network(s, m, 1000.0);
  const double pocket = face + 0.5 * two_pi * 6.5e-3 * 8e-3, a_p = std::sqrt(pocket / two_pi);
  EXPECT_NEAR(1.0 / (real.table_to_body + real.carbide_to_body),
              1.0 / (1e4 * pocket) + 1.0 / (two_pi * 42.7 * a_p), 1e-12);
  // A cutter standing wholly free touches no body.
  m.exposed_share = 1.0;
  m.back_in_pocket = false;
  EXPECT_EQ(cutter_network(s, m, 1000.0).table_to_body, 0.0);
}

TEST(HeatNetwork, ResistanceFallsWithConvectionAndWithTheFlat) {
  double before = infinity;
  for (const double h : {10.0, 100.0, 1e3, 1e4, 1e5}) {
    const double now = steady_flat_resistance(cutter_network(shape_of_1308(), materials(), h), 12e-6);
    EXPECT_LT(now, before);
    before = now;
  }
  const CutterNetwork n = cutter_network(shape_of_1308(), materials(), 1e4);
  EXPECT_LT(steady_flat_resistance(n, 30e-6), steady_flat_resistance(n, 3e-6));
}

TEST(HeatNetwork, SharedHeatBalances) {
  const SharedHeat s = share_heat(500.0, 2.0, 3.0, 330.0, 290.0);
  EXPECT_NEAR(s.temperature, (500.0 + 2.0 * 330.0 + 3.0 * 290.0) / 5.0, 1e-12);
  EXPECT_NEAR(s.into_table + s.into_rock, 500.0, 1e-10);
  EXPECT_NEAR(s.into_table, 2.0 * (s.temperature - 330.0), 1e-12);
}

TEST(HeatNetwork, SharedHeatAtItsLimits) {
  // A rock that takes nothing, a table that takes nothing, no contact at all.
  EXPECT_NEAR(share_heat(500.0, 2.0, 0.0, 330.0, 290.0).into_table, 500.0, 1e-10);
  EXPECT_NEAR(share_heat(500.0, 2.0, 0.0, 330.0, 290.0).temperature, 580.0, 1e-10);
  EXPECT_NEAR(share_heat(500.0, 0.0, 4.0, 330.0, 290.0).into_rock, 500.0, 1e-10);
  const SharedHeat none = share_heat(0.0, 0.0, 0.0, 330.0, 290.0);
  EXPECT_EQ(none.temperature, 330.0);
  EXPECT_EQ(none.into_table, 0.0);
  EXPECT_EQ(none.into_rock, 0.0);
  // A table hotter than the contact would be gives heat to the rock.
  const SharedHeat back = share_heat(10.0, 2.0, 3.0, 600.0, 290.0);
  EXPECT_LT(back.into_table, 0.0);
  EXPECT_GT(back.into_rock, 10.0);
  // Equal temperatures: shares as the conductances.
  const SharedHeat even = share_heat(100.0, 1.0, 3.0, 300.0, 300.0);
  EXPECT_NEAR(even.into_table, 25.0, 1e-10);
}

TEST(HeatNetwork, ContactsFollowTheirAreas) {
  Rock rock;
  rock.conductivity = 2.8;
  rock.density = 2600.0;
  rock.heat_capacity = 900.0;
  const CutterNetwork n = cutter_network(shape_of_1308(), materials(), 1e4);
  CutterHeating heating;
  heating.contact_area = 12e-6;
  heating.engaged_width = 6e-3;
  heating.area_of_cut = 5e-6;
  heating.sliding_speed = 1.0;
  heating.chip_speed = 0.5;
  heating.back_rake = 0.26;
  const CutterContacts c = cutter_contacts(n, heating, rock);
  EXPECT_NEAR(1.0 / c.flat_spot, 1.15 / (4.0 * 543.0 * std::sqrt(12e-6 / pi)), 1e-12);
  EXPECT_NEAR(1.0 / c.face_spot, 1.15 / (4.0 * 543.0 * std::sqrt(5e-6 / std::cos(0.26) / pi)), 1e-12);
  // Fast: h_r = (3 sqrt(pi)/4) k sqrt(v/(kappa L)), L = area over width = 2 mm; the stationary part is a
  // fiftieth of it in square.
  const double fast = 0.75 * std::sqrt(pi) * 2.8 * std::sqrt(1.0 / (2.8 / (2600.0 * 900.0) * 2e-3));
  EXPECT_NEAR(c.flat_rock / (12e-6 * fast), 1.0, 0.02);
  EXPECT_GT(c.flat_rock, 12e-6 * fast);
  // Off bottom: no contact, nothing to share.
  const CutterContacts off = cutter_contacts(n, CutterHeating{}, rock);
  EXPECT_EQ(off.flat_spot + off.flat_rock + off.face_spot + off.face_rock, 0.0);
}

}  // namespace
}  // namespace dullcast
