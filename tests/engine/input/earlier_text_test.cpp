#include "engine/input/earlier_text.hpp"

#include <gtest/gtest.h>

#include "engine/input/reading.hpp"

namespace dullcast::input {
namespace {

TEST(EarlierText, LosesNumbersThatNoLawAsksForAndNothingElse) {
  const std::string text =
      std::string(testing::plain_text()) + "models: {packed_flux_loss: 0.5, flat_friction: 0.45}\n";
  const std::vector<std::string> errors = testing::errors_of(text);
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_NE(errors[0].find("models.packed_flux_loss: is not a key here"), std::string::npos) << errors[0];

  std::vector<Warning> warnings;
  const scenario::Scenario scenario = testing::reader().read_tree(
      without_withdrawn_numbers(ScenarioReader::parse(text, "well.yaml")), "well.yaml", {}, warnings);
  EXPECT_EQ(scenario.numbers.flat_friction.central, 0.45);
}

TEST(EarlierText, KeepsKeysThatNeverWere) {
  const YamlValue tree = without_withdrawn_numbers(ScenarioReader::parse(
      std::string(testing::plain_text()) + "models: {flux_capacity: 1}\n", "well.yaml"));
  std::vector<Warning> warnings;
  EXPECT_THROW(testing::reader().read_tree(tree, "well.yaml", {}, warnings), ScenarioErrors);
  const YamlValue none = without_withdrawn_numbers(ScenarioReader::parse(testing::plain_text(), "well.yaml"));
  EXPECT_EQ(none.find("models"), nullptr);
}

}  // namespace
}  // namespace dullcast::input
