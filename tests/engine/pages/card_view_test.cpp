#include "engine/pages/card_view.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <nlohmann/json.hpp>

#include "engine/simulation/run.hpp"
#include "models/common/constants.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::pages {
namespace {

using nlohmann::json;

/// Two rocks, the upper one drilled by two settings.
scenario::Scenario three_stretches() {
  scenario::Scenario s = testing::short_scenario();
  s.plan.push_back(s.plan[0]);
  s.plan[0].to = s.plan[1].from = 1.5;
  s.plan[1].rotary_speed = 1.2;
  return s;
}

const simulation::RunOutcome& drilled() {
  static const simulation::RunOutcome outcome = simulation::run(three_stretches());
  return outcome;
}

analysis::LeastFlow least(int layer, double to_cool, double to_clean) {
  analysis::LeastFlow flow;
  flow.layer = layer;
  flow.flow = to_cool;
  flow.flow_to_clean = to_clean;
  return flow;
}

json card_with(const std::vector<analysis::LeastFlow>& flows) {
  return card_view(three_stretches(), drilled(), {}, flows, {});
}

TEST(CardView, StretchesAreOfOneRockAndOneSetting) {
  const json rows = card_with({}).at("rows");
  ASSERT_EQ(rows.size(), 3u);
  EXPECT_EQ(rows[0].at("rock"), "limestone");
  EXPECT_DOUBLE_EQ(rows[0].at("to").get<double>(), 1.5);
  EXPECT_EQ(rows[1].at("rock"), "limestone");
  EXPECT_DOUBLE_EQ(rows[1].at("rotary_speed").get<double>(), 1.2);
  EXPECT_EQ(rows[2].at("rock"), "sandstone");
  EXPECT_DOUBLE_EQ(rows[2].at("weight").get<double>(), 20e3);
  EXPECT_GT(rows[0].at("progress").get<double>(), 0.0);
}

TEST(CardView, NeighboursThatAskForTheSameAreOneRow) {
  scenario::Scenario s = three_stretches();
  s.plan[1].rotary_speed = s.plan[0].rotary_speed;
  EXPECT_EQ(card_view(s, drilled(), {}, {}, {}).at("rows").size(), 2u);
}

TEST(CardView, LeastFlowBothCoolsAndCleansTheBitNewAndWorn) {
  const double planned = three_stretches().plan[0].flow;
  // New it must be cleaned, worn it must be cooled.
  const json rows = card_with({least(0, 0.1 * planned, 0.8 * planned), least(0, 1.4 * planned, 0.3 * planned),
                               least(1, 0.2 * planned, 0.5 * planned)})
                        .at("rows");
  EXPECT_NEAR(rows[0].at("least_flow").get<double>(), 1.4 * planned, 1e-5 * planned);
  EXPECT_TRUE(rows[0].at("flow_is_short").get<bool>());
  EXPECT_NEAR(rows[2].at("least_flow").get<double>(), 0.5 * planned, 1e-5 * planned);
  EXPECT_FALSE(rows[2].at("flow_is_short").get<bool>());
}

TEST(CardView, SaysSoWhereNoFlowWillDo) {
  analysis::LeastFlow hot = least(0, 1.0, 0.001);
  hot.coolable = analysis::Coolable::at_no_flow;
  const json rows = card_with({hot, least(1, 0.001, std::numeric_limits<double>::infinity())}).at("rows");
  EXPECT_TRUE(rows[0].at("least_flow").is_null());
  EXPECT_EQ(rows[0].at("flow_words"), "no flow cools it worn: ease weight, speed");
  EXPECT_TRUE(rows[2].at("least_flow").is_null());
  EXPECT_EQ(rows[2].at("flow_words"), "no flow clears it: slow the feed");
  EXPECT_TRUE(rows[2].at("flow_is_short").get<bool>());
}

TEST(CardView, WarnsOfCuttersThatComeNearFasterWear) {
  scenario::Scenario cool = three_stretches(), hot = cool;
  const double hottest = drilled().hottest.temperature;
  cool.numbers.acceleration_temperature = samples::exactly(hottest + 60.0);
  hot.numbers.acceleration_temperature = samples::exactly(hottest + 10.0);
  const auto warns = [](const scenario::Scenario& s) {
    const json rows = card_view(s, drilled(), {}, {}, {}).at("rows");
    return std::any_of(rows.begin(), rows.end(), [](const json& row) {
      const std::string all = row.at("watch").dump();
      return all.find("hold the flow") != std::string::npos;
    });
  };
  EXPECT_FALSE(warns(cool));
  EXPECT_TRUE(warns(hot));
}

TEST(CardView, PullsWhenReworkFallsDue) {
  scenario::Scenario s = testing::fast_wearing_scenario();
  s.rules.worn_height = 0.2e-3;
  s.repeat.holes = 2;
  const simulation::RunOutcome outcome = simulation::run(s);
  ASSERT_TRUE(outcome.rework_due.has_value());
  const json card = card_view(s, outcome, {}, {}, {});
  const std::string pull = card.at("pull").at("si");
  EXPECT_EQ(pull.rfind("Pull for rework in hole " + std::to_string(outcome.rework_due->hole + 1), 0), 0u)
      << pull;
  EXPECT_EQ(card.at("pull_sooner").at(0), "a cutter worn 0.00787 in (0.2 mm)");
  EXPECT_FALSE(card.at("cautions").empty());
}

}  // namespace
}  // namespace dullcast::pages
