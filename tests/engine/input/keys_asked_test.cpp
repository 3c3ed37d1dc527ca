#include "engine/input/keys_asked.hpp"

#include <gtest/gtest.h>

#include "engine/input/map_reader.hpp"
#include "engine/input/reading.hpp"

namespace dullcast::input {
namespace {

/// What a reader of "well.yaml" asks for while it reads `text`.
std::map<std::string, std::vector<KeyAsked>> asked_of(const std::string& text) {
  ScenarioReader reader(testing::library_folder());
  KeysAsked keys("well.yaml");
  reader.tell_keys(&keys);
  std::vector<Warning> warnings;
  try {
    reader.read_text(text, "well.yaml", {}, warnings);
  } catch (const ScenarioErrors&) {
    // What is missing is asked for all the same.
  }
  return keys.all();
}

TEST(KeysAsked, AreThoseOfTheTextAndThoseThatItLacks) {
  const auto asked = asked_of(testing::plain_text());
  ASSERT_TRUE(asked.contains("plan.*.rotary_speed"));
  const std::vector<KeyAsked>& speed = asked.at("plan.*.rotary_speed");
  ASSERT_FALSE(speed.empty());
  EXPECT_EQ(speed[0].kind, AskedFor::number);
  EXPECT_EQ(speed[0].wanted, &base::dimension::rotary_speed);
  EXPECT_TRUE(asked.contains("plan.*.feed_limit"));
  EXPECT_TRUE(asked.contains("rework.gauge_loss"));
  EXPECT_EQ(asked.at("repeat.holes").front().kind, AskedFor::whole_number);
  EXPECT_EQ(asked.at("column.layers.*.density").front().kind, AskedFor::uncertain_number);
  EXPECT_FALSE(asked.contains("plan.*.rotary_sped"));
}

TEST(KeysAsked, OfOneListStandOnce) {
  const auto one = asked_of(testing::plain_text());
  const auto two = asked_of(testing::with(testing::plain_text(), "  - {weight_on_bit",
                                          "  - {to: 30 ft, weight_on_bit: 6000 lbf, rotary_speed: 85 rpm, "
                                          "flow: 60 gal/min}\n  - {weight_on_bit"));
  EXPECT_EQ(two.at("plan.*.flow").size(), one.at("plan.*.flow").size());
  EXPECT_FALSE(two.contains("plan.0.flow"));
}

TEST(KeysAsked, LeaveOutWhatOtherFilesAreAskedFor) {
  // The library's own bit, which this one is like, stands in another file.
  const auto asked = asked_of(testing::plain_text());
  EXPECT_TRUE(asked.contains("bit.blades"));
  EXPECT_FALSE(asked.contains("bit.blades.nose_share"));
}

TEST(KeysAsked, ChangeNothingThatIsRead) {
  ScenarioReader reader(testing::library_folder());
  KeysAsked keys("well.yaml");
  reader.tell_keys(&keys);
  std::vector<Warning> warnings;
  EXPECT_EQ(reader.read_text(testing::plain_text(), "well.yaml", {}, warnings).text,
            testing::scenario_of(testing::plain_text()).text);
}

}  // namespace
}  // namespace dullcast::input
