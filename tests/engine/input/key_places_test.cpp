#include "engine/input/key_places.hpp"

#include <gtest/gtest.h>

#include "engine/input/reading.hpp"

namespace dullcast::input {
namespace {

using testing::errors_of;
using testing::Messages;
using testing::plain_text;

TEST(KeyPlaces, AKeyThatIsPartOfOthersNamesThem) {
  EXPECT_EQ(errors_of(plain_text(), {"bit.blades.back_rake=15 deg"}),
            Messages{"--set bit.blades.back_rake: bit.blades.back_rake: is not a key here; did you mean "
                     "inner_back_rake or "
                     "outer_back_rake?"});
}

TEST(KeyPlaces, AKeyOfAnotherMapSaysWhichOne) {
  EXPECT_EQ(
      errors_of(plain_text(), {"rotary_speed=80 rpm"}),
      Messages{"--set rotary_speed: rotary_speed: is not a key here; it belongs under an item of plan"});
  EXPECT_EQ(
      errors_of(plain_text(), {"bit.connection_time=80 s"}),
      Messages{"--set bit.connection_time: bit.connection_time: is not a key here; it belongs under repeat"});
  EXPECT_EQ(
      errors_of(plain_text(), {"plan.0.flat_friction=0.3"}),
      Messages{
          "--set plan.0.flat_friction: plan.0.flat_friction: is not a key here; it belongs under models"});
}

TEST(KeyPlaces, EveryMapHasTheKeysThatAreSaidToBeThere) {
  // Each key is put where it is said to belong, with a value that nothing reads: what is said is of the
  // value, if anything, and never that the key is none there.
  const std::vector<std::pair<std::string, std::string>> maps{
      {"the scenario itself", ""},
      {"an item of plan", "plan.0."},
      {"an item of upsets", "upsets.0."},
      {"an item of column.layers", "column.layers.0."}};
  const std::string text = std::string(plain_text()) + "upsets: [{from: 5 m, lasts: 9 s, pump: off}]\n";
  int tried = 0;
  for (const char* key : {"title",
                          "weight_limit",
                          "starting_wear",
                          "grade",
                          "count",
                          "thickness",
                          "width",
                          "chamfer",
                          "leach_depth",
                          "exposure",
                          "nose_share",
                          "kinds",
                          "wing_twist",
                          "inlet_temperature",
                          "collar_length",
                          "pressure_limit",
                          "mist_water",
                          "feed_limit",
                          "lasts",
                          "hole",
                          "water_level",
                          "rock",
                          "stickiness",
                          "trip_time",
                          "stop_at",
                          "least_progress",
                          "lost_cutters",
                          "currency",
                          "replacement",
                          "consumables",
                          "seed",
                          "warming",
                          "measurement_error",
                          "flat_friction",
                          "viscosity",
                          "excess_pressure",
                          "continues",
                          "fitted",
                          "cutters",
                          "rate_of_penetration"}) {
    const auto places = places_of_key(key);
    EXPECT_FALSE(places.empty()) << key;
    for (std::string place : places) {
      for (const auto& [said, path] : maps) {
        if (place == said) place = path;
      }
      if (!place.empty() && !place.ends_with('.')) place += '.';
      ++tried;
      for (const std::string& message : errors_of(text, {place + key + "=[[]]"}))
        EXPECT_EQ(message.find(std::string(key) + ": is not a key here"), std::string::npos) << message;
    }
  }
  EXPECT_GT(tried, 39);
}

TEST(KeyPlaces, ANameThatNobodyKnowsHasNone) {
  EXPECT_TRUE(places_of_key("colour").empty());
  EXPECT_EQ(key_hint("colour", "pump", {"pressure_limit"}), "the keys are pressure_limit");
}

}  // namespace
}  // namespace dullcast::input
