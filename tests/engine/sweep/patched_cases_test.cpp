#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <random>

#include "engine/input/same_scenario.hpp"
#include "engine/input/text_file.hpp"
#include "engine/sweep/case_maker.hpp"
#include "engine/sweep/patched_base.hpp"
#include "engine/sweep/small_sweep.hpp"

// Cases made by setting numbers in a scenario read once are those that reading each case's text makes: every
// test makes them both ways.
namespace dullcast::sweep {
namespace {

using testing::changed;
using testing::expect_same_scenario;
using testing::small_field;
using testing::small_plan;
using testing::small_texts;

struct Made {
  scenario::Scenario scenario;
  Eigen::ArrayXd inputs;
  std::string failure;
};

Made make(const CaseMaker& maker, long number) {
  Made made;
  Case one = maker.make_case(number);
  try {
    maker.make_scenario(one, made.scenario);
  } catch (const std::exception& error) {
    made.failure = error.what();
  }
  made.inputs = one.inputs;
  return made;
}

void expect_same_case(const Made& one, const Made& other) {
  EXPECT_EQ(one.failure, other.failure);
  EXPECT_TRUE(testing::same_entries(one.inputs, other.inputs));
  if (one.failure.empty() && other.failure.empty()) expect_same_scenario(one.scenario, other.scenario);
}

/// Both ways to make the cases of one sweep.
struct BothWays {
  explicit BothWays(const SweepTexts& texts) : patching(texts, said), reading(texts, said) {
    reading.patch(false);
  }
  void compare(long number) {
    SCOPED_TRACE("case " + std::to_string(number));
    const Made made = make(patching, number);
    failed += made.failure.empty() ? 0 : 1;
    expect_same_case(made, make(reading, number));
  }
  void compare_all() {
    for (long number = 1; number <= patching.cases(); ++number) compare(number);
  }
  std::vector<input::Warning> said;
  CaseMaker patching, reading;
  int failed = 0;
};

/// Whether each of a sweep's inputs is patched, in their order, and whether the base for its first case may
/// be used.
std::pair<std::vector<bool>, bool> what_is_patched(const SweepTexts& texts) {
  std::vector<input::Warning> said;
  const CaseMaker maker(texts, said);
  const input::ScenarioReader reader(texts.library);
  const auto first_of = [&](auto wanted) {
    const auto found = std::find_if(maker.inputs().begin(), maker.inputs().end(), wanted);
    return static_cast<Eigen::Index>(found - maker.inputs().begin());
  };
  const auto role = [](storage::ColumnRole least) {
    return [least](const storage::SweepColumn& column) { return column.role >= least; };
  };
  const CaseReader cases(texts, maker.plan(), reader, first_of(role(storage::ColumnRole::setting)),
                         first_of(role(storage::ColumnRole::uncertain)));
  const Case one = maker.make_case(1);
  const std::vector<bool> patched = patched_columns(cases, one.inputs);
  return {patched, PatchedBase(cases, one.inputs, patched).usable()};
}

SweepTexts shipped(const std::string& name) {
  const std::string folder = std::string(DULLCAST_SOURCE_DIR) + "/scenarios/";
  SweepTexts texts = small_texts(input::read_text_file(folder + name));
  texts.plan_file = folder + name;
  texts.scenario_file = names_in_plan(texts.plan, texts.plan_file).scenario;
  texts.scenario = input::read_text_file(texts.scenario_file);
  return texts;
}

TEST(PatchedCases, EveryShippedPlansCasesAreThoseThatReadingMakes) {
  int plans = 0;
  for (const auto& file :
       std::filesystem::directory_iterator(std::string(DULLCAST_SOURCE_DIR) + "/scenarios")) {
    if (file.path().extension() != ".yaml" ||
        input::read_text_file(file.path().string()).find("\ndesign:") == std::string::npos)
      continue;
    SCOPED_TRACE(file.path().filename().string());
    const SweepTexts texts = shipped(file.path().filename().string());
    ++plans;
    const auto [patched, usable] = what_is_patched(texts);
    EXPECT_TRUE(usable);
    EXPECT_EQ(std::count(patched.begin(), patched.end(), false), 0) << "all of it is numbers";
    BothWays(texts).compare_all();
  }
  EXPECT_GE(plans, 2);
}

TEST(PatchedCases, WordsLayersLensesAndDrawsAllAtOnce) {
  const SweepTexts texts = small_texts();
  const auto [patched, usable] = what_is_patched(texts);
  EXPECT_TRUE(usable);
  EXPECT_TRUE(patched[0]) << "weight";
  EXPECT_FALSE(patched[1]) << "grade, a word";
  BothWays both(texts);
  both.compare_all();
  both.compare_all();  // once more, with bases for all settings
  EXPECT_EQ(both.failed, 0);
}

TEST(PatchedCases, EveryLibraryNumberDrawn) {
  const std::string plan =
      "scenario: field.yaml\nseed: 3\ndesign: {kind: latin_hypercube, points: 12, with_uncertain: yes}\n"
      "factors: [{name: grade, path: bit.grade, values: [standard, premium]}]\n"
      "draws: {library_numbers: yes}\n";
  const std::string field =
      changed(small_field(), "layers: [{rock: limestone, bottom: 1 m}, {rock: sandstone, bottom: 2 m}]",
              "layers: [{rock: limestone, bottom: 1 m}, {rock: sandstone, bottom: 1.5 m}, {rock: sandstone, "
              "bottom: 2 m, unconfined_strength: {low: 30 MPa, central: 40 MPa, high: 60 MPa}}]");
  const SweepTexts texts = small_texts(plan, field);
  EXPECT_TRUE(what_is_patched(texts).second);
  BothWays(texts).compare_all();
}

TEST(PatchedCases, ACaseAloneIsTheCaseAmongOthersInAnyOrder) {
  // Bit diameters and holes are read, weights and draws are patched.
  const std::string plan =
      "scenario: field.yaml\nseed: 9\ndesign: {kind: grid}\n"
      "factors:\n"
      "  - {name: holes, path: repeat.holes, values: [1, 2]}\n"
      "  - {name: bevel, path: bit.cutter.bevel_width, values: [0.3 mm, 0.4 mm, 0.5 mm]}\n"
      "  - {name: weight, path: plan.*.weight_on_bit, multiply: yes, values: [0.9, 1.1]}\n"
      "draws: {runs: 4, values: [{number: abrasion_coefficient}], chance: drawn, "
      "layers: {strength_spread: 0.2, source: invented}, "
      "lenses: [{rock: gravel, mean_spacing: 2 m, thickness: 5 cm, source: invented}]}\n";
  const SweepTexts texts = small_texts(plan);
  std::vector<input::Warning> said;
  const CaseMaker among(texts, said);
  std::vector<long> order;
  for (int round = 0; round < 3; ++round) {
    for (long number = 1; number <= among.cases(); ++number) order.push_back(number);
  }
  std::shuffle(order.begin(), order.end(), std::mt19937(5));
  std::vector<Made> last(static_cast<std::size_t>(among.cases()));
  for (const long number : order) last[static_cast<std::size_t>(number - 1)] = make(among, number);
  for (long number = 1; number <= among.cases(); number += 5) {
    SCOPED_TRACE(number);
    const CaseMaker alone(texts, said);
    expect_same_case(last[static_cast<std::size_t>(number - 1)], make(alone, number));
  }
  BothWays both(texts);
  for (const long number : order) both.compare(number);
}

TEST(PatchedCases, WhatMakesNoScenarioFailsWithTheReadersWords) {
  // Drawn far enough out to leave ranges, and to disagree with each other.
  const std::string plan =
      "scenario: field.yaml\nseed: 2\ndesign: {kind: grid}\n"
      "draws:\n  runs: 60\n  values:\n"
      "    - {path: plan.0.rotary_speed, kind: normal, mean: 60 rpm, deviation: 60 rpm, source: invented}\n"
      "    - {path: plan.1.feed_limit, kind: lognormal, median: 2 m/h, spread: 2, source: invented}\n"
      "    - {path: rework.least_progress, kind: lognormal, median: 0.3 m/h, spread: 2, source: invented}\n"
      "    - {path: string.pipe_diameter, kind: normal, mean: 85 mm, deviation: 10 mm, source: invented}\n"
      "    - {path: layers.1.friction_angle, kind: normal, mean: 40 deg, deviation: 20 deg, source: "
      "invented}\n"
      "    - {path: bit.starting_wear, kind: normal, mean: 1 mm, deviation: 1 mm, source: invented}\n";
  BothWays both(small_texts(plan));
  both.compare_all();
  EXPECT_GT(both.failed, 20);
  EXPECT_LT(both.failed, 58);
}

TEST(PatchedCases, ASweepWhoseFirstCaseFailsIsMadeAllTheSame) {
  const std::string plan =
      "scenario: field.yaml\ndesign: {kind: grid}\n"
      "factors: [{name: speed, path: plan.0.rotary_speed, values: [0 rpm, 60 rpm, 80 rpm, 90 rpm, -1 "
      "rpm]}]\n";
  BothWays both(small_texts(plan));
  both.compare_all();
  both.compare_all();
  EXPECT_EQ(both.failed, 4);
}

TEST(PatchedCases, ANameThatMovesFromLayerToLayerIsFoundByReading) {
  // Where the drawn strength of one layer meets the other's, for_each_number calls them otherwise.
  const std::string plan =
      "scenario: field.yaml\ndesign: {kind: grid}\n"
      "factors: [{name: strength, path: layers.1.unconfined_strength, values: [30 MPa, 50 MPa, 70 MPa, 90 "
      "MPa]}]\n"
      "draws: {runs: 2, values: [{number: \"rock sandstone (layer 2): unconfined_strength\", kind: uniform, "
      "from: 20 MPa, to: 40 MPa, source: invented}]}\n";
  const std::string field = changed(
      small_field(), "layers: [{rock: limestone, bottom: 1 m}, {rock: sandstone, bottom: 2 m}]",
      "layers: [{rock: sandstone, bottom: 1 m}, {rock: sandstone, bottom: 1.5 m, unconfined_strength: 50 "
      "MPa}, {rock: sandstone, bottom: 2 m, unconfined_strength: 70 MPa}]");
  const SweepTexts texts = small_texts(plan, field);
  EXPECT_FALSE(what_is_patched(texts).second);
  BothWays(texts).compare_all();
}

TEST(PatchedCases, ARockThatIsLikeAMovedOneIsNoticed) {
  // Nothing in the path rocks.sandstone says that another rock starts from it.
  const std::string plan =
      "scenario: field.yaml\ndesign: {kind: grid}\n"
      "factors: [{name: strength, path: rocks.sandstone.unconfined_strength, values: [30 MPa, 50 MPa, 70 "
      "MPa, 90 MPa]}]\n";
  const std::string alone = small_field();
  const std::string followed =
      changed(small_field(), "{rock: limestone, bottom: 1 m}", "{rock: own_stone, bottom: 1 m}") +
      "rocks: {sandstone: {unconfined_strength: 40 MPa}, own_stone: {like: sandstone}}\n";
  EXPECT_TRUE(what_is_patched(small_texts(plan, alone)).second);
  EXPECT_FALSE(what_is_patched(small_texts(plan, followed)).second);
  for (const std::string& field : {alone, followed}) BothWays(small_texts(plan, field)).compare_all();
}

TEST(PatchedCases, MoreSettingsThanAreRemembered) {
  const std::string plan =
      "scenario: field.yaml\nseed: 4\ndesign: {kind: latin_hypercube, points: 250}\n"
      "factors:\n"
      "  - {name: bottom, path: plan.0.to, from: 0.5 m, to: 1.5 m}\n"
      "  - {name: flow, path: plan.*.flow, multiply: yes, from: 0.8, to: 1.2}\n"
      "draws: {runs: 4, values: [{number: abrasion_coefficient}]}\n";
  BothWays both(small_texts(plan));
  for (int round = 0; round < 2; ++round) {
    for (long number = 1; number <= both.patching.cases(); ++number) {
      if (number % 7 == 0) {
        both.compare(number);
      } else {
        make(both.patching, number);
      }
    }
  }
  EXPECT_EQ(both.failed, 0);
}

}  // namespace
}  // namespace dullcast::sweep
