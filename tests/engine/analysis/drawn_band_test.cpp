#include "engine/analysis/drawn_band.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "engine/analysis/forecast.hpp"
#include "engine/analysis/uncertain_scenario.hpp"
#include "engine/simulation/run.hpp"
#include "engine/statistics/quantile_bounds.hpp"

namespace dullcast::analysis {
namespace {

using testing::life;
using testing::quantity_of;
using testing::uncertain_scenario;

scenario::Scenario with_chance(long seed = 3) {
  scenario::Scenario s = uncertain_scenario();
  s.random_events = {true, seed};
  return s;
}

/// Forecast once for all tests of this file.
const Forecast& usual() {
  static const Forecast result = [] {
    ForecastOptions options;
    options.threads = 2;
    return forecast(with_chance(), options);
  }();
  return result;
}

TEST(DrawnBand, DrawsAreEnoughToBoundItsEnds) {
  EXPECT_GE(band_draws, statistics::draws_for_both_bounds(0.1, 0.95));
}

TEST(DrawnBand, TheEndsAreQuantilesOfTheDraws) {
  std::vector<double> lives;
  for (int k = 0; k < band_draws; ++k) {
    const scenario::Scenario drawn = drawn_scenario(with_chance(), k);
    lives.push_back(life_drilled(simulation::run(drawn, {}, simulation::Rows::left_out)));
  }
  std::sort(lives.begin(), lives.end());
  EXPECT_EQ(life_drilled(usual().severe), lives[band_draws / 10 - 1]);
  EXPECT_EQ(life_drilled(*usual().middle), lives[band_draws / 2 - 1]);
  EXPECT_EQ(life_drilled(usual().mild), lives[9 * band_draws / 10 - 1]);
  EXPECT_EQ(usual().draws, band_draws);
  EXPECT_LT(life(usual().severe), life(usual().mild));
  EXPECT_TRUE(usual().effects.empty());
}

TEST(DrawnBand, TheFileKeepsTheMiddleOfTheDrawsAndHowManyThereAre) {
  const std::vector<simulation::LifeEnd> band = band_of(usual());
  ASSERT_EQ(band.size(), 3u);
  EXPECT_EQ(band[1].footage, life(*usual().middle));
  EXPECT_LE(band[0].footage, band[1].footage);
  EXPECT_LE(band[1].footage, band[2].footage);
  for (const simulation::LifeEnd& end : band) EXPECT_EQ(end.draws, band_draws);
  EXPECT_EQ(band_of(forecast(uncertain_scenario(), {}))[0].draws, 0);
}

TEST(DrawnBand, EndsCanBeReplayed) {
  EXPECT_EQ(life(simulation::run(usual().severe_scenario)), life(usual().severe));
  EXPECT_EQ(life(simulation::run(*usual().middle_scenario)), life(*usual().middle));
  EXPECT_EQ(usual().severe_scenario.repeat.stop_at, scenario::StopAt::rework_due);
}

TEST(DrawnBand, TheSameOnOneThread) {
  const DrawnBand one = drawn_band(with_chance(), band_draws, 1);
  EXPECT_EQ(life(one.low.run), life(usual().severe));
  EXPECT_EQ(life(one.high.run), life(usual().mild));
}

TEST(DrawnScenario, DrawsSeedsAndNumbersAndLeavesWhatIsCertain) {
  std::set<long> seeds;
  std::set<double> coefficients;
  for (int k = 0; k < 20; ++k) {
    const scenario::Scenario drawn = drawn_scenario(with_chance(), k);
    seeds.insert(drawn.random_events.seed);
    coefficients.insert(drawn.numbers.abrasion_coefficient.central);
    EXPECT_EQ(drawn.numbers.pocket_conductance.central, with_chance().numbers.pocket_conductance.central);
  }
  EXPECT_EQ(*seeds.begin(), 3);
  EXPECT_EQ(*seeds.rbegin(), 22);
  EXPECT_EQ(coefficients.size(), 20u);
}

/// Low and high are the 10 % and 90 % points of what is drawn: of 400 draws 40 lie beyond each, a binomial
/// count with a standard deviation of 6; here within four of them.
TEST(DrawnScenario, OneInTenLiesBeyondLowAndBeyondHigh) {
  const scenario::Scenario s = with_chance();
  int below = 0, above = 0;
  for (int k = 0; k < 400; ++k) {
    const double value = quantity_of(drawn_scenario(s, k), "flat_friction", &scenario::Quantity::central);
    below += value < s.numbers.flat_friction.low;
    above += value > s.numbers.flat_friction.high;
  }
  EXPECT_NEAR(below, 40, 24);
  EXPECT_NEAR(above, 40, 24);
}

TEST(DrawnScenario, ANumberPastItsRangeStandsAtItsEnd) {
  scenario::Scenario s = with_chance();
  s.numbers.exposed_share = testing::between(0.5, 0.8, 0.99);  // a share: up to 1
  int at_the_end = 0;
  for (int k = 0; k < 200; ++k) {
    const double value = drawn_scenario(s, k).numbers.exposed_share.central;
    EXPECT_LE(value, 1.0);
    at_the_end += value == 0.99;
  }
  EXPECT_GT(at_the_end, 0);
}

TEST(DrawnBand, ADrawThatCannotBeRunIsCountedAndAllOfThemAreAnError) {
  scenario::Scenario s = with_chance();
  s.column.layers[0].rock.unconfined_strength = samples::exactly(-80e6);
  EXPECT_ANY_THROW(drawn_band(s, 3, 1));
  // A low end that no rock has: draws below the central strength may be refused, those above are run.
  s.column.layers[0].rock.unconfined_strength = testing::between(-500e6, 80e6, 90e6);
  const DrawnBand some = drawn_band(s, 8, 2);
  EXPECT_GT(some.failed, 0);
  EXPECT_GT(some.draws, 0);
  EXPECT_EQ(some.draws + some.failed, 8);
  EXPECT_FALSE(some.first_failure.empty());
}

TEST(LifeDrilled, EndsWithReworkAStandstillOrNotAtAll) {
  simulation::RunOutcome run;
  run.footage = 120.0;
  run.ended_by = simulation::EndedBy::last_hole;
  EXPECT_TRUE(std::isinf(life_drilled(run)));
  run.ended_by = simulation::EndedBy::stopped_drilling;
  EXPECT_EQ(life_drilled(run), 120.0);
  run.rework_due = simulation::Milestone{};
  run.rework_due->footage = 80.0;
  EXPECT_EQ(life_drilled(run), 80.0);
}

}  // namespace
}  // namespace dullcast::analysis
