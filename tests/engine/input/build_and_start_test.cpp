#include <gtest/gtest.h>

#include "engine/input/reading.hpp"
#include "models/common/constants.hpp"

// A bit's steel, openings, lot and starting state.
namespace dullcast::input {
namespace {

using testing::errors_of;
using testing::Messages;
using testing::plain_text;
using testing::scenario_of;
using testing::with;
using testing::with_bit;

/// A bit without anything said of its build.
std::string with_bare_bit() {
  return with(plain_text(), "like: four_blade_7_7_8",
              "diameter: 200 mm, cutter: {size: 1613}, blades: {cutters_per_blade: [5, 4, 5, 4]}");
}

TEST(BitBuild, IsRead) {
  const scenario::Scenario scenario = scenario_of(
      with_bit("ports: {count: 3, diameter: 12 mm}, junk_slot_share: 0.4, blade: {height: 28 mm, thickness: "
               "20 mm}, gauge_pads: {length: 2 in, width: 18 mm}"));
  const scenario::BitBuild& build = scenario.bit.build;
  EXPECT_NEAR(build.port_area, 3.0 * pi * 6e-3 * 6e-3, 1e-15);
  EXPECT_NEAR(build.port_diameter, 12e-3, 1e-15);
  EXPECT_EQ(build.junk_slot_share, 0.4);
  EXPECT_NEAR(build.blade_height, 28e-3, 1e-15);
  EXPECT_NEAR(build.blade_thickness, 20e-3, 1e-15);
  EXPECT_NEAR(build.gauge_pad_length, 50.8e-3, 1e-15);
  EXPECT_NEAR(build.gauge_pad_width, 18e-3, 1e-15);
}

TEST(BitBuild, ScalesWithTheBitWhenNothingIsSaid) {
  const scenario::BitBuild build = scenario_of(with_bare_bit()).bit.build;
  EXPECT_EQ(build.port_area, 0.0);
  EXPECT_EQ(build.port_diameter, 0.0);
  EXPECT_EQ(build.junk_slot_share, 0.0);
  EXPECT_NEAR(build.blade_height, 30e-3, 1e-15);
  EXPECT_NEAR(build.blade_thickness, 22e-3, 1e-15);
  EXPECT_NEAR(build.gauge_pad_length, 50e-3, 1e-15);
  EXPECT_EQ(build.gauge_pad_width, build.blade_thickness);
}

TEST(BitBuild, ALibraryBitsBuildIsChangedKeyByKey) {
  const scenario::BitBuild build =
      scenario_of(plain_text(), {"bit.ports.count=2", "bit.blade.thickness=25 mm"}).bit.build;
  EXPECT_NEAR(build.port_area, 2.0 * pi * 5e-3 * 5e-3, 1e-15);
  EXPECT_NEAR(build.blade_thickness, 25e-3, 1e-15);
  EXPECT_NEAR(build.blade_height, 30e-3, 1e-15);
}

TEST(BitBuild, MistakesAreNamedWithTheirPlace) {
  EXPECT_EQ(
      errors_of(with_bit("ports: {count: 0, diameter: 10}")),
      (Messages{"well.yaml:2:46: bit.ports.count: \"0\" is no whole number from 1 to 100; write count: 1",
                "well.yaml:2:59: bit.ports.diameter: \"10\" has no unit, and a length is wanted; write "
                "13 mm or 0.5 in"}));
  EXPECT_EQ(
      errors_of(with_bit("ports: {count: 50, diameter: 25 mm}")),
      Messages{"well.yaml:2:60: bit.ports.diameter: makes ports of half the hole's area or more; a usual "
               "port is 8 to 12 mm"});
  EXPECT_EQ(errors_of(with(with_bare_bit(), "size: 1613}", "size: 1613}, ports: {}")),
            (Messages{"well.yaml:2:54: bit.ports.count: is missing; write count: 4",
                      "well.yaml:2:54: bit.ports.diameter: is missing; write diameter: 10 mm"}));
  EXPECT_EQ(errors_of(with_bit("junk_slot_share: 0.95")),
            Messages{"well.yaml:2:48: bit.junk_slot_share: \"0.95\" is out of range; it must be from 0 (the "
                     "models' number) to 0.9"});
  EXPECT_EQ(
      errors_of(with_bit("blade: {height: 101 mm, thickness: 0.2 m, width: 3 mm}")),
      (Messages{"well.yaml:2:47: bit.blade.height: is as much as the bit's radius of 100.013 mm or more; "
                "a usual blade is a third of it high",
                "well.yaml:2:66: bit.blade.thickness: is as much as the bit's radius of 100.013 mm or "
                "more; a usual blade is a quarter of it thick",
                "well.yaml:2:73: bit.blade.width: is not a key here; it belongs under bit.gauge_pads"}));
  EXPECT_EQ(errors_of(with_bit("gauge_pads: {width: 160 mm}")),
            Messages{"well.yaml:2:51: bit.gauge_pads.width: makes the pads of 4 blades cover the whole "
                     "circumference of 628.397 mm; leave room for the slots between them"});
}

TEST(Lot, IsSoundUnlessNamed) {
  EXPECT_EQ(scenario_of(plain_text()).bit.lot.name, "sound");
  EXPECT_EQ(scenario_of(plain_text()).bit.lot.braze_share.central, 1.0);
  const scenario::Scenario poor = scenario_of(plain_text(), {"bit.lot=poor"});
  EXPECT_EQ(poor.bit.lot.name, "poor");
  EXPECT_LT(poor.bit.lot.bond_share.central, 1.0);
  EXPECT_EQ(errors_of(with_bit("lot: pour")),
            Messages{"well.yaml:2:36: bit.lot: there is no lot \"pour\"; did you mean poor?"});
}

TEST(Lot, AScenarioAddsItsOwn) {
  const std::string full =
      with_bit("lot: ours") +
      "lots: {ours: {edge_share: 0.9, bond_share: 80 %, braze_share: 1, strength_spread: 0.2}}\n";
  const scenario::LotRecord lot = scenario_of(full).bit.lot;
  EXPECT_EQ(lot.name, "ours");
  EXPECT_EQ(lot.bond_share.central, 0.8);
  EXPECT_EQ(lot.bond_share.mark, "given");
  EXPECT_EQ(errors_of(with(full, "braze_share: 1, ", "")),
            Messages{"well.yaml:11:14: lots.ours.braze_share: is missing from a new lot; write braze_share: "
                     "0.5 or 50 %, or start from another with like: NAME"});
  EXPECT_EQ(errors_of(with(full, "edge_share: 0.9", "edge_share: 0")),
            Messages{"well.yaml:11:27: lots.ours.edge_share: \"0\" is out of range; it must be from 0.001 "
                     "to 3; 1 is sound"});
  const scenario::LotRecord like =
      scenario_of(with_bit("lot: ours") + "lots: {ours: {like: poor, edge_share: 0.7}}\n").bit.lot;
  EXPECT_EQ(like.edge_share.central, 0.7);
  EXPECT_EQ(like.bond_share.central, testing::reader().library().lots.at("poor").bond_share.central);
}

TEST(OwnRecords, MayLeaveOutTheirOptionalNumbers) {
  const std::string text =
      with(with_bit("grade: ours, body: bronze"), "rock: sandstone", "rock: tuff") +
      "rocks:\n"
      "  tuff: {unconfined_strength: 9 MPa, friction_angle: 30 deg, youngs_modulus: 2 GPa, poissons_ratio: "
      "0.2, cerchar_abrasivity: 1,\n"
      "    conductivity: 1 W/(m K), density: 1800 kg/m3, heat_capacity: 900 J/(kg K), "
      "contact_strength_ratio: "
      "1.5}\n"
      "grades: {ours: {wear_resistance: 1, table_conductivity: 500 W/(m K), table_density: 3500 kg/m3,\n"
      "    carbide_conductivity: 100 W/(m K), carbide_density: 14900 kg/m3, carbide_heat_capacity: 220 J/(kg "
      "K)}}\n"
      "bodies: {bronze: {conductivity: 60 W/(m K), density: 8800 kg/m3, heat_capacity: 380 J/(kg K), "
      "volume_share: 3}}\n";
  const scenario::Scenario scenario = scenario_of(text);
  const scenario::RockRecord& tuff = scenario.column.layers[1].rock;
  for (const auto* none : {&tuff.inclusion_share, &tuff.inclusion_size, &tuff.inclusion_strength,
                           &tuff.inclusion_abrasivity, &tuff.stickiness}) {
    EXPECT_EQ(none->high, 0.0);
    EXPECT_EQ(none->mark, "asm");
    EXPECT_FALSE(none->source.empty());
  }
  const Library& library = testing::reader().library();
  EXPECT_EQ(scenario.bit.kinds.front().grade.name, "ours");
  EXPECT_EQ(scenario.bit.kinds.front().grade.wear_resistance.mark, "given");
  EXPECT_EQ(scenario.bit.kinds.front().grade.edge_strength.central,
            library.grades.at("standard").edge_strength.central);
  EXPECT_EQ(scenario.bit.kinds.front().grade.bond_strength.low,
            library.grades.at("standard").bond_strength.low);
  EXPECT_EQ(scenario.bit.body.strength.central, library.bodies.at("steel").strength.central);
  EXPECT_EQ(scenario.bit.body.erosion_resistance.central, 1.0);
  // What is not optional still has to be there.
  EXPECT_EQ(errors_of(with(text, "volume_share: 3}", "strength: 500 MPa}")),
            Messages{"well.yaml:16:18: bodies.bronze.volume_share: is missing from a new bit body; write "
                     "volume_share: 0.5 or 50 %, or start from another with like: NAME"});
}

TEST(Inclusions, HaveTheUsualAbrasivityOfTheirStrengthUnlessTheirsIsStated) {
  const std::string stones =
      "thickness: 40 ft, inclusion_share: 10 %, inclusion_size: 20 mm, inclusion_strength: 150 MPa";
  const auto abrasivity = [&](const std::string& more) {
    return scenario_of(with(plain_text(), "thickness: 40 ft", stones + more))
        .column.layers[1]
        .rock.inclusion_abrasivity;
  };
  const scenario::Quantity usual = abrasivity("");
  EXPECT_NEAR(usual.central, 3.0, 1e-12);  // 150 MPa, 1 per 50 MPa
  EXPECT_NEAR(usual.low, 1.8, 1e-12);
  EXPECT_NEAR(usual.high, 4.2, 1e-12);
  EXPECT_EQ(usual.mark, "asm");
  EXPECT_EQ(abrasivity(", inclusion_abrasivity: 1.2").central, 1.2);

  // The library states its own.
  EXPECT_EQ(testing::reader().library().rocks.at("gravel").inclusion_abrasivity.central, 3.5);
}

TEST(Inclusions, NeedASizeAndAStrength) {
  const Messages wrong{
      "well.yaml:9:60: column.layers.1.inclusion_share: is above 0, but the stones have no size or no "
      "strength; write inclusion_size: 25 mm and inclusion_strength: 150 MPa"};
  EXPECT_EQ(errors_of(with(plain_text(), "thickness: 40 ft", "thickness: 40 ft, inclusion_share: 0.1")),
            wrong);
  EXPECT_EQ(errors_of(with(plain_text(), "thickness: 40 ft",
                           "thickness: 40 ft, inclusion_share: 10 %, inclusion_size: 20 mm")),
            wrong);
  const scenario::Scenario scenario = scenario_of(
      with(plain_text(), "thickness: 40 ft",
           "thickness: 40 ft, inclusion_share: 10 %, inclusion_size: 20 mm, inclusion_strength: 150 MPa"));
  EXPECT_EQ(scenario.column.layers[1].rock.inclusion_share.central, 0.1);
  EXPECT_NEAR(scenario.column.layers[1].rock.inclusion_size.central, 20e-3, 1e-15);
  EXPECT_NEAR(scenario.column.layers[1].rock.inclusion_strength.central, 150e6, 1e-3);
  EXPECT_EQ(
      errors_of(std::string(plain_text()) +
                "rocks: {sandstone: {inclusion_share: {central: 0, high: 0.2}}}\n"),
      Messages{"well.yaml:11:38: rocks.sandstone.inclusion_share: is above 0, but the stones have no size "
               "or no strength; write inclusion_size: 25 mm and inclusion_strength: 150 MPa"});
  EXPECT_EQ(
      errors_of(with(plain_text(), "thickness: 40 ft", "thickness: 40 ft, stickiness: 1.1")),
      Messages{"well.yaml:9:55: column.layers.1.stickiness: \"1.1\" is out of range; it must be from 0 to "
               "1; rocks of the library have 0 to 1"});
}

TEST(StartingState, IsReadCutterByCutter) {
  const scenario::BitRecord bit =
      scenario_of(with_bit("starting_chip_hazard: 0.3, starting_lost: [3, 18], "
                           "starting_table_gone: [1], starting_erosion: 2 mm, "
                           "starting_blade_wear: 1 mm, starting_pad_wear: 0.5 mm"))
          .bit;
  EXPECT_TRUE((bit.starting_chip_hazard == 0.3).all());
  ASSERT_EQ(bit.starting_lost.size(), 18);
  EXPECT_EQ(bit.starting_lost.sum(), 2);
  EXPECT_EQ(bit.starting_lost(2), 1);
  EXPECT_EQ(bit.starting_lost(17), 1);
  EXPECT_EQ(bit.starting_table_gone.sum(), 1);
  EXPECT_EQ(bit.starting_table_gone(0), 1);
  EXPECT_NEAR(bit.starting_erosion, 2e-3, 1e-15);
  EXPECT_NEAR(bit.starting_blade_wear, 1e-3, 1e-15);
  EXPECT_NEAR(bit.starting_pad_wear, 5e-4, 1e-15);
}

TEST(StartingState, IsZerosOfFullSizeOtherwise) {
  for (const char* keys : {"note: new", "continues: a.h5"}) {
    const scenario::BitRecord bit = scenario_of(with_bit(keys)).bit;
    EXPECT_EQ(bit.starting_chip_hazard.size(), 18) << keys;
    EXPECT_EQ(bit.starting_lost.size(), 18) << keys;
    EXPECT_EQ(bit.starting_table_gone.size(), 18) << keys;
    EXPECT_EQ(bit.starting_chip_hazard.abs().sum() + bit.starting_lost.sum() + bit.starting_table_gone.sum() +
                  bit.starting_erosion + bit.starting_blade_wear + bit.starting_pad_wear,
              0.0)
        << keys;
  }
}

TEST(StartingState, MistakesAreNamedWithTheirPlace) {
  const std::string count = "; count them from 1 to 18, from the axis outward";
  EXPECT_EQ(errors_of(with_bit("starting_lost: [0, 19, two, 3, 3]")),
            (Messages{"well.yaml:2:47: bit.starting_lost.0: \"0\" is no cutter of this bit" + count,
                      "well.yaml:2:50: bit.starting_lost.1: \"19\" is no cutter of this bit" + count,
                      "well.yaml:2:54: bit.starting_lost.2: \"two\" is no cutter of this bit" + count,
                      "well.yaml:2:62: bit.starting_lost.4: names cutter 3 twice; keep one of them"}));
  EXPECT_EQ(
      errors_of(with_bit("starting_table_gone: 3")),
      Messages{"well.yaml:2:52: bit.starting_table_gone: is \"3\"; write a list, one \"- \" to an item"});
  EXPECT_EQ(errors_of(with_bit("starting_lost: [1,2,3,4,5,6,7,8,9,10,11,12,13,14,15,16,17,18]")),
            Messages{"well.yaml:2:46: bit.starting_lost: leaves no cutter on the bit; name those that are "
                     "missing only"});
  EXPECT_EQ(errors_of(with_bit("starting_chip_hazard: -1")),
            Messages{"well.yaml:2:53: bit.starting_chip_hazard: \"-1\" is out of range; it must be from 0 to "
                     "1000"});
  EXPECT_EQ(errors_of(with_bit("starting_blade_wear: 30 mm")),
            Messages{"well.yaml:2:52: bit.starting_blade_wear: is all of the blade's 30 mm: past repair"});
  for (const std::string key : {"starting_damage: 0.1", "starting_chip_hazard: 0.1", "starting_erosion: 1 mm",
                                "starting_blade_wear: 1 mm", "starting_pad_wear: 1 mm"}) {
    const std::string name = key.substr(0, key.find(':'));
    EXPECT_EQ(errors_of(with_bit(key + ", continues: a.h5")),
              Messages{"well.yaml:2:" + std::to_string(33 + name.size()) + ": bit." + name +
                       ": is given beside continues:, which brings the wear along; keep one of them"});
  }
}

}  // namespace
}  // namespace dullcast::input
