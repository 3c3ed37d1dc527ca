#include <gtest/gtest.h>

#include <array>

#include "engine/simulation/run.hpp"
#include "random_scenarios/drawn_scenario.hpp"
#include "random_scenarios/identities.hpp"

// Scenarios drawn over all that may be asked for: each ends, and what holds for every run holds for it. The
// program random-scenarios runs as many as one likes (tests/long).
namespace dullcast::random_scenarios {
namespace {

const input::ScenarioReader& shipped_reader() {
  static const input::ScenarioReader reader(std::string(DULLCAST_SOURCE_DIR) + "/scenarios/library");
  return reader;
}

void expect_held(std::int64_t seed) {
  const DrawnScenario drawn = drawn_scenario(shipped_reader(), seed);
  const auto broken = broken_identities(drawn.scenario, simulation::run(drawn.scenario));
  EXPECT_TRUE(broken.empty()) << "seed " << seed << ": " << broken.front() << "\n" << drawn.text;
}

TEST(RandomScenarios, EndAndKeepWhatHoldsForEveryRun) {
  for (std::int64_t seed = 1; seed <= 60; ++seed) expect_held(seed);
}

TEST(RandomScenarios, ThatOnceBrokeSomethingNoLongerDo) {
  // Solids told below 0 where the pump clears packed slots; rows of one long step in which a chip hazard
  // falls; steps over a leap that end with less damage, hazard or depth than they began with; a cutter lost
  // below its layer's end; a dry hole that a great flow fills, whose heat is known as its temperature is;
  // a step to a layer's end that leaps past it; mist that dries within less than a kelvin;
  // blades that rub without cooling past what melts; mud that begins to fill a dry hole.
  for (const std::int64_t seed :
       {367,   537,   1066,  1395,  3259,  2604,  3002,  3237,  4609,  6098,  6347,  7812,  8510,  8815,
        11646, 11663, 17956, 20224, 22238, 23456, 44843, 72648, 77475, 81939, 82531, 91385, 300333})
    expect_held(seed);
}

TEST(RandomScenarios, AreTheSameOnEveryDay) {
  EXPECT_EQ(drawn_text(7, 0), drawn_text(7, 0));
  EXPECT_NE(drawn_text(7, 0), drawn_text(8, 0));
  EXPECT_NE(drawn_text(7, 0), drawn_text(7, 1));
}

/// A run that keeps every identity, for spoiling.
const simulation::RunOutcome& sound_outcome(scenario::Scenario& scenario) {
  static const DrawnScenario drawn = drawn_scenario(shipped_reader(), 1);
  static const simulation::RunOutcome outcome = simulation::run(drawn.scenario);
  scenario = drawn.scenario;
  return outcome;
}

TEST(Identities, AreSeenToBreak) {
  scenario::Scenario scenario;
  const simulation::RunOutcome& sound = sound_outcome(scenario);
  ASSERT_TRUE(broken_identities(scenario, sound).empty());
  ASSERT_GE(sound.history.rows.size(), 2u);
  const std::array<void (*)(simulation::RunOutcome&), 12> spoil{
      [](simulation::RunOutcome& o) { o.history.rows.back().torque = std::nan(""); },
      [](simulation::RunOutcome& o) { o.history.rows.back().flat_temperature(0) = std::nan(""); },
      [](simulation::RunOutcome& o) { o.history.rows.back().time = o.history.rows.front().time - 1.0; },
      [](simulation::RunOutcome& o) { o.history.rows.back().footage = -1.0; },
      [](simulation::RunOutcome& o) { o.history.rows.front().worn_height += 1e-3; },
      [](simulation::RunOutcome& o) { o.history.rows.front().chip_hazard += 1.0; },
      [](simulation::RunOutcome& o) { o.history.rows.back().water_share = 1.1; },
      [](simulation::RunOutcome& o) { o.history.rows.back().film(0) = 0.5; },
      [](simulation::RunOutcome& o) { o.end.heat_damage(0) = -0.1; },
      [](simulation::RunOutcome& o) { o.passages.front().lifted_share = 1.5; },
      [](simulation::RunOutcome& o) { o.passages.front().energy += 2.0 * std::max(o.energy, 1.0); },
      [](simulation::RunOutcome& o) { o.energy_residual += std::max(o.energy, 1e5); }};
  for (std::size_t k = 0; k < spoil.size(); ++k) {
    simulation::RunOutcome spoilt = sound;
    spoil[k](spoilt);
    EXPECT_FALSE(broken_identities(scenario, spoilt).empty()) << k;
  }
}

}  // namespace
}  // namespace dullcast::random_scenarios
