#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>

#include "engine/base/plain_text.hpp"
#include "engine/input/reading.hpp"
#include "engine/input/text_file.hpp"

// Text that was written to do harm, or by no hand at all: it ends in errors with their places, told in few
// plain lines, and soon.
namespace dullcast::input {
namespace {

using testing::errors_of;
using testing::Messages;
using testing::plain_text;
using testing::with;

std::string repeated(const std::string& text, int times) {
  std::string result;
  for (int i = 0; i < times; ++i) result += text;
  return result;
}

TEST(HostileText, BytesThatAreNotUtf8AreRefusedWhereTheyStand) {
  EXPECT_EQ(errors_of(with(plain_text(), "fluid: water", "fluid: w\xc3\xa9\xff")),
            Messages{"well.yaml:3:10: is not UTF-8 text here; save the file as UTF-8"});
  // In a comment too, and before anything else is said.
  EXPECT_EQ(errors_of(std::string(plain_text()) + "# \xc0\xaf\nplan: [\n"),
            Messages{"well.yaml:11:3: is not UTF-8 text here; save the file as UTF-8"});
  EXPECT_EQ(errors_of(plain_text(), {"title=\xff"}).size(), 1u);
}

TEST(HostileText, ControlCharactersInWordsAreRefusedWithTheirKey) {
  for (const char* odd : {"\\e[31m", "\\n", "\\t", "\\u202e", "\\x7f", "\\u2028"}) {
    const std::string word = std::string("\"a") + odd + "b\"";
    EXPECT_EQ(errors_of(plain_text(), {"title=" + word}).size(), 1u) << odd;
    EXPECT_EQ(errors_of(plain_text(), {"bit.name=" + word}).size(), 1u) << odd;
    EXPECT_EQ(errors_of(plain_text(), {"costs.currency=" + word}).size(), 1u) << odd;
    EXPECT_EQ(errors_of(plain_text(), {"column.layers.0.rock=" + word}).size(), 1u) << odd;
    const auto keys = errors_of(std::string(plain_text()) + "rocks: {" + word + ": {like: shale}}\n");
    ASSERT_EQ(keys.size(), 1u) << odd;
    EXPECT_NE(keys[0].find("well.yaml:11:9: rocks: has \"a"), std::string::npos) << keys[0];
  }
  EXPECT_EQ(errors_of(plain_text(), {"title=\"a\\eb\""}),
            Messages{"--set title: title: \"a\\x1bb\" holds a control character, a tab or an end of line; "
                     "write plain words on one "
                     "line"});
}

TEST(HostileText, NoMessageHoldsAControlCharacter) {
  const std::string odd = "\"\\e]0;x\\a\\u202e\\n\"";
  for (const char* key : {"plan.0.flow", "plan.0.weight_on_bit", "fluid", "bit.like", "repeat.stop_at",
                          "repeat.holes", "chance", "bit.starting_lost", "rework.lost_cutters",
                          "bit.cutter.chamfer", "bit.cutter.size", "costs.bit"}) {
    const auto errors = errors_of(plain_text(), {std::string(key) + "=" + odd});
    EXPECT_FALSE(errors.empty()) << key;
    for (const std::string& message : errors) EXPECT_TRUE(base::is_plain(message)) << key;
  }
  EXPECT_TRUE(base::is_plain(ScenarioErrors({"a\x1b[2Jb"}).messages().front()));
  EXPECT_TRUE(base::is_plain(Warning{{"odd\nname.yaml", 1, 1}, "k\x1b", "t\t"}.message()));
}

TEST(HostileText, ANoteMayGoOverLinesAndIsKeptOnOne) {
  const auto scenario = testing::scenario_of(
      std::string(plain_text()) +
      "rocks:\n  shale:\n    hard_on_cutters: yes\n    note: |\n      one line\n      and another\n");
  EXPECT_EQ(scenario.column.layers[0].rock.note, "one line and another");
}

TEST(HostileText, OfManyErrorsTheFirstFiftyAreToldAndTheRestCounted) {
  const std::string text = std::string(plain_text()) + [] {
    std::string keys;
    for (int i = 0; i < 9000; ++i) keys += "key_" + std::to_string(i) + ": 3\n";
    return keys;
  }();
  std::vector<Warning> warnings;
  try {
    testing::reader().read_text(text, "well.yaml", {}, warnings);
    FAIL() << "was read";
  } catch (const ScenarioErrors& errors) {
    ASSERT_EQ(errors.messages().size(), most_told + 1);
    EXPECT_EQ(errors.count(), 9000u);
    EXPECT_TRUE(errors.messages().front().starts_with("well.yaml:11:1: key_0: "));
    EXPECT_EQ(errors.messages().back(), "and 8950 more errors, not shown");
  }
}

TEST(HostileText, OfManyWarningsTheFirstFiftyAreToldAndTheRestCounted) {
  Problems problems;
  for (int i = 0; i < 60; ++i) problems.warn({"well.yaml", i, 1}, "plan", "is odd");
  ASSERT_EQ(problems.warnings().size(), most_told + 1);
  EXPECT_EQ(problems.warnings().back().message(), "well.yaml: has 10 more remarks, not shown");
}

TEST(HostileText, ALongTextIsQuotedByItsEnds) {
  const auto errors = errors_of(with(plain_text(), "6000 lbf", std::string(1'000'000, 'x')));
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_LT(errors[0].size(), 500u);
  EXPECT_EQ(shortened("\u00e9\u00e9\u00e9\u00e9\u00e9\u00e9\u00e9\u00e9\u00e9\u00e9\u00e9\u00e9\u00e9", 20)
                .find('\xa9'),
            1u);
  EXPECT_TRUE(base::is_plain(shortened(repeated("\u00b5", 1000), 121)));
}

/// Whether a text is refused, with one error that says `words`.
void refused(const std::string& text, const std::string& words) {
  const auto errors = errors_of(text);
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_NE(errors[0].find(words), std::string::npos) << errors[0].substr(0, 300);
}

TEST(HostileText, MoreThanAnyScenarioNeedsIsRefusedAtTheFirstThatIsTooMany) {
  std::string keys;
  for (int i = 0; i < 300'000; ++i) keys += "k" + std::to_string(i) + ": 3\n";
  refused(keys, "well.yaml:10001:1: k10000: makes more than 10000 keys on one level");
  refused("a: [" + repeated("b,", 200'000) + "c]\n", "a.20000: makes a list of more than 20000 items");
  refused("a:\n" + repeated("  - [" + repeated("b,", 15'000) + "c]\n", 15), "makes more than 200000");
  refused(repeated("[", 100'000), "lies more than 50 levels deep");
  refused(repeated("{a: ", 100'000), "lies more than 50 levels deep");
  refused(repeated("- ", 100'000), "lies more than 50 levels deep");
  refused(repeated("? ", 100'000), "lies more than 50 levels deep");
  refused(std::string(5000, 'k') + ": 3\n" + plain_text(), "");
}

TEST(HostileText, AliasesAreRefusedAndNeverFollowed) {
  std::string text = "a: &a [x, x, x, x, x, x, x, x]\n";
  for (char name = 'b'; name < 'z'; ++name) {
    const std::string before = std::string("*") + static_cast<char>(name - 1);
    text += std::string(1, name) + ": &" + name + " [" + before + repeated(", " + before, 7) + "]\n";
  }
  EXPECT_EQ(errors_of(text).size(), most_told + 1);
}

TEST(HostileText, NamesOfTheLibraryAreNeverPaths) {
  for (const char* name :
       {"../library/bits.yaml", "/etc/passwd", "..", "bits.yaml", "four_blade_7_7_8/../x"}) {
    for (const char* key :
         {"bit.like", "bit.grade", "bit.lot", "bit.body", "fluid", "column.layers.0.rock"}) {
      const auto errors = errors_of(plain_text(), {std::string(key) + "=" + name});
      ASSERT_EQ(errors.size(), 1u) << key;
      EXPECT_NE(errors[0].find("there is no "), std::string::npos) << errors[0];
    }
  }
}

TEST(HostileText, WhatOnceDidHarmNoLongerDoes) {
  // Each of these crashed, hung, was misread or passed the check and could not be run. None takes a second.
  std::size_t tried = 0;
  for (const auto& file :
       std::filesystem::directory_iterator(std::string(DULLCAST_SOURCE_DIR) + "/tests/engine/input/corpus")) {
    ++tried;
    const auto begun = std::chrono::steady_clock::now();
    const Messages errors = errors_of(read_text_file(file.path().string()));
    EXPECT_FALSE(errors.empty()) << file.path() << " was read";
    EXPECT_LE(errors.size(), most_told + 1) << file.path();
    for (const std::string& message : errors) {
      EXPECT_TRUE(message.starts_with("well.yaml:") || message.starts_with("and ")) << message;
      EXPECT_TRUE(base::is_plain(message)) << file.path();
    }
    EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(20)) << file.path();
  }
  EXPECT_GE(tried, 10u);
}

}  // namespace
}  // namespace dullcast::input
