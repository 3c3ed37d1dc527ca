#include "engine/input/usual_numbers.hpp"

#include <gtest/gtest.h>

#include "engine/input/reading.hpp"

// What is possible but unwise is warned of in place, and runs.
namespace dullcast::input {
namespace {

using testing::errors_of;
using testing::plain_text;
using testing::warnings_of;

/// The one warning of the plain scenario with something set; empty when there is none.
std::string warning_of(const std::string& set) {
  const auto warnings = warnings_of(plain_text(), {set});
  EXPECT_LE(warnings.size(), 1u) << set;
  return warnings.empty() ? "" : warnings.front();
}
bool says(const std::string& message, const std::string& words) {
  return message.find(words) != message.npos;
}

TEST(UsualNumbers, ARockFarFromThoseOfTheLibraryIsWarnedOf) {
  EXPECT_EQ(warning_of("layers.1.unconfined_strength=50 GPa"),
            "--set layers.1.unconfined_strength: column.layers.1.unconfined_strength: is far from what is "
            "usual; rocks of the "
            "library have 0.2 to 300 MPa: check its unit");
  EXPECT_TRUE(says(warning_of("layers.1.unconfined_strength=50 kPa"), "is far from what is usual"));
  EXPECT_TRUE(says(warning_of("rocks.sandstone.density=200 kg/m3"), "is far from what is usual"));
  EXPECT_EQ(warning_of("layers.1.unconfined_strength=150 MPa"), "");
  EXPECT_EQ(warning_of("layers.1.inclusion_share=0"), "");
  // The library's own numbers are not judged again, and what is judged against is the library's.
  EXPECT_EQ(warnings_of(plain_text(),
                        {"rocks.strange={like: shale, unconfined_strength: 50 GPa}", "layers.1.rock=strange"})
                .size(),
            1u);
}

TEST(UsualNumbers, ANewRockThatLacksOrMissesANumberLearnsWhatIsUsual) {
  const auto errors =
      errors_of(plain_text(), {"rocks.mine={unconfined_strength: 20 MPa, density: -5 kg/m3}"});
  ASSERT_GT(errors.size(), 2u);
  bool missing = false, absurd = false;
  for (const std::string& error : errors) {
    missing =
        missing ||
        says(error,
             "rocks.mine.friction_angle: is missing from a new rock; write friction_angle: 15 deg; rocks of "
             "the library have 10 to 60 deg");
    absurd = absurd ||
             (says(error,
                   "rocks.mine.density: \"-5 kg/m3\" is out of range; it must be from 10 to 30000 kg/m3; "
                   "rocks of the library have ") &&
              error.ends_with(" kg/m3"));
  }
  EXPECT_TRUE(missing);
  EXPECT_TRUE(absurd);
}

TEST(UnwiseSettings, HardlyAnyWeightIsWarnedOf) {
  EXPECT_TRUE(says(warning_of("plan.0.weight_on_bit=0 N"),
                   "plan.0.weight_on_bit: puts 0 lbf on the bit, hardly any"));
  EXPECT_TRUE(says(warning_of("plan.0.weight_on_bit=3 daN"), "puts 7 lbf on the bit, hardly any"));
  EXPECT_EQ(warning_of("plan.0.weight_on_bit=500 lbf"), "");
}

TEST(UnwiseSettings, AWearRuleThatNoCutterReachesIsWarnedOf) {
  EXPECT_TRUE(says(
      warning_of("rework.worn_height=20 mm"),
      "rework.worn_height: is never reached: a cutter of this bit is past repair when it is worn by 7.2 mm"));
  EXPECT_EQ(warning_of("rework.worn_height=7.1 mm"), "");
}

TEST(UnwiseSettings, FluidThatWouldBeIceOrSteamIsWarnedOf) {
  EXPECT_TRUE(says(warning_of("fluid.inlet_temperature=-1 degC"), "is below freezing"));
  EXPECT_TRUE(says(warning_of("fluid.inlet_temperature=101 degC"), "is above boiling"));
  EXPECT_EQ(warning_of("fluid.inlet_temperature=99 degC"), "");
  EXPECT_EQ(warnings_of(
                testing::with(plain_text(), "fluid: water", "fluid: {name: air, inlet_temperature: -1 degC}"),
                {"plan.0.flow=350 cfm"}),
            testing::Messages{});
}

TEST(UnwiseSettings, MoreRowsThanCanBeWantedAreWarnedOfAndMoreThanMemoryHoldsRefused) {
  EXPECT_TRUE(says(warning_of("stepping.output_every=0.1 mm"), "makes 274320 rows over 27.432 m"));
  EXPECT_EQ(warning_of("stepping.output_every=1 mm"), "");
  for (const char* set :
       {"stepping.output_every=1 um", "stepping.output_every=1 nm", "stepping.output_every=1e-320 m"})
    EXPECT_EQ(errors_of(plain_text(), {set}).size(), 1u) << set;
  EXPECT_EQ(errors_of(plain_text(), {"stepping.output_every=1 mm", "repeat.holes=100"}).size(), 1u);
}

TEST(UnwiseSettings, ATolerancePastAFiftiethIsRefused) {
  // With a tenth the demo took seven times as long as with a fiftieth, and had not ended then.
  EXPECT_EQ(errors_of(plain_text(), {"stepping.relative_tolerance=0.1"}).size(), 1u);
  EXPECT_EQ(errors_of(plain_text(), {"stepping.relative_tolerance=0.03"}).size(), 0u);
}

TEST(UnwiseSettings, MistWithoutAirIsRefusedWhereItStands) {
  const std::string air = testing::with(plain_text(), "fluid: water", "fluid: air");
  EXPECT_EQ(errors_of(air, {"plan.0.flow=0 cfm", "plan.0.mist_water=2 gpm"}),
            testing::Messages{"--set plan.0.mist_water: plan.0.mist_water: is water carried by air, but no "
                              "air flows; give a flow, "
                              "or leave it out"});
  EXPECT_EQ(errors_of(air, {"plan.0.flow=300 cfm", "plan.0.mist_water=2 gpm"}), testing::Messages{});
}

}  // namespace
}  // namespace dullcast::input
