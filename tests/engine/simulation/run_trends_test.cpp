// Trends that the trade and the literature report, at the level of whole runs.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/simulation/run.hpp"
#include "models/common/constants.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

// J. Energy Resour. Technol. 116, 1994, 268: wear per mass of rock removed falls with depth of cut. Below the
// temperature at which wear accelerates, weight changes nothing else.
TEST(RunTrends, WearPerMetreFallsAsDepthOfCutGrows) {
  scenario::Scenario s = testing::short_scenario();
  s.numbers.abrasion_coefficient = samples::exactly(1e-15);
  double last_wear = 1.0, last_cut = 0.0;
  for (const double weight : {12e3, 16e3, 20e3, 25e3}) {
    s.plan[0].weight_on_bit = weight;
    const RunOutcome outcome = run(s);
    const double cut = outcome.history.rows.front().depth_of_cut;
    const double wear = outcome.end.worn_height.maxCoeff() / outcome.footage;
    ASSERT_LT(outcome.hottest.temperature, 350.0 + celsius_zero);
    EXPECT_GT(cut, 1.1 * last_cut);
    EXPECT_LT(wear, 0.97 * last_wear);
    last_wear = wear;
    last_cut = cut;
  }
}

// The same source: temperature rises with cutting speed; single-cutter lathe tests (Int. J. Engineering,
// article 118867): and with depth of cut.
TEST(RunTrends, TemperatureRisesWithSpeedAndWithDepthOfCut) {
  const auto hottest = [](double weight, double speed) {
    scenario::Scenario s = testing::short_scenario();
    s.plan[0].weight_on_bit = weight;
    s.plan[0].rotary_speed = speed;
    return run(s).hottest.temperature;
  };
  EXPECT_GT(hottest(20e3, 2.0), hottest(20e3, 1.4) + 5.0);
  EXPECT_GT(hottest(20e3, 2.8), hottest(20e3, 2.0) + 5.0);
  EXPECT_GT(hottest(26e3, 1.4), hottest(20e3, 1.4) + 1.0);
  EXPECT_GT(hottest(32e3, 1.4), hottest(26e3, 1.4) + 1.0);
}

// Common practice: outer cutters wear first because they travel furthest.
TEST(RunTrends, OuterCuttersWearFirst) {
  scenario::Scenario s = samples::invented_scenario();
  s.numbers.abrasion_coefficient = samples::exactly(2e-15);
  s.stepping.relative_tolerance = 1e-3;
  testing::give_one_layer(s, 20.0, samples::invented_rock("sandstone", 50e6, 2.5));
  const RunOutcome outcome = run(s);
  const geometry::BitLayout& bit = s.bit.layout;
  Eigen::Index worst = 0, outermost = 0;
  outcome.end.worn_height.maxCoeff(&worst);
  bit.radius.maxCoeff(&outermost);
  EXPECT_GT(bit.radius(worst), 2.0 / 3.0 * bit.bit_radius);
  double inner = 0.0, outer = 0.0;
  int inners = 0, outers = 0;
  for (Eigen::Index i = 0; i < bit.count(); ++i) {
    const bool is_outer = bit.radius(i) > 2.0 / 3.0 * bit.bit_radius;
    (is_outer ? outer : inner) += outcome.end.worn_height(i);
    ++(is_outer ? outers : inners);
  }
  EXPECT_GT(outer / outers, 1.3 * inner / inners);
  EXPECT_GT(outcome.end.outer_dull_grade.value(), outcome.end.inner_dull_grade.value());
}

// Common practice, and any abrasion law: less abrasive rock, or a tougher grade, longer life in proportion.
TEST(RunTrends, ATougherGradeWearsLess) {
  scenario::Scenario s = testing::short_scenario();
  const double usual = run(s).end.worn_height.maxCoeff();
  s.bit.grade.wear_resistance = samples::exactly(2.0);
  EXPECT_NEAR(run(s).end.worn_height.maxCoeff(), usual / 2.0, 1e-3 * usual);
}

// Common practice: leaching pays where cutters run hot, and while the leached diamond lasts.
TEST(RunTrends, ALeachedBitWearsLaterWhereItIsHotAndTheSameWhereItIsCool) {
  const auto worn = [](double face, double weight, double speed, double start) {
    scenario::Scenario s = testing::even_hole(1.0);
    s.numbers.abrasion_coefficient = samples::exactly(2e-15);
    s.numbers.acceleration_scale = samples::exactly(50.0);
    s.bit.layout.shape.leach_depth = face;
    s.bit.starting_wear.setConstant(start);
    s.plan[0].weight_on_bit = weight;
    s.plan[0].rotary_speed = speed;
    const RunOutcome outcome = run(s);
    const Eigen::Index worst = s.bit.layout.count() - 1;
    return std::pair{outcome.end.worn_height(worst) - start, outcome.hottest.temperature - celsius_zero};
  };
  const auto cool = worn(0.0, 20e3, 1.0, 0.0), cool_leached = worn(0.5e-3, 20e3, 1.0, 0.0);
  ASSERT_LT(cool.second, 350.0);
  EXPECT_EQ(cool.first, cool_leached.first);
  const auto hot = worn(0.0, 40e3, 9.0, 0.4e-3), hot_leached = worn(0.5e-3, 40e3, 9.0, 0.4e-3);
  ASSERT_GT(hot.second, 420.0);
  EXPECT_LT(hot_leached.first, 0.8 * hot.first);
  // Past the leached depth less of the flat is leached, and the lead is smaller.
  const auto later = worn(0.0, 40e3, 9.0, 2e-3), later_leached = worn(0.5e-3, 40e3, 9.0, 2e-3);
  EXPECT_LT(later_leached.first, later.first);
  EXPECT_GT(later_leached.first / later.first, hot_leached.first / hot.first + 0.02);
}

// Wear of small-hole bits in a hard abrasive medium has stages (J. Energy Resour. Technol. 107, 1985, 534):
// break-in of a sharp edge whose flat grows from nothing, the diamond's stage, the carbide's once the flat
// has reached it, and a rapid breakdown. In the model the stages show as wear per metre: even while the flat
// is within the diamond, more on the carbide as heat and a slower bit add up, and running away past 350 C.
TEST(RunTrends, LifeRunsThroughDiamondCarbideAndBreakdown) {
  scenario::Scenario s = testing::short_scenario();
  testing::give_one_layer(s, 60.0, samples::invented_rock("hard abrasive", 130e6, 5.0));
  s.numbers.abrasion_coefficient = samples::exactly(3e-16);
  s.plan[0].weight_on_bit = 22e3;
  s.plan[0].rotary_speed = 3.0;    // 180 rpm: well cooled, slower turning stays under 350 C to the end
  s.repeat.connection_time = 0.0;  // rods would cool it between
  s.rules.worn_height.reset();
  s.rules.beyond_repair_share = 0.5;
  s.stepping.relative_tolerance = 1e-3;
  s.stepping.output_every = 0.5;
  s.repeat.stop_at = scenario::StopAt::beyond_repair;
  const RunOutcome outcome = run(s);
  ASSERT_EQ(outcome.ended_by, EndedBy::beyond_repair);
  const int cutter = outcome.beyond_repair->cutters.front();
  const double carbide_reached = 2e-3 * std::tan(s.bit.layout.back_rake(cutter));
  double first = 0.0, diamond = 0.0, carbide = 0.0, breakdown = 0.0;
  const auto& rows = outcome.history.rows;
  for (std::size_t k = 1; k < rows.size(); ++k) {
    const double metres = rows[k].depth - rows[k - 1].depth, u = rows[k].worn_height(cutter);
    if (metres < 0.1) continue;
    const double per_metre = (u - rows[k - 1].worn_height(cutter)) / metres;
    const bool hot = rows[k].flat_temperature(cutter) > 350.0 + celsius_zero;
    if (first == 0.0) first = per_metre;
    if (u < 0.5 * carbide_reached) diamond = per_metre;
    if (u > carbide_reached && !hot) carbide = per_metre;
    if (hot) breakdown = std::max(breakdown, per_metre);
  }
  EXPECT_NEAR(diamond, first, 0.1 * first);
  EXPECT_GT(carbide, 1.2 * diamond);
  EXPECT_GT(breakdown, 2.0 * carbide);
  EXPECT_GT(outcome.hottest.temperature, 350.0 + celsius_zero);
}

}  // namespace
}  // namespace dullcast::simulation
