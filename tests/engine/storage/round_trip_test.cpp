#include <gtest/gtest.h>

#include <chrono>
#include <cmath>
#include <functional>
#include <limits>
#include <thread>

#include "engine/base/file_error.hpp"
#include "engine/base/plain_text.hpp"
#include "engine/base/whole_file.hpp"
#include "engine/storage/made_up_run.hpp"
#include "engine/storage/same_values.hpp"
#include "engine/storage/stored_run.hpp"
#include "engine/storage/write_result.hpp"

namespace dullcast::storage {
namespace {

using same_values::same;

StoredRun there_and_back(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome) {
  const made_up::Folder folder;
  write_result(folder / "run.h5", scenario, outcome);
  EXPECT_EQ(folder.names(), std::vector<std::string>{"run.h5"});
  return read_result(folder / "run.h5");
}

TEST(RoundTrip, AwkwardValuesComeBackBitForBit) {
  for (const int cutters : {1, 3, 18}) {
    simulation::RunOutcome outcome = made_up::awkward_outcome(cutters);
    const StoredRun stored = there_and_back(made_up::scenario(cutters), outcome);
    // Texts come back as they may be shown.
    ASSERT_FALSE(base::is_plain(outcome.passages[1].rock));
    outcome.passages[1].rock = base::plain(outcome.passages[1].rock);
    EXPECT_TRUE(same(stored.outcome, outcome)) << cutters << " cutters";
  }
}

TEST(RoundTrip, ALongHistoryInManyChunksComesBackBitForBit) {
  const simulation::RunOutcome outcome = made_up::plain_outcome(18, 5000);
  EXPECT_TRUE(same(there_and_back(made_up::scenario(18), outcome).outcome, outcome));
}

TEST(RoundTrip, ARunThatRecordedNothingComesBack) {
  simulation::RunOutcome outcome = made_up::plain_outcome(2, 0);
  outcome.passages.clear();
  outcome.holes.clear();
  outcome.events.clear();
  outcome.rules.clear();
  outcome.rework_due.reset();
  EXPECT_TRUE(same(there_and_back(made_up::scenario(2), outcome).outcome, outcome));
}

TEST(RoundTrip, WhatAForecastRestsOnComesBack) {
  const made_up::Folder folder;
  ForecastNotes notes;
  notes.calibrated = 1;
  notes.learned_from = 40.0;
  notes.coefficient_factor = 0.37;
  notes.inspection_share = 0.125;
  notes.draws_failed = 2;
  notes.draws_without_rework = 5;
  notes.first_failed_draw = "a sentence";
  notes.shares = {{"abrasion_coefficient", 0.5}, {"rock shale: density", 0.25}};
  LayerSurvival layer;
  layer.layer = 1;
  layer.depth = 12.5;
  layer.weight = 3e4;
  layer.rotary_speed = 1.5;
  layer.end = "table_lost";
  layer.time = 61.0;
  layer.cutter = 2;
  layer.standstill = 44.0;
  layer.dry = 50.0;
  layer.steady_temperature = 400.0;
  layer.hottest = 900.0;
  layer.after_10 = 500.0;
  layer.after_30 = 600.0;
  layer.after_60 = 890.0;
  layer.after_120 = std::numeric_limits<double>::quiet_NaN();
  notes.survival = {layer, LayerSurvival{}};
  write_result(folder / "run.h5", made_up::scenario(3), made_up::plain_outcome(3, 2), {}, notes);
  const StoredRun stored = read_result(folder / "run.h5");
  ASSERT_TRUE(stored.notes);
  const ForecastNotes& back = *stored.notes;
  EXPECT_EQ(back.calibrated, 1);
  EXPECT_EQ(back.learned_from, 40.0);
  EXPECT_EQ(back.coefficient_factor, 0.37);
  EXPECT_FALSE(back.cutting_wear_share);
  EXPECT_EQ(back.inspection_share, 0.125);
  EXPECT_EQ(back.draws_failed, 2);
  EXPECT_EQ(back.draws_without_rework, 5);
  EXPECT_EQ(back.first_failed_draw, "a sentence");
  ASSERT_EQ(back.shares.size(), 2u);
  EXPECT_EQ(back.shares[1].name, "rock shale: density");
  EXPECT_EQ(back.shares[1].share, 0.25);
  ASSERT_EQ(back.survival.size(), 2u);
  const LayerSurvival& one = back.survival[0];
  EXPECT_EQ(one.layer, 1);
  EXPECT_EQ(one.depth, 12.5);
  EXPECT_EQ(one.weight, 3e4);
  EXPECT_EQ(one.rotary_speed, 1.5);
  EXPECT_EQ(one.end, "table_lost");
  EXPECT_EQ(one.time, 61.0);
  EXPECT_EQ(one.cutter, 2);
  EXPECT_EQ(one.standstill, 44.0);
  EXPECT_FALSE(one.film);
  EXPECT_EQ(one.dry, 50.0);
  EXPECT_EQ(one.steady_temperature, 400.0);
  EXPECT_EQ(one.hottest, 900.0);
  EXPECT_EQ(one.after_10, 500.0);
  EXPECT_EQ(one.after_30, 600.0);
  EXPECT_EQ(one.after_60, 890.0);
  EXPECT_TRUE(std::isnan(one.after_120));
  EXPECT_EQ(back.survival[1].cutter, -1);
}

TEST(RoundTrip, TheForecastsBandComesBack) {
  const made_up::Folder folder;
  const std::vector<simulation::LifeEnd> band = {
      {"low", 1, 7, 917.5, 1.6e5, 2.5e5, 610.25, "rework_due", 7, 40},
      {"central", 1, 32, 3918.0, 5.5e5, 9.0e5, 583.0, "rework_due", 32, 40},
      {"high", 0, 39, 4803.6, 7.3e5, 1.1e6, 426.0, "last_hole", 40, 40}};
  write_result(folder / "run.h5", made_up::scenario(3), made_up::plain_outcome(3, 2), band);
  const StoredRun stored = read_result(folder / "run.h5");
  ASSERT_EQ(stored.band.size(), 3u);
  for (std::size_t k = 0; k < band.size(); ++k) {
    EXPECT_EQ(stored.band[k].end, band[k].end);
    EXPECT_EQ(stored.band[k].due, band[k].due);
    EXPECT_EQ(stored.band[k].hole, band[k].hole);
    EXPECT_EQ(stored.band[k].footage, band[k].footage);
    EXPECT_EQ(stored.band[k].rotating_time, band[k].rotating_time);
    EXPECT_EQ(stored.band[k].elapsed_time, band[k].elapsed_time);
    EXPECT_EQ(stored.band[k].hottest_flat, band[k].hottest_flat);
    EXPECT_EQ(stored.band[k].draws, band[k].draws);
    EXPECT_EQ(stored.band[k].ended_by, band[k].ended_by);
    EXPECT_EQ(stored.band[k].holes_finished, band[k].holes_finished);
  }
}

TEST(RoundTrip, ManyLongTextsComeBack) {
  simulation::RunOutcome outcome = made_up::plain_outcome(2, 2);
  for (int k = 0; k < 5000; ++k) {
    simulation::Event event = outcome.events.back();
    event.text = "Event " + std::to_string(k) + std::string(static_cast<std::size_t>(k % 97), '.');
    outcome.events.push_back(event);
  }
  EXPECT_TRUE(same(there_and_back(made_up::scenario(2), outcome).outcome, outcome));
}

TEST(RoundTrip, EveryKindOfEventAndEndComesBack) {
  simulation::RunOutcome outcome = made_up::plain_outcome(2, 1);
  for (const simulation::EndedBy end :
       {simulation::EndedBy::last_hole, simulation::EndedBy::rework_due, simulation::EndedBy::beyond_repair,
        simulation::EndedBy::stopped_drilling, simulation::EndedBy::blade_sheared}) {
    outcome.ended_by = end;
    outcome.events.clear();
    // The last of the kinds is quench; event_name and the reader must know every one before it.
    for (int number = 0; number <= static_cast<int>(simulation::EventKind::quench); ++number) {
      const auto kind = static_cast<simulation::EventKind>(number);
      outcome.events.push_back({kind, 1.0, 0, 2.0, 3.0, -1, "."});
    }
    EXPECT_TRUE(same(there_and_back(made_up::scenario(2), outcome).outcome, outcome));
  }
}

TEST(RoundTrip, EveryKindOfCutterComesBack) {
  scenario::Scenario scenario = made_up::scenario(5);
  scenario.bit.layout.shapes.push_back({0.0065, 0.008, 0.0025, 0.0003, 0.0005, 0.7, 40e-6, 0.0001});
  scenario.bit.layout.shapes.push_back({0.0095, 0.013, 0.002, 0.0, 0.0, 0.0, 30e-6, 0.0});
  scenario.bit.layout.kind << 0, 0, 2, 1, 1;
  scenario.bit.kinds.push_back({"shoulder", {}});
  scenario.bit.kinds.push_back({"nose", {}});
  scenario.bit.kinds[1].grade.name = "leached";
  scenario.bit.kinds[2].grade.name = "standard";
  const StoredRun stored = there_and_back(scenario, made_up::plain_outcome(5, 1));
  EXPECT_TRUE(same(stored.layout, scenario.bit.layout));
  EXPECT_EQ(stored.kind_names, (std::vector<std::string>{"usual", "shoulder", "nose"}));
  EXPECT_EQ(stored.kind_grades, (std::vector<std::string>{"standard", "leached", "standard"}));
}

TEST(RoundTrip, TheBitAndTheScenarioComeBack) {
  scenario::Scenario scenario = made_up::scenario(18);
  scenario.title = "Brunnen Nr. 3, größer";
  scenario.text = "title: long\n# " + std::string(200'000, '=') + "\nrock: \"µ = 0.4\"\n";
  const StoredRun stored = there_and_back(scenario, made_up::plain_outcome(18, 3));
  EXPECT_EQ(stored.title, scenario.title);
  EXPECT_EQ(stored.scenario_text, scenario.text);
  EXPECT_EQ(stored.bit_name, scenario.bit.name);
  EXPECT_EQ(stored.kind_names, std::vector<std::string>{"usual"});
  EXPECT_EQ(stored.kind_grades, std::vector<std::string>{"standard"});
  EXPECT_EQ(stored.body, "steel");
  EXPECT_TRUE(same(stored.layout, scenario.bit.layout));
  EXPECT_TRUE(same(stored.rules, scenario.rules));
  EXPECT_TRUE(same(stored.starting_wear, scenario.bit.starting_wear));
  EXPECT_TRUE(same(stored.starting_damage, scenario.bit.starting_damage));
  EXPECT_TRUE(same(stored.build, scenario.bit.build));
  EXPECT_TRUE(same(stored.starting_chip_hazard, scenario.bit.starting_chip_hazard));
  EXPECT_TRUE(same(stored.starting_lost, scenario.bit.starting_lost));
  EXPECT_TRUE(same(stored.starting_table_gone, scenario.bit.starting_table_gone));
  EXPECT_TRUE(same(stored.starting_chipped, scenario.bit.starting_chipped));
  EXPECT_EQ(stored.starting_erosion, scenario.bit.starting_erosion);
  EXPECT_EQ(stored.starting_blade_wear, scenario.bit.starting_blade_wear);
  EXPECT_EQ(stored.starting_pad_wear, scenario.bit.starting_pad_wear);
  EXPECT_EQ(stored.format_major, 1);
  EXPECT_EQ(stored.format_minor, 5);
  EXPECT_FALSE(stored.program_version.empty());
  EXPECT_FALSE(stored.program_commit.empty());
}

TEST(RoundTrip, TheSameRunGivesTheSameBytesUnderAnyNameAtAnyTime) {
  const made_up::Folder folder;
  const scenario::Scenario scenario = made_up::scenario(18);
  const simulation::RunOutcome outcome = made_up::plain_outcome(18, 3000);
  write_result(folder / "first.h5", scenario, outcome);
  std::this_thread::sleep_for(std::chrono::milliseconds(1100));  // HDF5's object times count whole seconds
  const std::vector<char> noise(12'345'678, 'n');                // a heap of another shape
  write_result(folder / "a second one.h5", scenario, outcome);
  write_result(folder / "first, written by who read it.h5", scenario,
               read_result(folder / "first.h5").outcome);
  const auto first = base::read_whole_file(folder / "first.h5");
  EXPECT_TRUE(first == base::read_whole_file(folder / "a second one.h5"));
  EXPECT_TRUE(first == base::read_whole_file(folder / "first, written by who read it.h5"));

  simulation::RunOutcome changed = outcome;
  changed.history.rows[1234].worn_height[5] += 1e-18;
  write_result(folder / "changed.h5", scenario, changed);
  EXPECT_FALSE(first == base::read_whole_file(folder / "changed.h5"));
}

TEST(RoundTrip, ArraysOfTheWrongLengthAreRefusedByName) {
  const made_up::Folder folder;
  const auto said = [&](const std::function<void(simulation::RunOutcome&)>& shorten) {
    simulation::RunOutcome outcome = made_up::plain_outcome(4, 10);
    shorten(outcome);
    try {
      write_result(folder / "run.h5", made_up::scenario(4), outcome);
    } catch (const base::FileError& error) {
      EXPECT_TRUE(folder.names().empty());
      return error.reason();
    }
    return std::string("written");
  };
  EXPECT_EQ(said([](simulation::RunOutcome& o) { o.history.rows[7].flat_area.resize(3); }),
            "nothing written: flat_area has 3 entries, but the bit has 4 cutters");
  EXPECT_EQ(said([](simulation::RunOutcome& o) { o.history.rows[2].film.resize(0); }),
            "nothing written: film has 0 entries, but the bit has 4 cutters");
  EXPECT_EQ(said([](simulation::RunOutcome& o) { o.end.lost.resize(5); }),
            "nothing written: lost has 5 entries, but the bit has 4 cutters");
}

}  // namespace
}  // namespace dullcast::storage
