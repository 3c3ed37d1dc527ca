// Sweeps whose scenario goes on from an earlier result: they carry the bit's start themselves.

#include <gtest/gtest.h>

#include "engine/input/scenario_writer.hpp"
#include "engine/sweep/small_sweep.hpp"

namespace dullcast::sweep {
namespace {

using testing::changed;
using testing::small_field;
using testing::small_manifest;
using testing::small_plan;
using testing::small_texts;

std::string used_field() {
  return changed(small_field(), "grade: standard",
                 "grade: standard, continues: gone.h5, rebuilt: {new_cutters: [2]}");
}

/// The base scenario's bit as an earlier result might have left it.
scenario::BitRecord used_bit() {
  std::vector<input::Warning> said;
  const input::ScenarioReader reader(testing::library_texts());
  scenario::BitRecord bit = reader.read_text(used_field(), "field.yaml", {}, said).bit;
  const Eigen::Index n = bit.layout.count();
  bit.starting_wear = Eigen::ArrayXd::LinSpaced(n, 1e-3 / 3.0, 1e-3 / 0.7);
  bit.starting_wear(1) = 0.0;
  bit.starting_damage(0) = 0.1 / 3.0;
  bit.starting_lost(2) = bit.starting_chipped(3) = 1;
  bit.starting_pad_wear = 1e-3 / 7.0;
  return bit;
}

SweepTexts used_texts(const std::string& plan = small_plan()) {
  SweepTexts texts = small_texts(plan, used_field());
  texts.start = input::start_as_sets(used_bit());
  return texts;
}

scenario::Scenario case_of(const SweepTexts& texts, long number, bool patch = true) {
  std::vector<input::Warning> said;
  CaseMaker maker(texts, said);
  maker.patch(patch);
  Case one = maker.make_case(number);
  return maker.make_scenario(one);
}

TEST(StartedSweep, EveryCaseStartsAsTheResultLeftTheBit) {
  const scenario::BitRecord bit = used_bit();
  for (const long number : {1L, 8L}) {
    const scenario::Scenario one = case_of(used_texts(), number);
    EXPECT_TRUE((one.bit.starting_wear == bit.starting_wear).all());
    EXPECT_TRUE((one.bit.starting_damage == bit.starting_damage).all());
    EXPECT_TRUE((one.bit.starting_lost == bit.starting_lost).all());
    EXPECT_TRUE((one.bit.starting_chipped == bit.starting_chipped).all());
    EXPECT_EQ(one.bit.starting_pad_wear, bit.starting_pad_wear);
    EXPECT_TRUE(one.bit.continues.empty());
    EXPECT_EQ(one.text.find("gone.h5"), std::string::npos) << "it can be run without the result";
  }
}

TEST(StartedSweep, AScenarioWhoseResultWasNotReadIsRefused) {
  std::vector<input::Warning> said;
  try {
    const CaseMaker maker(small_texts(small_plan(), used_field()), said);
    FAIL() << "a bit without its start";
  } catch (const input::ScenarioErrors& errors) {
    EXPECT_NE(std::string(errors.what()).find("goes on from an earlier result"), std::string::npos);
  }
}

TEST(StartedSweep, FactorsMoveTheWearItStartsWith) {
  const std::string plan = changed(changed(small_plan(), "path: plan.*.weight_on_bit, multiply: yes",
                                           "path: bit.starting_wear.*, multiply: yes"),
                                   "  - {name: grade, path: bit.grade, values: [standard, premium]}\n", "");
  const SweepTexts texts = used_texts(plan);
  const scenario::Scenario less = case_of(texts, 1), more = case_of(texts, 4);
  const scenario::BitRecord bit = used_bit();
  EXPECT_TRUE(((less.bit.starting_wear - 0.8 * bit.starting_wear).abs() < 1e-15).all());
  EXPECT_TRUE(((more.bit.starting_wear - 1.2 * bit.starting_wear).abs() < 1e-15).all());
  EXPECT_EQ(less.bit.starting_lost.sum(), 1);
}

TEST(StartedSweep, CasesMadeBySettingNumbersAreThoseThatAreRead) {
  const std::string plan = changed(small_plan(), "name: grade, path: bit.grade, values: [standard, premium]",
                                   "name: pads, path: bit.starting_pad_wear, values: [0 mm, 0.3 mm]");
  const SweepTexts texts = used_texts(plan);
  for (const long number : {1L, 5L, 12L})
    EXPECT_EQ(case_of(texts, number).text, case_of(texts, number, false).text) << number;
  EXPECT_NE(case_of(texts, 1).bit.starting_pad_wear, case_of(texts, 4).bit.starting_pad_wear);
}

// What the plan fixes of the keys that say where the bit goes on from has been read with the result.
TEST(StartedSweep, WhatAPlanFixesOfTheResultGivesWayToTheStart) {
  const std::string plan =
      changed(small_plan(), "seed: 7\n", "seed: 7\nfixed: {bit.continues: other.h5, repeat.holes: 2}\n");
  EXPECT_EQ(names_in_plan(plan, "plan.yaml").fixed,
            (std::vector<std::string>{"bit.continues=\"other.h5\"", "repeat.holes=\"2\""}));
  const scenario::Scenario one = case_of(used_texts(plan), 1);
  EXPECT_TRUE(one.bit.continues.empty());
  EXPECT_EQ(one.repeat.holes, 2);
}

TEST(StartedSweep, TheBeginningCarriesTheStartAndTellsWhenItIsAnother) {
  SweepManifest then = small_manifest();
  EXPECT_EQ(manifest_text(then).find("\nstart:"), std::string::npos) << "other sweeps begin as before";
  then.texts = used_texts();
  const SweepManifest again = read_manifest(manifest_text(then), "began.yaml");
  EXPECT_EQ(again.texts.start, then.texts.start);
  EXPECT_TRUE(differences(then, again).empty());
  EXPECT_EQ(case_of(again.texts, 7).text, case_of(then.texts, 7).text);
  SweepManifest now = then;
  scenario::BitRecord other = used_bit();
  other.starting_wear(0) *= 1.001;
  now.texts.start = input::start_as_sets(other);
  ASSERT_EQ(differences(then, now).size(), 1u);
  EXPECT_EQ(differences(then, now)[0].find("how the bit starts, by an earlier result, differs"), 0u)
      << differences(then, now)[0];
  EXPECT_NE(fingerprint_of(then), fingerprint_of(now));
}

}  // namespace
}  // namespace dullcast::sweep
