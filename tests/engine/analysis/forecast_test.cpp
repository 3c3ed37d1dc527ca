#include "engine/analysis/forecast.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <set>

#include "engine/analysis/uncertain_scenario.hpp"
#include "engine/simulation/run.hpp"
#include "engine/simulation/same_outcome.hpp"

namespace dullcast::analysis {
namespace {

using testing::between;
using testing::expect_same_bits;
using testing::life;
using testing::quantity_of;
using testing::uncertain_scenario;

/// Forecast once for all tests of this file.
const Forecast& usual() {
  static const Forecast result = forecast(uncertain_scenario(), {});
  return result;
}

TEST(ForecastBand, LowLifeIsShorterThanCentralAndHigh) {
  EXPECT_LT(life(usual().severe), 0.9 * life(usual().central));
  EXPECT_GT(life(usual().mild), 1.1 * life(usual().central));
  EXPECT_EQ(usual().learned_from, 0);
  EXPECT_EQ(usual().coefficient_factor, 1.0);
}

TEST(ForecastBand, IndependentNumbersAddInSquares) {
  double squares = 0.0;
  for (const NumberEffect& effect : usual().effects) squares += effect.slope * effect.slope;
  EXPECT_NEAR(usual().half_band, std::sqrt(squares), 1e-14);
  for (const NumberEffect& effect : usual().effects)
    EXPECT_NEAR(effect.share, effect.slope * effect.slope / squares, 1e-14) << effect.name;
}

TEST(ForecastBand, SharesSumToOneGreatestFirst) {
  const auto& effects = usual().effects;
  ASSERT_EQ(effects.size(), 6U);
  double sum = 0.0;
  std::set<std::string> names;
  for (std::size_t k = 0; k < effects.size(); ++k) {
    sum += effects[k].share;
    names.insert(effects[k].name);
    EXPECT_GE(effects[k].share, 0.0);
    EXPECT_LE(effects[k].share, effects[k > 0 ? k - 1 : 0].share);
  }
  EXPECT_NEAR(sum, 1.0, 1e-14);
  EXPECT_EQ(names.size(), 6U);
  EXPECT_EQ(effects.front().name, "abrasion_coefficient");
}

/// Hasofer & Lind 1974: the most probable point at a distance is along the gradient, so each number moves by
/// its slope over the length of the gradient, and none beyond its own 10 % or 90 % point.
TEST(ForecastBand, TheEndsLieAlongTheGradient) {
  for (const NumberEffect& effect : usual().effects) {
    const double step = effect.slope / usual().half_band;
    scenario::Quantity q =
        between(quantity_of(uncertain_scenario(), effect.name, &scenario::Quantity::low),
                quantity_of(uncertain_scenario(), effect.name, &scenario::Quantity::central),
                quantity_of(uncertain_scenario(), effect.name, &scenario::Quantity::high));
    const double severe = quantity_of(usual().severe_scenario, effect.name, &scenario::Quantity::central);
    const double mild = quantity_of(usual().mild_scenario, effect.name, &scenario::Quantity::central);
    EXPECT_NEAR(severe / number_at(q, step), 1.0, 1e-13) << effect.name;
    EXPECT_NEAR(mild / number_at(q, -step), 1.0, 1e-13) << effect.name;
    EXPECT_GE(std::min(severe, mild), q.low) << effect.name;
    EXPECT_LE(std::max(severe, mild), q.high) << effect.name;
  }
}

TEST(ForecastBand, EveryEndCanBeReplayedBitForBit) {
  testing::expect_same_bits(simulation::run(usual().central_scenario), usual().central);
  testing::expect_same_bits(simulation::run(usual().severe_scenario), usual().severe);
  testing::expect_same_bits(simulation::run(usual().mild_scenario), usual().mild);
  testing::expect_same_bits(simulation::run(uncertain_scenario()), usual().central);
}

TEST(ForecastBand, TheSameBitsOnTwoThreads) {
  ForecastOptions two;
  two.threads = 2;
  const Forecast other = forecast(uncertain_scenario(), two);
  testing::expect_same_bits(other.central, usual().central);
  testing::expect_same_bits(other.severe, usual().severe);
  testing::expect_same_bits(other.mild, usual().mild);
  EXPECT_EQ(other.half_band, usual().half_band);
  ASSERT_EQ(other.effects.size(), usual().effects.size());
  for (std::size_t k = 0; k < other.effects.size(); ++k) {
    EXPECT_EQ(other.effects[k].name, usual().effects[k].name);
    EXPECT_EQ(other.effects[k].slope, usual().effects[k].slope);
    EXPECT_EQ(other.effects[k].share, usual().effects[k].share);
  }
}

TEST(ForecastBand, OneNumberAloneGoesToItsOwnEnds) {
  scenario::Scenario s = testing::slow_cold_scenario(2.5);
  s.stepping.relative_tolerance = 1e-2;
  s.numbers.abrasion_coefficient = between(2e-15, 5e-15, 9e-15);
  s.rules = {};
  s.rules.worn_height = 0.5e-3;
  s.repeat.holes = 50;
  s.repeat.stop_at = scenario::StopAt::rework_due;
  const Forecast result = forecast(s, {});
  EXPECT_NEAR(result.severe_scenario.numbers.abrasion_coefficient.central, 9e-15, 1e-28);
  EXPECT_NEAR(result.mild_scenario.numbers.abrasion_coefficient.central, 2e-15, 1e-28);
  ASSERT_EQ(result.effects.size(), 1U);
  EXPECT_EQ(result.effects[0].share, 1.0);
}

TEST(ForecastBand, NothingUncertainIsNoBand) {
  scenario::Scenario s = testing::fast_wearing_scenario();
  s.stepping.relative_tolerance = 1e-2;
  const Forecast result = forecast(s, {});
  EXPECT_EQ(result.half_band, 0.0);
  EXPECT_TRUE(result.effects.empty());
  testing::expect_same_bits(result.severe, result.central);
  testing::expect_same_bits(result.mild, result.central);
}

TEST(ForecastBand, CentralOnlyMakesOneRun) {
  ForecastOptions options;
  options.band = false;
  const Forecast result = forecast(uncertain_scenario(), options);
  testing::expect_same_bits(result.central, usual().central);
  EXPECT_TRUE(result.effects.empty());
  EXPECT_EQ(result.half_band, 0.0);
  EXPECT_EQ(result.severe.footage, 0.0);
  EXPECT_EQ(result.mild.footage, 0.0);
}

TEST(ForecastBand, ProgressRisesToTheEnd) {
  double last = 0.0, whole = 0.0;
  bool falls = false;
  forecast(uncertain_scenario(), {}, [&](double done, double all) {
    falls = falls || !(done >= last);
    last = done;
    whole = all;
  });
  EXPECT_FALSE(falls);
  EXPECT_GT(last, 0.3 * whole);  // runs that end early, at rework due, leave the rest
  EXPECT_LE(last, whole * (1.0 + 1e-12));
}

TEST(ForecastBand, IsAnnouncedOnceTheCentralRunIsDone) {
  ForecastOptions options;
  std::vector<RunsAhead> announced;
  options.announce = [&](const RunsAhead& ahead) { announced.push_back(ahead); };
  double done_before = 0.0;
  forecast(uncertain_scenario(), options, [&](double done, double) {
    if (announced.empty()) done_before = done;
  });
  ASSERT_EQ(announced.size(), 1u);
  EXPECT_EQ(announced[0].runs, 2 * 6 + 2) << "six numbers at two ends, and both ends of the band";
  EXPECT_GT(announced[0].seconds, 0.0);
  EXPECT_GT(done_before, 0.0);
  EXPECT_LE(done_before, 1.0) << "the central run is the unit of work";
  options.band = false;
  announced.clear();
  forecast(uncertain_scenario(), options);
  EXPECT_TRUE(announced.empty());
}

/// What low and high promise, against brute force: numbers drawn from the spreads they stand for (a normal
/// variable, in powers, low and high its 10 % and 90 % points) and each run on its own. Of 120 lives a tenth,
/// 12, should lie beyond either end; a binomial count stays within 12 +- 3.3 (one standard deviation), here
/// within 10.
TEST(ForecastBand, AboutOneCaseInTenLiesBeyondEitherEnd) {
  scenario::Scenario s = testing::slow_cold_scenario(2.5);
  s.stepping.relative_tolerance = 1e-2;
  s.numbers.abrasion_coefficient = between(3e-15, 6e-15, 12e-15);
  s.numbers.flat_friction = between(0.35, 0.4, 0.46);
  s.column.layers[0].rock.unconfined_strength = between(40e6, 50e6, 63e6);
  s.column.layers[0].rock.cerchar_abrasivity = between(2.0, 2.5, 3.1);
  s.rules = {};
  s.rules.worn_height = 0.4e-3;
  s.repeat.holes = 200;
  s.repeat.stop_at = scenario::StopAt::rework_due;
  const Forecast result = forecast(s, {});
  constexpr double ninety = 1.2815515655446004;
  std::mt19937 engine(20);
  const auto uniform = [&] { return (static_cast<double>(engine()) + 0.5) / 4294967296.0; };
  int worse = 0, better = 0, middle = 0;
  constexpr int cases = 120;
  for (int k = 0; k < cases; ++k) {
    scenario::Scenario drawn = s;
    scenario::for_each_number(drawn, [&](const std::string&, scenario::Quantity& q) {
      if (!(q.low < q.high)) return;
      const double normal = std::sqrt(-2.0 * std::log(uniform())) * std::cos(two_pi * uniform());
      q.central = number_at(q, normal / ninety);
    });
    const double lasted = life(simulation::run(drawn));
    ASSERT_TRUE(lasted > 0.0);
    worse += lasted < life(result.severe);
    better += lasted > life(result.mild);
    middle += lasted < life(result.central);
  }
  EXPECT_NEAR(worse, 0.1 * cases, 10);
  EXPECT_NEAR(better, 0.1 * cases, 10);
  EXPECT_NEAR(middle, 0.5 * cases, 3 * std::sqrt(0.25 * cases));
}

}  // namespace
}  // namespace dullcast::analysis
