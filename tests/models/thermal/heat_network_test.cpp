#include "models/thermal/heat_network.hpp"

#include <gtest/gtest.h>

#include <Eigen/LU>
#include <cmath>

#include "models/common/constants.hpp"
#include "models/geometry/wear_flat.hpp"
#include "models/thermal/heat.hpp"
#include "support/numbers.hpp"

namespace dullcast::thermal {
namespace {

using testing::infinity;

/// A 13 x 8 mm cutter with a 2 mm table.
geometry::CutterShape shape_of_1308() {
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
  return m;
}

/// A 12 mm2 flat of that cutter, as a plane at 15 deg cuts it.
constexpr ContactShape flat{12e-6, 6e-3};

TEST(HeatNetwork, SteadyHeatIntoTheFlatLeavesByFluidAndBody) {
  CutterMaterials m = materials();
  m.body_conductivity = 42.7;
  m.back_in_pocket = true;
  const CutterNetwork n = cutter_network(shape_of_1308(), m);
  const CutterLinks links = cutter_links(n, flat);
  for (const double h : {0.0, 50.0, 3e3, 5e4}) {
    const double heat = 200.0;
    const Eigen::Vector4d T =
        conductance_matrix(n, links, h).inverse() * (heat * Eigen::Vector4d::Unit(table_near));
    EXPECT_NEAR(((h * links.fluid_area + n.to_body) * T.array()).sum(), heat, 1e-10 * heat);
    // Heat runs from the contact away, and the contact is the hottest.
    EXPECT_GT(heat * steady_flat_resistance(n, flat, h), T(table_near));
    EXPECT_GT(T(table_near), T(table_rest));
    EXPECT_GT(T(table_near), T(carbide_near));
    EXPECT_GT(T(carbide_near), T(carbide_rest));
    EXPECT_GT(T.minCoeff(), 0.0);
  }
}

TEST(HeatNetwork, PartsAddUpToTheCutter) {
  CutterMaterials m = materials();
  m.back_in_pocket = true;
  m.body_conductivity = 42.7;
  const geometry::CutterShape s = shape_of_1308();
  const CutterNetwork n = cutter_network(s, m);
  const double face = pi * s.radius * s.radius, side = two_pi * s.radius;
  EXPECT_NEAR(n.table_mass.sum(), 3510.0 * face * 2e-3, 1e-15);
  EXPECT_NEAR(n.carbide_capacity.sum(), 14900.0 * 220.0 * face * 6e-3, 1e-12);
  for (const ContactShape& contact : {flat, ContactShape{2e-6, 9e-3}, ContactShape{0.0, 0.0}}) {
    const CutterLinks links = cutter_links(n, contact);
    EXPECT_NEAR(links.fluid_area.sum(), face + 0.5 * side * s.length, 1e-15);
    EXPECT_GT(links.fluid_area.minCoeff(), 0.0);
  }
  EXPECT_NEAR(n.to_body.sum(), pocket_conductance(s, m) * (0.5 * side * s.length + face), 1e-12);
}

// The fit's own numbers, at the reference cutter and contact whose powers vanish: what the reference gave for
// them.
TEST(HeatNetwork, AtTheReferenceCutterItsNumbersAreThoseOfTheFit) {
  const double a = 8e-3;
  const geometry::CutterShape shape{a, (1.9 + 0.35) * a, 0.35 * a, 0.0, 0.4e-3, 0.785, 30e-6};
  CutterMaterials m = materials();
  m.table_conductivity = 600.0;
  m.carbide_conductivity = 100.0;
  const CutterNetwork n = cutter_network(shape, m);
  const double width = 0.6 * 2.0 * a, length = 0.5 * 0.35 * a;
  const ContactShape contact{width * length, width};
  const double equal_radius = std::sqrt(contact.area / pi);
  EXPECT_NEAR(spot_resistance(n, contact) * 4.0 * 600.0 * equal_radius, std::exp(-0.522), 1e-9);
  EXPECT_NEAR(cutter_links(n, contact).tables / (600.0 * 0.35 * a), std::exp(-1.336), 1e-9);
  EXPECT_NEAR(cutter_links(n, contact).carbides / (100.0 * a), std::exp(1.155), 1e-9);
  EXPECT_EQ(face_spot_factor, 1.18);
}

TEST(HeatNetwork, PocketConductanceIsBrazeAndSpreadingInSeries) {
  CutterMaterials m = materials();
  EXPECT_EQ(pocket_conductance(shape_of_1308(), m), 1e4) << "a body held at one temperature adds nothing";
  m.body_conductivity = 42.7;
  const double area = pi * 6.5e-3 * 8e-3, a_p = std::sqrt(area / two_pi);
  EXPECT_NEAR(1.0 / pocket_conductance(shape_of_1308(), m), 1e-4 + area / (two_pi * 42.7 * a_p), 1e-15);
}

TEST(HeatNetwork, ResistanceFallsWithConvectionAndWithTheFlatsArea) {
  const CutterNetwork n = cutter_network(shape_of_1308(), materials());
  double before = infinity;
  for (const double h : {10.0, 100.0, 1e3, 1e4, 1e5}) {
    const double now = steady_flat_resistance(n, flat, h);
    EXPECT_LT(now, before);
    before = now;
  }
  before = infinity;
  // Flats of a 15 deg rake at worn heights of 0.1 to 3 mm.
  for (const double u : {0.1e-3, 0.3e-3, 1e-3, 2e-3, 3e-3}) {
    const geometry::WearFlat worn = geometry::wear_flat(6.5e-3, 8e-3, 2e-3, pi / 12.0, u);
    const double now = steady_flat_resistance(
        n, {worn.diamond_area + worn.carbide_area / 150.0, 2.0 * std::sqrt(2.0 * 6.5e-3 * u - u * u)}, 1e4);
    EXPECT_LT(now, before) << u;
    before = now;
  }
}

TEST(HeatNetwork, EdgeFactorScalesTheSpotAlone) {
  CutterMaterials m = materials();
  const CutterNetwork plain = cutter_network(shape_of_1308(), m);
  m.edge_factor = 1.1;
  const CutterNetwork scaled = cutter_network(shape_of_1308(), m);
  EXPECT_NEAR(spot_resistance(scaled, flat) / spot_resistance(plain, flat), 1.1, 1e-14);
  EXPECT_NEAR(steady_flat_resistance(scaled, flat, 1e3) - steady_flat_resistance(plain, flat, 1e3),
              0.1 * spot_resistance(plain, flat), 1e-12);
}

TEST(HeatNetwork, ContactThatIsNotThereHasLinksButNoSpot) {
  const CutterNetwork n = cutter_network(shape_of_1308(), materials());
  EXPECT_EQ(spot_resistance(n, {0.0, 0.0}), infinity);
  EXPECT_TRUE(conductance_matrix(n, cutter_links(n, {0.0, 0.0}), 1e3).allFinite());
  EXPECT_TRUE(std::isnan(spot_resistance(n, {std::nan(""), 6e-3})) ||
              spot_resistance(n, {std::nan(""), 6e-3}) == infinity);
  EXPECT_TRUE(std::isnan(spot_resistance(n, {12e-6, std::nan("")})));
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
  materials::Rock rock;
  rock.conductivity = 2.8;
  rock.density = 2600.0;
  rock.heat_capacity = 900.0;
  const CutterNetwork n = cutter_network(shape_of_1308(), materials());
  CutterHeating heating;
  heating.contact_area = 12e-6;
  heating.engaged_width = 6e-3;
  heating.area_of_cut = 5e-6;
  heating.sliding_speed = 1.0;
  heating.chip_speed = 0.5;
  heating.back_rake = 0.26;
  const CutterContacts c = cutter_contacts(n, heating, rock);
  EXPECT_NEAR(1.0 / c.flat_spot, spot_resistance(n, flat), 1e-12);
  EXPECT_NEAR(1.0 / c.face_spot, face_spot_factor * spot_resistance(n, {5e-6 / std::cos(0.26), 6e-3}), 1e-12);
  // Near what an isothermal spot has in the middle of a wide face, 1/(4 k a_eq): more at the rim.
  EXPECT_GT(1.0 / c.flat_spot, isothermal_spot_resistance(543.0, 12e-6) * 0.5);
  EXPECT_LT(1.0 / c.flat_spot, isothermal_spot_resistance(543.0, 12e-6) * 2.0);
  // Fast: h_r = (3 sqrt(pi)/4) k sqrt(v/(kappa L)), L = area over width = 2 mm; the stationary part is a
  // fiftieth of it in square.
  const double fast = 0.75 * std::sqrt(pi) * 2.8 * std::sqrt(1.0 / (2.8 / (2600.0 * 900.0) * 2e-3));
  EXPECT_NEAR(c.flat_rock / (12e-6 * fast), 1.0, 0.02);
  EXPECT_GT(c.flat_rock, 12e-6 * fast);
  // Off bottom: no contact, nothing to share.
  const CutterContacts off = cutter_contacts(n, CutterHeating{}, rock);
  EXPECT_EQ(off.flat_spot + off.flat_rock + off.face_spot + off.face_rock, 0.0);
}

TEST(CrushedRock, GivesNoMoreHeatThanItBrings) {
  // 80 K, 300 W, 2 W/K on the rock's side: 80 x 300/460 K.
  EXPECT_NEAR(rise_at_contacts(80.0, 300.0, 2.0), 80.0 * 300.0 / 460.0, 1e-12);
  EXPECT_EQ(rise_at_contacts(80.0, 300.0, 0.0), 80.0);
  EXPECT_EQ(rise_at_contacts(80.0, 0.0, 2.0), 0.0);
  EXPECT_EQ(rise_at_contacts(0.0, 0.0, 0.0), 0.0);
  for (const double brings : {1e-6, 1.0, 1e3}) EXPECT_LT(2.0 * rise_at_contacts(80.0, brings, 2.0), brings);
}

// By hand: 300 W over 0.1 + 0.1 W/K from 300 K would be 1,800 K; friction that falls from 1,200 to 1,500 K
// leaves it where what it makes, 300 W (1500 - T)/300, goes through 0.2 W/K: T = (1500 + 60)/1.2 = 1,300 K,
// 200 W.
TEST(SoftenedHeat, BalancesWhereTheRestOfTheFrictionGoes) {
  const Softening law{1200.0, 1500.0};
  const double made = softened_heat(law, 300.0, 0.1, 0.1, 300.0, 300.0);
  EXPECT_NEAR(made, 200.0, 1e-9);
  EXPECT_NEAR(share_heat(made, 0.1, 0.1, 300.0, 300.0).temperature, 1300.0, 1e-9);
  EXPECT_EQ(softened_heat(law, 100.0, 0.1, 0.1, 300.0, 300.0), 100.0) << "800 K is no heat for rock";
  EXPECT_NEAR(softened_heat(law, 180.0 + 1e-6, 0.1, 0.1, 300.0, 300.0), 180.0, 1e-5)
      << "continuous at 1,200 K";
  EXPECT_EQ(softened_heat(law, 300.0, 0.1, 0.1, 2000.0, 1500.0), 0.0) << "nothing is left to make";
  EXPECT_EQ(softened_heat(law, 300.0, 0.0, 0.0, 300.0, 300.0), 300.0) << "no contact";
  for (double heat = 200.0; heat < 1e9; heat *= 3.0)
    EXPECT_LT(
        share_heat(softened_heat(law, heat, 0.1, 0.1, 300.0, 300.0), 0.1, 0.1, 300.0, 300.0).temperature,
        1500.0);
}

TEST(SoftenedHeat, FallsByItsAnswerAsTableAndRockWarm) {
  const Softening law{1200.0, 1500.0};
  const double spot = 0.3, rock = 0.1, heat = 300.0, table = 900.0, warm = 700.0;
  const auto made = [&](double T_table, double T_rock) {
    return softened_heat(law, heat, spot, rock, T_table, T_rock);
  };
  const double answer = softening_answer(law, heat, spot + rock, made(table, warm));
  EXPECT_GT(answer, 0.5);
  EXPECT_NEAR(made(table + 1.0, warm) - made(table, warm), -answer * spot, 1e-9);
  EXPECT_NEAR(made(table, warm + 1.0) - made(table, warm), -answer * rock, 1e-9);
  EXPECT_EQ(softening_answer(law, heat, spot + rock, heat), 0.0) << "all of it is made";
  EXPECT_EQ(softening_answer(law, heat, spot + rock, 0.0), 0.0) << "nothing is left to make";
}

}  // namespace
}  // namespace dullcast::thermal
