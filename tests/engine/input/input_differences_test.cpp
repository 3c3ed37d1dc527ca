#include "engine/input/input_differences.hpp"

#include <gtest/gtest.h>

namespace dullcast::input {
namespace {

/// "key: a | b" a line, for comparing at a glance.
std::string told(const std::vector<std::string>& texts) {
  std::string lines;
  for (const InputDifference& one : input_differences(texts)) {
    lines += one.key + ":";
    for (const std::string& value : one.values) lines += " " + (value.empty() ? "-" : value) + " |";
    lines += "\n";
  }
  return lines;
}

TEST(InputDifferences, TheSameTextTwiceDiffersInNothing) {
  const std::string text = "title: a\nplan:\n  - {flow: \"0.004 m3/s\"}\n";
  EXPECT_EQ(told({text, text, text}), "");
}

TEST(InputDifferences, ValuesHaveTheirKeysAndAMissingOneIsSeen) {
  EXPECT_EQ(told({"plan:\n  - {flow: \"1 m3/s\", weight: \"2 N\"}\n", "plan:\n  - {flow: \"3 m3/s\"}\n"}),
            "plan.0.flow: 1 m3/s | 3 m3/s |\nplan.0.weight: 2 N | - |\n");
}

TEST(InputDifferences, TitlesAndRemarksAreNoValues) {
  EXPECT_EQ(told({"title: a\nfluid: {note: x, source: y, mark: mem}\n",
                  "title: b\nfluid: {note: z, source: w, mark: hb}\n"}),
            "");
}

TEST(InputDifferences, AnUncertainNumberIsOneValue) {
  EXPECT_EQ(told({"models: {friction: {low: 0.3, central: 0.4, high: 0.5, mark: mem, source: a}}\n",
                  "models: {friction: {low: 0.4, central: 0.4, high: 0.4, mark: mem, source: a}}\n"}),
            "models.friction: 0.4 (0.3 to 0.5) | 0.4 |\n");
}

TEST(InputDifferences, RoundingIsNoDifferenceAndALastDigitIs) {
  EXPECT_EQ(told({"costs: {fuel_energy: \"35999999999.99999 J/m3\"}\n",
                  "costs: {fuel_energy: \"3.6e+10 J/m3\"}\n"}),
            "");
  EXPECT_EQ(told({"a: \"1 m\"\n", "a: \"1 s\"\n"}), "a: 1 m | 1 s |\n");
  EXPECT_EQ(told({"a: \"1 m\"\n", "a: \"1.000001 m\"\n"}), "a: 1 m | 1.000001 m |\n");
}

TEST(InputDifferences, ALongListIsOneDifference) {
  const std::string three = "cutters:\n  - {r: 1, z: 1}\n  - {r: 2, z: 2}\n  - {r: 3, z: 3}\n";
  const std::string two = "cutters:\n  - {r: 1, z: 1}\n";
  const std::string others = "cutters:\n  - {r: 4, z: 4}\n  - {r: 5, z: 5}\n  - {r: 6, z: 6}\n";
  EXPECT_EQ(told({three, others}), "cutters: 3 items | 3 items, others |\n");
  EXPECT_EQ(told({three, two}),
            "cutters.1.r: 2 | - |\ncutters.1.z: 2 | - |\ncutters.2.r: 3 | - |\ncutters.2.z: 3 | - |\n");
  EXPECT_EQ(told({others, two}), "cutters: 3 items | 1 item |\n");
}

TEST(InputDifferences, ARockOfOneOnlyIsOneDifference) {
  EXPECT_EQ(told({"rocks: {shale: {a: 1, b: 2, c: 3, d: 4, e: 5}}\n", "rocks: {}\n"}),
            "rocks.shale: 5 items | - |\n");
}

}  // namespace
}  // namespace dullcast::input
