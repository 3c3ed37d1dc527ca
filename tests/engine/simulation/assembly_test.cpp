// What a scenario's numbers become before the first step.

#include "engine/simulation/assembly.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/simulation/event_policies.hpp"
#include "models/common/constants.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

TEST(Assembly, TheGroundWarmsWithDepth) {
  scenario::Scenario s = testing::short_scenario();
  s.column.surface_temperature = 285.0;
  s.column.temperature_gradient = 0.03;
  const Ground ground = assemble(s).ground;
  EXPECT_EQ(ground.rock_temperature(0.0), 285.0);
  EXPECT_DOUBLE_EQ(ground.rock_temperature(200.0), 291.0);
}

// What follows from the numbers of a 200 mm bit in a 200 mm hole, by hand.
TEST(Assembly, TheBitsOwnMeasuresAreThoseOfItsNumbers) {
  const scenario::Scenario s = samples::invented_scenario();
  const BitModels bit = bit_models(s);
  const double R = 0.1, hole = pi * R * R, slots = 0.35 * hole, pipe = 0.09;
  EXPECT_NEAR(bit.cleaning.hole_area, hole, 1e-12);
  EXPECT_NEAR(bit.cleaning.bit_diameter, 0.2, 1e-12);
  EXPECT_NEAR(bit.cleaning.burying_depth, 0.6 * 16e-3, 1e-12);
  EXPECT_NEAR(bit.cleaning.slots.area, slots, 1e-12);
  EXPECT_NEAR(bit.cleaning.slots.volume, slots * 0.2, 1e-12);
  EXPECT_NEAR(bit.cleaning.slots.annulus_area, hole - 0.25 * pi * pipe * pipe, 1e-12);
  EXPECT_NEAR(bit.bottom_water.annulus_area, hole - 0.25 * pi * pipe * pipe, 1e-12);
  EXPECT_NEAR(bit.bottom_water.annulus_diameter, 0.2 - pipe, 1e-12);
  // The slots and a bit's diameter of the hole above them.
  EXPECT_NEAR(bit.bottom_volume, slots * 0.2 + hole * 0.2, 1e-12);
  EXPECT_NEAR(bit.wall_conductance, 500.0 * hole, 1e-9);
  EXPECT_NEAR(bit.jet_path, 0.5 * R, 1e-12);
  EXPECT_NEAR(bit.bottom_heat.body_capacity, 2.0 * R * R * R * 7850.0 * 473.0, 1e-6);
  EXPECT_NEAR(bit.bottom_heat.body_wetted_area, 8.0 * R * R, 1e-12);
  EXPECT_NEAR(bit.bottom_heat.hole_area, hole, 1e-12);
  EXPECT_NEAR(bit.body_wear.blade_area, 4 * 0.022 * R, 1e-12);
  EXPECT_NEAR(bit.body_wear.pad_area, 0.05 * 0.022, 1e-12);
  EXPECT_NEAR(bit.cooling.cutter_diameter(2), 16e-3, 1e-12);
  EXPECT_NEAR(bit.cooling.slot_diameter, 2.0 * std::sqrt(slots / (4 * pi)), 1e-12);
  EXPECT_NEAR(bit.cooling.slot_volume, slots * 0.2, 1e-12);
  EXPECT_EQ(bit.chip_heat.speed_share, 0.5);
  EXPECT_EQ(bit.chip_heat.crushed_share, 0.6);
  EXPECT_EQ(bit.rate.exponent, 0.079);
  EXPECT_EQ(bit.rate.reference_speed, 0.4);
  EXPECT_EQ(bit.rate.reference_depth, 0.4e-3);
  EXPECT_EQ(bit.wear.abrasion.cutting_share, 1.0);
  EXPECT_EQ(bit.wear.abrasion.carbide_load_least, 0.1);
  scenario::Scenario tall = s;
  tall.numbers.water_height = samples::exactly(0.25);
  EXPECT_NEAR(bit_models(tall).bottom_volume, slots * 0.2 + 0.25 * hole * 0.2, 1e-12);
  scenario::Scenario tough = s;
  tough.bit.body.rubbing_resistance = samples::exactly(2.0);
  EXPECT_NEAR(bit_models(tough).rubbing_coefficient, 0.5e-16, 1e-30);
}

TEST(Assembly, AnIntervalsMeasuresAreThoseOfItsRockAndItsSettings) {
  scenario::Scenario s = samples::invented_scenario();
  s.bit.build.port_area = 4.0 * 0.25 * pi * 0.01 * 0.01;
  s.bit.build.port_diameter = 0.01;
  s.plan[0].feed_limit = 0.01;
  const RunModels models = assemble(s);
  ASSERT_EQ(models.intervals.size(), 4u);
  const DrillingInterval& limestone = models.intervals[1];
  EXPECT_EQ(limestone.top, 40.0);
  EXPECT_EQ(limestone.bottom, 80.0);
  EXPECT_NEAR(limestone.most_depth_of_cut, 0.01 / (85.0 / 60.0), 1e-12);
  EXPECT_EQ(limestone.resistance.rotary_speed, 85.0 / 60.0);
  EXPECT_EQ(limestone.resistance.rate.exponent, 0.079);
  EXPECT_NEAR(limestone.resistance.specific_energy, 80e6, 1e-3);
  // rho c of intact rock: sqrt(2600 kg/m3 x 24 GPa).
  EXPECT_NEAR(limestone.edge_ground.impedance, std::sqrt(2600.0 * 24e9), 1e-3);
  EXPECT_NEAR(limestone.wear_coefficient_cold, 1e-17, 1e-31);
  EXPECT_NEAR(models.intervals[2].wear_coefficient_cold, 1e-17 * std::pow(2.5, 1.5), 1e-30);
  EXPECT_NEAR(models.intervals[2].rubbing_coefficient, 1e-16 * std::pow(2.5, 1.5), 1e-29);
  const double mass = 999.0 * models.bit.bottom_volume;
  EXPECT_NEAR(limestone.fluid_mass, mass, 1e-9);
  EXPECT_NEAR(limestone.fluid_capacity, mass * 4186.0, 1e-6);
  // 60 gal/min through four ports of 10 mm: 12 m/s, of which a wall jet has 1.03 v D/x left half a radius
  // away.
  const double jet = s.plan[0].flow / s.bit.build.port_area;
  EXPECT_NEAR(limestone.jet_wash, 1.03 * jet * 0.01 / 0.05, 1e-9);
}

// Choices of this program: one that is changed is changed on purpose, here too.
TEST(EventPolicies, AreAsTheyWereChosen) {
  EXPECT_EQ(policy::patience, 300.0);
  EXPECT_EQ(policy::afterwards_share, 2.0);
  EXPECT_EQ(policy::packed_from, 0.9);
  EXPECT_EQ(policy::clear_from, 0.5);
  EXPECT_EQ(policy::dry_from, 0.02);
  EXPECT_EQ(policy::harder_by, 1.2);
  EXPECT_EQ(policy::quenching_flow, 2.0);
  EXPECT_EQ(policy::telling_quench, 50.0);
}

}  // namespace
}  // namespace dullcast::simulation
