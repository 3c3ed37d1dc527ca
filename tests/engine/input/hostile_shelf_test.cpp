#include <gtest/gtest.h>

#include <chrono>

#include "engine/base/plain_text.hpp"
#include "engine/input/shelf_texts.hpp"

// Shelves that were written to do harm, or by no hand at all: they end in few plain lines, and soon.
namespace dullcast::input {
namespace {

using testing::Messages;
using testing::shelf_errors;

constexpr const char* head = "bit,scenario,outer_grade\n";

std::string times(const std::string& text, int count) {
  std::string result;
  for (int i = 0; i < count; ++i) result += text;
  return result;
}

/// Whether a table is refused, within a second, by one error that says `words`.
void refuses(const std::string& text, const std::string& words) {
  const auto start = std::chrono::steady_clock::now();
  const Messages errors = shelf_errors(text, "shelf.csv");
  const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
  ASSERT_EQ(errors.size(), 1u) << words;
  EXPECT_NE(errors[0].find(words), std::string::npos) << errors[0].substr(0, 400);
  EXPECT_LT(errors[0].size(), 1000u);
  EXPECT_TRUE(base::is_plain(errors[0]));
  EXPECT_LT(taken.count(), 1.0) << words;
}

TEST(HostileShelf, MoreOfAnythingThanAShelfNeedsIsRefusedAtTheFirstThatIsTooMuch) {
  // As long as nobody writes. NOLINTNEXTLINE(bugprone-string-constructor):
  refuses(std::string(head) + "A,pump_lost.yaml," + std::string(10'000'000, 'x') + "\n",
          "shelf.csv:2:18: is longer than 20000 bytes");
  refuses(std::string(head) + "A,pump_lost.yaml,\"" + times("x\n", 2'000'000), "is longer than 20000 bytes");
  refuses("bit" + std::string(1'000'000, ',') + "\n",
          "shelf.csv:1:1004: makes more than 1000 cells in one row");
  refuses(std::string(head) + times("A,b,c\n", 100'000), "shelf.csv:2002:1: makes more than 2000 rows");
}

TEST(HostileShelf, WhatIsNoTextIsRefused) {
  refuses(std::string(head) + std::string("A\0,b\n", 5), "is no text file: it holds zero bytes");
  refuses(std::string(head) + "A,\xff\xfe\n", "shelf.csv:2:3: is not UTF-8 text here");
}

TEST(HostileShelf, QuotesThatAreNeverClosedNameWhereTheyOpen) {
  refuses(std::string(head) + "\"A,pump_lost.yaml,3\nB,pump_lost.yaml,3\n", "shelf.csv:2:1: opens a quote");
}

TEST(HostileShelf, HeadingsTwiceOrBesideOneAnotherAreRefused) {
  refuses("bit,scenario,Outer grade,outer-grade\nA,pump_lost.yaml,3,4\n",
          "shelf.csv:1:26: outer-grade: is a second column of outer_grade");
  refuses("bit,scenario,outer_grade,cutter 3,cutter_3 (mm)\nA,pump_lost.yaml,3,4 mm,4\n",
          "is a second column of cutter_3");
  refuses("bit,scenario,cutters,cutter 3\nA,pump_lost.yaml,,4 mm\n", "stands beside a column of all cutters");
  refuses("bit,scenario,drilled clay,drilled,lost\nA,pump_lost.yaml,4 m,,1\n",
          "stands beside columns of single");
  refuses("bit,scenario,holes (m),lost\nA,pump_lost.yaml,3,1\n", "states a unit, but holes has none");
  refuses("bit,scenario,cutter 4000000000,lost\nA,pump_lost.yaml,3 mm,1\n", "is no heading here");
  refuses("bit,scenario," + std::string(15'000, 'q') + ",lost\nA,pump_lost.yaml,3 mm,1\n",
          "is no heading here");
}

TEST(HostileShelf, AThousandWrongHeadingsAreToldSoonAndTheFirstFiftyOnly) {
  std::string text = "bit,scenario,lost";
  for (int i = 0; i < 990; ++i)
    text += "," + std::string(2000, static_cast<char>('a' + i % 26)) + std::to_string(i);
  const auto start = std::chrono::steady_clock::now();
  EXPECT_EQ(shelf_errors(text + "\nA,pump_lost.yaml,1\n", "shelf.csv").size(), most_told + 1);
  const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
  EXPECT_LT(taken.count(), 2.0);
}

TEST(HostileShelf, NoMessageHoldsAControlCharacter) {
  // NOLINTNEXTLINE(misc-misleading-bidirectional): that is what must not get through.
  const std::string odd = "\x1b]0;x\x07\xe2\x80\xae";
  for (const char* key :
       {"bit", "inspected", "scenario", "lot", "holes", "drilled", "flow", "inner_grade", "dull_grading",
        "cutters", "chipped", "pockets", "photos", "note", "breakage_noted"}) {
    const bool names = std::string(key) == "bit" || std::string(key) == "scenario";
    const std::string text = names ? std::string(key) + ",lost\n" + odd + ",1\n"
                                   : "bit,scenario," + std::string(key) + "\nA,pump_lost.yaml," + odd + "\n";
    const Messages errors = shelf_errors(text, "shelf.csv");
    EXPECT_FALSE(errors.empty()) << key;
    for (const std::string& message : errors) EXPECT_TRUE(base::is_plain(message)) << key;
  }
  const Messages heading = shelf_errors("bit,scenario," + odd + "\nA,pump_lost.yaml,1\n", "shelf.csv");
  ASSERT_EQ(heading.size(), 1u);
  EXPECT_TRUE(base::is_plain(heading[0]));
}

TEST(HostileShelf, YamlOfHarmIsRefusedAsScenariosAre) {
  for (const std::string& text :
       {std::string("shelf: 3\n"), std::string("[a]\n"), std::string("x\n"), std::string("shelf: [3]\n"),
        std::string("shared: 3\nshelf: [{bit: A, scenario: pump_lost.yaml}]\n"),
        std::string("a: &a [x]\nshelf: [*a, *a]\n"), "shelf: " + std::string(100'000, '['),
        "shelf: [" + times("3,", 3000) + "3]\n"}) {
    const Messages errors = shelf_errors(text, "shelf.yaml");
    EXPECT_FALSE(errors.empty()) << text.substr(0, 60);
    EXPECT_LE(errors.size(), 6u) << text.substr(0, 60);
  }
}

}  // namespace
}  // namespace dullcast::input
