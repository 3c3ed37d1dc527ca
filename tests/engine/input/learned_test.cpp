#include <gtest/gtest.h>

#include "engine/input/learned_writer.hpp"
#include "engine/input/reading.hpp"

namespace dullcast::input {
namespace {

using testing::errors_of;
using testing::plain_text;

scenario::Learned some_learned() {
  scenario::Learned learned;
  learned.bits = 40;
  learned.shelf = "our bits.csv";
  learned.made = "2031-04-17";
  learned.coefficient_factor = 1.25;
  learned.numbers = {{"abrasion_coefficient", {1.1e-17, 1.25e-17, 1.5e-17, "fit", "40 inspected bits"}},
                     {"rock sandstone: cerchar_abrasivity", {2.0, 2.75, 3.1, "fit", "40 inspected bits"}},
                     {"lot sound: edge_share", {0.8, 0.9, 1.0, "fit", "40 inspected bits"}},
                     {"rock granite: cerchar_abrasivity", {4.0, 4.5, 5.0, "fit", "40 inspected bits"}}};
  learned.together.names = {"abrasion_coefficient", "rock sandstone: cerchar_abrasivity",
                            "rock granite: cerchar_abrasivity"};
  learned.together.correlation = Eigen::Matrix3d::Identity();
  learned.together.correlation(1, 0) = learned.together.correlation(0, 1) = -0.75;
  return learned;
}

scenario::Scenario read(const std::string& text, const std::vector<std::string>& sets = {}) {
  std::vector<Warning> warnings;
  return testing::reader().read_text(text, "well.yaml", sets, warnings);
}

void expect_learned(const scenario::Scenario& s) {
  ASSERT_TRUE(s.learned.has_value());
  EXPECT_EQ(s.learned->bits, 40);
  EXPECT_EQ(s.learned->shelf, "our bits.csv");
  EXPECT_EQ(s.learned->coefficient_factor, 1.25);
  EXPECT_EQ(s.numbers.abrasion_coefficient.central, 1.25e-17);
  EXPECT_EQ(s.numbers.abrasion_coefficient.mark, "fit");
  EXPECT_EQ(s.column.layers[1].rock.cerchar_abrasivity.high, 3.1);
  EXPECT_EQ(s.column.layers[0].rock.cerchar_abrasivity.mark,
            testing::reader().library().rocks.at("shale").cerchar_abrasivity.mark);
  const Eigen::MatrixXd correlation = scenario::correlation_of(
      s.learned->together, {"rock sandstone: cerchar_abrasivity", "flat_friction", "abrasion_coefficient"});
  EXPECT_EQ(correlation(0, 2), -0.75);
  EXPECT_EQ(correlation(2, 0), -0.75);
  EXPECT_EQ(correlation(0, 1), 0.0);
  EXPECT_EQ(correlation(1, 1), 1.0);
}

/// As a scenario keeps it: under the key, two blanks in.
std::string under_key(const std::string& text) {
  std::string indented = "learned:\n  ";
  for (const char c : text) indented += c == '\n' ? std::string("\n  ") : std::string(1, c);
  return indented + "\n";
}

TEST(Learned, WhatIsWrittenTakesTheLibrarysPlaceWhenRead) {
  const std::string text = learned_text(some_learned(), "a remark\nof two lines");
  EXPECT_TRUE(text.starts_with("# a remark\n# of two lines\n"));
  expect_learned(read(plain_text() + under_key(text)));
  // As a change of the scenario, which is how a sweep keeps it.
  expect_learned(read(plain_text(), {"learned=" + text}));
}

TEST(Learned, TheResolvedTextKeepsIt) {
  const scenario::Scenario first = read(plain_text() + under_key(learned_text(some_learned(), "")));
  expect_learned(first);
  const scenario::Scenario again = read(first.text);
  expect_learned(again);
  EXPECT_EQ(again.text, first.text);
}

TEST(Learned, TheScenariosOwnNumbersHaveTheLastWord) {
  const scenario::Scenario s = read(plain_text() + under_key(learned_text(some_learned(), "")) +
                                    "models: {abrasion_coefficient: 3e-17 m2/N}\n");
  EXPECT_EQ(s.numbers.abrasion_coefficient.central, 3e-17);
  EXPECT_EQ(s.numbers.abrasion_coefficient.mark, "given");
}

/// A lot that only scenarios make: it is there for those that do, and no trouble to others.
TEST(Learned, NumbersOfAScenariosOwnRecordsWaitForIt) {
  scenario::Learned learned = some_learned();
  learned.numbers.push_back({"lot autumn: edge_share", {0.55, 0.65, 0.75, "fit", "40 inspected bits"}});
  const std::string text = under_key(learned_text(learned, ""));
  expect_learned(read(plain_text() + text));
  const std::string lots =
      "lots: {autumn: {like: sound, edge_share: {low: 0.6, central: 0.9, high: 1.2, mark: asm, source: "
      "new}}}\n";
  const std::vector<std::string> of_that_lot{"bit.lot=autumn"};
  const scenario::Scenario s = read(plain_text() + text + lots, of_that_lot);
  EXPECT_EQ(s.bit.lot.edge_share.central, 0.65);
  EXPECT_EQ(s.bit.lot.edge_share.mark, "fit");
  EXPECT_EQ(read(s.text).bit.lot.edge_share.central, 0.65);
  // What the scenario is certain of stays.
  const scenario::Scenario certain =
      read(plain_text() + text + "lots: {autumn: {like: sound, edge_share: 0.9}}\n", of_that_lot);
  EXPECT_EQ(certain.bit.lot.edge_share.central, 0.9);
}

TEST(Learned, MistakesAreToldInTheirPlace) {
  const auto said = [](const std::string& learned, const std::string& words) {
    std::string all;
    for (const std::string& error : errors_of(plain_text() + learned)) all += error + "\n";
    EXPECT_NE(all.find(words), std::string::npos) << all;
  };
  said("learned: {}\n", "learned.inspected_bits: is missing");
  said("learned: {inspected_bits: 0}\n", "learned.inspected_bits");
  said("learned: {inspected_bits: 2, modells: {}}\n", "did you mean models");
  said("learned: {inspected_bits: 2, models: {abrasion_coefficient: 3 kg}}\n",
       "learned.models.abrasion_coefficient");
  said("learned: not_there.yaml\n", "not_there.yaml");
  said("learned: {inspected_bits: 2, together: {numbers: [abrasion], correlation: [[1]]}}\n",
       "\"abrasion\" is no number of the library");
  said(
      "learned: {inspected_bits: 2, together: {numbers: [flat_friction, abrasion], correlation: [[1], [0, "
      "1]]}}\n",
      "\"abrasion\" is no number of the library");
  const std::string two =
      "learned: {inspected_bits: 2, together: {numbers: [abrasion_coefficient, flat_friction], ";
  said(two + "correlation: [[1]]}}\n", "has 1 rows for 2 numbers");
  said(two + "correlation: [[1], [0.5]]}}\n", "is no list of 2 values");
  said(two + "correlation: [[1], [1.5, 1]]}}\n", "from -1 to 1");
  said(two + "correlation: [[1], [0.5, 0.9]]}}\n", "does not end with 1");
  said(
      "learned: {inspected_bits: 2, together: {numbers: [abrasion_coefficient, flat_friction, edge_radius], "
      "correlation: [[1], [0.9, 1], [0.9, -0.9, 1]]}}\n",
      "is no correlation");
  said("learned: {inspected_bits: 2}\ncalibrate_from: {scenario: well.yaml, worn_height: [0.1 mm]}\n",
       "does not go with learned");
}

}  // namespace
}  // namespace dullcast::input
