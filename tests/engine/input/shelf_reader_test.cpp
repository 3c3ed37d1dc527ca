#include "engine/input/shelf_reader.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <cmath>

#include "engine/input/reading.hpp"
#include "engine/input/shelf_texts.hpp"

// A shelf of inspected bits, as YAML and as a table: what is read, and the run that each record makes.
namespace dullcast::input {
namespace {

using testing::Messages;
using testing::shelf_errors;
using testing::shelf_of;

constexpr double pound = 4.4482216152605;

TEST(ShelfReader, YamlAndATableSayTheSame) {
  const auto from_yaml = shelf_of(
      "shared: {scenario: field_of_forty_wells.yaml, lot: mixed}\n"
      "shelf:\n"
      "  - bit: K-17\n"
      "    inspected: 2031-04-17\n"
      "    holes: 6\n"
      "    drilled: [shale 300 m, sandstone 120 m]\n"
      "    weight_on_bit: 3000 lbf\n"
      "    inner_grade: 1\n"
      "    outer_grade: at least 3\n"
      "    cutters: [0.1 mm, new, lost, at least 2 mm, chipped, not measured, flat 6 mm, heat-checked, "
      "table gone, chipped 0.5 mm, heat-checked 0.8 mm, 1 mm, 1 mm, 1 mm, 1 mm, 1 mm, 1 mm, 1 mm]\n"
      "    repairs: [two cutters brazed in]\n"
      "    note: look again\n",
      "shelf.yaml");
  const auto from_table = shelf_of(
      "\xef\xbb\xbf"
      "Bit;Inspected;Scenario;Lot;Holes;drilled (m);Weight on bit [lbf];inner_grade;outer grade;"
      "cutters (mm);repairs;note\r\n"
      "K-17;2031-04-17;field_of_forty_wells.yaml;mixed;6;shale 300|sandstone 120;3000;1;At least 3;"
      "\"0,1;New;Lost;at least 2;Chipped;;flat 6;heat checked;table gone;chipped 0,5;heat-checked 0,8;"
      "1;1;1;1;1;1;1\";two cutters brazed in;\"look\r\nagain\"\r\n",
      "shelf.csv");
  ASSERT_EQ(from_yaml.size(), 1u);
  ASSERT_EQ(from_table.size(), 1u);
  for (const scenario::ShelvedBit& one : {from_yaml[0], from_table[0]}) {
    const scenario::InspectedBit& found = one.found;
    EXPECT_EQ(found.bit, "K-17");
    EXPECT_EQ(found.inspected, "2031-04-17");
    EXPECT_EQ(found.lot, "mixed");
    EXPECT_TRUE(found.scenario_file.ends_with("scenarios/field_of_forty_wells.yaml"));
    EXPECT_EQ(found.holes, 6.0);
    ASSERT_EQ(found.drilled.size(), 2u);
    EXPECT_EQ(found.drilled[1].rock, "sandstone");
    EXPECT_NEAR(found.drilled[1].length, 120.0, 1e-9);
    EXPECT_NEAR(*found.weight_on_bit, 3000.0 * pound, 1e-6);
    EXPECT_FALSE(found.flow || found.rotary_speed || found.chipped);
    EXPECT_EQ(found.inner_grade->grade, 1.0);
    EXPECT_TRUE(found.outer_grade->at_least);
    ASSERT_EQ(found.cutters.size(), 18u);
    EXPECT_NEAR(*found.cutters[0].worn_height, 1e-4, 1e-12);
    EXPECT_TRUE(found.cutters[1].renewed);
    EXPECT_TRUE(found.cutters[2].lost);
    EXPECT_TRUE(found.cutters[3].at_least);
    EXPECT_NEAR(*found.cutters[3].worn_height, 2e-3, 1e-12);
    EXPECT_TRUE(found.cutters[4].chipped && !found.cutters[4].worn_height);
    EXPECT_FALSE(found.cutters[5].worn_height);
    EXPECT_NEAR(*found.cutters[6].worn_height, 8e-3 - std::sqrt(64e-6 - 9e-6), 1e-12);
    EXPECT_TRUE(found.cutters[7].heat_checked && !found.cutters[7].worn_height);
    EXPECT_TRUE(found.cutters[8].table_gone);
    EXPECT_NEAR(*found.cutters[9].worn_height, 0.5e-3, 1e-12);
    EXPECT_NEAR(*found.cutters[10].worn_height, 0.8e-3, 1e-12);
    EXPECT_EQ(found.repairs, Messages{"two cutters brazed in"});
    EXPECT_EQ(found.note, "look again");
  }
  EXPECT_EQ(from_yaml[0].found.location.line, 3);
  EXPECT_EQ(from_table[0].found.location.line, 2);
}

TEST(ShelfReader, ARecordMakesTheRunOfWhatTheBitDid) {
  const auto shelf = shelf_of(
      "shared: {scenario: field_of_forty_wells.yaml}\n"
      "shelf:\n"
      "  - {bit: A, holes: 4, drilled: shale 100 m; sandstone 60 m; clay 4 m, rotary_speed: 70 rpm,\n"
      "     flow: 50 gal/min, weight_on_bit: 2500 lbf, lot: poor, outer_grade: 1}\n"
      "  - {bit: B, outer_grade: 2}\n",
      "shelf.yaml");
  ASSERT_EQ(shelf.size(), 2u);
  const scenario::Scenario& run = shelf[0].run;
  ASSERT_EQ(run.column.layers.size(), 3u);
  EXPECT_EQ(run.column.layers[0].rock.name, "shale");
  EXPECT_EQ(run.column.layers[0].top, 0.0);
  EXPECT_NEAR(run.column.layers[0].bottom, 25.0, 1e-9);
  EXPECT_NEAR(run.column.layers[1].bottom, 40.0, 1e-9);
  EXPECT_NEAR(run.column.layers[2].bottom, 41.0, 1e-9);
  EXPECT_EQ(run.column.layers[1].rock.cerchar_abrasivity.central, 3.5) << "as the scenario has its sandstone";
  EXPECT_EQ(run.column.layers[0].rock.cerchar_abrasivity.central, 0.5) << "as the library has it";
  EXPECT_NEAR(run.column.water_level, 45 * 0.3048, 1e-9);
  EXPECT_EQ(run.plan.back().to, run.column.layers.back().bottom);
  EXPECT_LT(run.plan.back().from, run.plan.back().to);
  for (const scenario::OperatingInterval& interval : run.plan) {
    EXPECT_NEAR(interval.weight_on_bit.value_or(0.0), 2500.0 * pound, 1e-6);
    EXPECT_EQ(interval.pull_down, 0.0);
    EXPECT_NEAR(interval.rotary_speed, 70.0 / 60.0, 1e-12);
    EXPECT_NEAR(interval.flow, 50.0 * 3.785411784e-3 / 60.0, 1e-12);
  }
  EXPECT_EQ(run.bit.lot.name, "poor");
  EXPECT_EQ(run.repeat.holes, 4);
  EXPECT_EQ(run.repeat.stop_at, scenario::StopAt::last_hole);
  EXPECT_FALSE(run.random_events.drawn);
  EXPECT_EQ(run.stepping.output_every, 0.0);
  EXPECT_EQ(run.stepping.relative_tolerance, 1e-2);
  // Where nothing else is said, the scenario's own.
  EXPECT_EQ(shelf[1].run.repeat.holes, 40);
  EXPECT_EQ(shelf[1].run.column.layers.size(), 7u);
  EXPECT_EQ(shelf[1].run.plan.size(), 6u);
  EXPECT_FALSE(shelf[1].run.plan[0].weight_on_bit);
  EXPECT_EQ(shelf[1].run.bit.lot.name, "sound");
}

TEST(ShelfReader, ADeeperHoleDrawsThePlanOutAndLateUpsetsFallAway) {
  std::vector<Warning> warnings;
  const auto shelf = read_shelf_text(
      "shelf:\n"
      "  - {bit: A, scenario: pump_lost.yaml, drilled: shale 500 m, outer_grade: 1}\n"
      "  - {bit: B, scenario: pump_lost.yaml, drilled: shale 5 m, outer_grade: 1}\n",
      testing::scenario_folder() + "/shelf.yaml", testing::reader(), warnings);
  EXPECT_NEAR(shelf[0].run.plan.back().to, 500.0, 1e-9);
  EXPECT_EQ(shelf[0].run.upsets.size(), 1u);
  EXPECT_EQ(shelf[1].run.upsets.size(), 0u);
  ASSERT_EQ(warnings.size(), 1u);
  EXPECT_NE(warnings[0].message().find("yaml:3:5: shelf.1: 1 upsets of the scenario lie below"),
            std::string::npos)
      << warnings[0].message();
}

TEST(ShelfReader, AColumnACutterAndAColumnARock) {
  const auto shelf = shelf_of(
      "bit,scenario,holes,drilled sandstone (ft),Drilled hard sandstone (m),cutter 9 (mm),cutter 18 (in),,\n"
      "K-1,pump_lost.yaml,2,100,3,0.4,1/32 in,,\n"
      "K-2,pump_lost.yaml,2,,,,,,\n",
      "shelf.csv");
  ASSERT_EQ(shelf.size(), 2u);
  const scenario::InspectedBit& found = shelf[0].found;
  ASSERT_EQ(found.drilled.size(), 2u);
  EXPECT_EQ(found.drilled[1].rock, "hard_sandstone");
  EXPECT_NEAR(found.drilled[0].length, 30.48, 1e-9);
  ASSERT_EQ(found.cutters.size(), 18u);
  EXPECT_FALSE(found.cutters[0].worn_height);
  EXPECT_NEAR(*found.cutters[8].worn_height, 0.4e-3, 1e-12);
  EXPECT_NEAR(*found.cutters[17].worn_height, 25.4e-3 / 32.0, 1e-12);
  EXPECT_TRUE(shelf[1].found.cutters.empty()) << "nothing in any of its cutters' cells: not looked at";
  EXPECT_TRUE(shelf[1].found.drilled.empty());
}

TEST(ShelfReader, AllMistakesOfATableAreToldAtOnceWithTheirPlaces) {
  const Messages errors = shelf_errors(
      "bit,inspected,scenario,lot,holes,drilled,flow,inner_grade,chipped,cutter 3,wieght_on_bit\n"
      "K-1,17.4.2031,pump_lost.yaml,por,0,sandston 12 m,60,9,20,lots,\n"
      ",2031-02-29,pump_lost.yaml,,1,12 m,60 gal/min,,,19 mm,3 lbf\n"
      "K-3,,pumplost.yaml,,,,,,,,\n",
      "shelf.csv");
  const std::vector<std::pair<std::string, std::string>> expected{
      {":1:76: wieght_on_bit: is no heading here; did you mean weight_on_bit?", ""},
      {":2:5: inspected: \"17.4.2031\" is no day; write year, month and day, such as 2031-04-17", ""},
      {":2:30: lot: ", "did you mean poor?"},
      {":2:34: holes: \"0\" is no whole number from 1 to 1000000", ""},
      {":2:36: drilled.0: ", "did you mean sandstone?"},
      {":2:50: flow: \"60\" has no unit", "60 gal/min"},
      {":2:53: inner_grade: \"9\" is no dull grade", ""},
      {":2:55: chipped: \"20\" is no whole number from 0 to 18", ""},
      {":2:58: cutter_3: \"lots\" says nothing of a cutter", "heat-checked"},
      {":3:1: bit: is missing", ""},
      {":3:2: inspected: \"2031-02-29\" is no day", ""},
      {":3:31: drilled.0: \"12 m\" is no ground drilled; write a rock and its length", ""},
      {":3:49: cutter_3: \"19 mm\" is more than the whole cutter, which is 16 mm across", ""},
      {":4:6: scenario: cannot be used: ", "pumplost.yaml: cannot be read"}};
  ASSERT_EQ(errors.size(), expected.size()) << ::testing::PrintToString(errors);
  for (std::size_t i = 0; i < errors.size(); ++i) {
    EXPECT_NE(errors[i].find("shelf.csv" + expected[i].first), std::string::npos) << errors[i];
    EXPECT_NE(errors[i].find(expected[i].second), std::string::npos) << errors[i];
  }
}

TEST(ShelfReader, MistakesOfYamlNameTheirKeysAndWhatIsSharedIsToldOnce) {
  const Messages errors = shelf_errors(
      "shared: {scenario: pump_lost.yaml, lot: por}\n"
      "shelf:\n"
      "  - {bit: A, cutters: [0.4 mm, flat 17 mm]}\n"
      "  - {bit: B, outer_grad: 3}\n"
      "  - {bit: C, drilled: shale 12 m, holes: 3000, chipped: 1}\n"
      "  - {bit: D, inspected: 2031-04-17, lost: 1}\n"
      "  - {bit: D, inspected: 2031-04-18, lost: 1}\n"
      "  - {bit: D, inspected: 2031-04-17, lost: 1}\n"
      "  - {bit: A, lost: 1}\n",
      "shelf.yaml");
  ASSERT_EQ(errors.size(), 5u) << ::testing::PrintToString(errors);
  EXPECT_NE(errors[0].find("shelf.yaml:1:41: shelf.0.lot: "), std::string::npos) << errors[0];
  EXPECT_NE(errors[1].find("shelf.yaml:3:23: shelf.0.cutters: says something of 2, but the bit of"),
            std::string::npos)
      << errors[1];
  EXPECT_NE(
      errors[2].find("shelf.yaml:4:14: shelf.1.outer_grad: is not a key here; did you mean outer_grade?"),
      std::string::npos)
      << errors[2];
  EXPECT_NE(errors[3].find("shelf.yaml:8:11: shelf.5.bit: \"D\" stands on line 6 already with the same day"),
            std::string::npos)
      << errors[3];
  EXPECT_NE(
      errors[4].find("shelf.yaml:9:11: shelf.6.bit: \"A\" stands on line 3 already; tell the two apart"),
      std::string::npos)
      << errors[4];
}

TEST(ShelfReader, GroundTooThinForItsHolesAFlatPastTheTableAndCountsBelowTheMarksAreRefused) {
  const std::string rest(
      ", 1 mm, 1 mm, 1 mm, 1 mm, 1 mm, 1 mm, 1 mm, 1 mm, 1 mm, 1 mm, 1 mm, 1 mm, 1 mm, 1 mm, 1 mm, 1 mm");
  const Messages errors = shelf_errors(
      "shared: {scenario: pump_lost.yaml}\n"
      "shelf:\n"
      "  - {bit: C, drilled: shale 12 m, holes: 3000, chipped: 1}\n"
      "  - {bit: D, chipped: 0, cutters: [chipped 1 mm, flat 17 mm" +
          rest +
          "]}\n"
          "  - {bit: E, drilled: shale 20000 m, lost: 0}\n",
      "shelf.yaml");
  ASSERT_EQ(errors.size(), 4u) << ::testing::PrintToString(errors);
  EXPECT_NE(errors[0].find("leaves less than 5 mm of shale to each of 3000 holes"), std::string::npos)
      << errors[0];
  EXPECT_NE(errors[1].find("counts 0, but cutters marks 1"), std::string::npos) << errors[1];
  EXPECT_NE(errors[2].find("\"flat 17 mm\" is longer than the table itself, which is 16 mm across"),
            std::string::npos)
      << errors[2];
  EXPECT_NE(errors[3].find("makes holes of"), std::string::npos) << errors[3];
}

TEST(ShelfReader, NumbersWithADecimalCommaAreReadAndThoseThatMayBeThousandsAreNot) {
  const auto shelf = shelf_of(
      "bit;scenario;weight_on_bit (kN);flow;gauge_loss;outer_grade\n"
      "A;pump_lost.yaml;13,5;227,5 l/min;0,125 in;1\n",
      "shelf.csv");
  EXPECT_NEAR(*shelf[0].found.weight_on_bit, 13500.0, 1e-9);
  EXPECT_NEAR(*shelf[0].found.flow, 0.2275 / 60.0, 1e-12);
  EXPECT_NEAR(*shelf[0].found.gauge_loss, 0.125 * 25.4e-3, 1e-12);
  for (const char* weight : {"6,750 lbf", "6.750 lbf", "12.345,6 lbf"})
    EXPECT_EQ(shelf_errors(
                  std::string("bit;scenario;weight_on_bit;outer_grade\nA;pump_lost.yaml;") + weight + ";1\n",
                  "shelf.csv")
                  .size(),
              1u)
        << weight;
  // With commas between cells a comma in a number is refused as in scenarios.
  EXPECT_EQ(shelf_errors("bit,scenario,flow,outer_grade\nA,pump_lost.yaml,\"60,5 gal/min\",1\n", "shelf.csv")
                .size(),
            1u);
}

TEST(ShelfReader, AScenarioWhoseBitGoesOnFromAResultMakesNoRecord) {
  const Messages errors =
      shelf_errors("shelf:\n  - {bit: A, scenario: next_field.yaml, outer_grade: 3}\n", "shelf.yaml");
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_NE(errors[0].find("shelf.0.scenario: cannot be used: "), std::string::npos) << errors[0];
  EXPECT_NE(errors[0].find("the bit goes on from a result"), std::string::npos) << errors[0];
}

TEST(ShelfReader, TwoHundredRecordsOfOneScenarioReadItOnce) {
  std::string text = "bit,scenario,holes,drilled,outer_grade\n";
  for (int i = 0; i < 200; ++i)
    text += "K-" + std::to_string(i) + ",field_of_forty_wells.yaml,6,shale 300 m; sandstone 120 m,2\n";
  const auto start = std::chrono::steady_clock::now();
  EXPECT_EQ(shelf_of(text, "shelf.csv").size(), 200u);
  const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
  RecordProperty("milliseconds", static_cast<int>(1000.0 * taken.count()));
  EXPECT_LT(taken.count(), 2.0);
}

}  // namespace
}  // namespace dullcast::input
