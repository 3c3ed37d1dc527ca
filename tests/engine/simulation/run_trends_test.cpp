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
  for (const double weight : {8e3, 11e3, 14e3, 18e3}) {
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

/// A 200 mm bit in granite with so many cutters a blade, worn a little, on four blades.
scenario::Scenario granite_bit(int cutters_a_blade, double weight, double worn) {
  scenario::Scenario s = testing::short_scenario();
  geometry::BladePlan plan = samples::invented_blade_plan();
  plan.cutters_per_blade.setConstant(4, cutters_a_blade);
  testing::give_layout(s, plan, samples::invented_shape());
  testing::give_one_layer(s, 1.0, samples::invented_rock("granite", 180e6, 4.5));
  s.string.pipe_diameter = 0.089;
  s.stepping.relative_tolerance = 1e-3;
  s.repeat.connection_time = 0.0;
  s.bit.starting_wear.setConstant(worn);
  s.plan[0].weight_on_bit = weight;
  return s;
}

// Common practice: harder rock wants more cutters. At a weight that drills, more of them run cooler, chip
// less and wear less a metre; at one that hardly drills the few wear less, since too little weight is left
// for each of many.
TEST(RunTrends, HarderRockWantsMoreCuttersWhereTheWeightDrills) {
  double last_T = 1e9, last_chips = 1e9, last_wear = 1e9;
  for (const int cutters : {3, 5, 8}) {
    const RunOutcome outcome = run(granite_bit(cutters, 110e3, 0.3e-3));
    const double wear = outcome.end.worn_height.mean() - 0.3e-3;
    EXPECT_LT(outcome.hottest.temperature, last_T) << cutters;
    EXPECT_LT(outcome.end.chip_hazard.sum(), 0.5 * last_chips) << cutters;
    EXPECT_LT(wear, last_wear) << cutters;
    last_T = outcome.hottest.temperature;
    last_chips = outcome.end.chip_hazard.sum();
    last_wear = wear;
  }
}

// Common practice: too much weight overheats. Doubling it on a drilling bit in granite used to cool the
// flats, since it drilled faster and rubbed as before.
TEST(RunTrends, MoreWeightRunsHotterInGranite) {
  for (const double worn : {0.0, 0.3e-3}) {
    const double usual = run(granite_bit(5, 55e3, worn)).hottest.temperature;
    const double twice = run(granite_bit(5, 110e3, worn)).hottest.temperature;
    EXPECT_GT(twice, usual + 10.0) << worn;
  }
}

// Wear by the hour follows the weight: rock that flows over the edges abrades them.
TEST(RunTrends, WearByTheHourFollowsTheWeight) {
  const auto by_the_hour = [](double weight) {
    const RunOutcome outcome = run(granite_bit(5, weight, 0.0));
    return outcome.end.worn_height.mean() / outcome.rotating_time;
  };
  const double light = by_the_hour(40e3), usual = by_the_hour(60e3), heavy = by_the_hour(90e3);
  EXPECT_GT(usual, 1.1 * light);
  EXPECT_GT(heavy, 1.1 * usual);
}

// Under too little weight a dull bit creeps: progress goes with the square of the weight (Maurer, J.
// Petroleum Technology 14(11), 1962, of drilling below the bearing strength), and stronger rock is slower.
// There strength counts twice, here once at most, since the depth that mobilises a contact grows with it.
TEST(RunTrends, ADullBitUnderTooLittleWeightCreepsByTheSquareOfItAndSlowerInStrongerRock) {
  const auto creep = [](double weight, double strength) {
    scenario::Scenario s = granite_bit(5, weight, 1.5e-3);
    s.column.layers[0].rock = samples::invented_rock("rock", strength, 1.0);
    s.column.layers[0].rock.youngs_modulus = samples::exactly(54e9);
    s.numbers.abrasion_coefficient = samples::exactly(1e-22);
    s.rules.least_progress = 0.0;
    testing::give_one_layer(s, 1e-3, s.column.layers[0].rock);
    return run(s).history.rows.back().depth_of_cut;
  };
  EXPECT_NEAR(creep(80e3, 240e6) / creep(40e3, 240e6), 4.0, 0.5);
  const double stronger = creep(30e3, 240e6) / creep(30e3, 120e6);
  EXPECT_GT(stronger, 0.5);
  EXPECT_LT(stronger, 0.65);
  // Under a tenth of the bearing weight rock is elastic, and its strength counts for less.
  EXPECT_GT(creep(10e3, 240e6) / creep(10e3, 120e6), 0.65);
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
  s.bit.kinds.front().grade.wear_resistance = samples::exactly(2.0);
  EXPECT_NEAR(run(s).end.worn_height.maxCoeff(), usual / 2.0, 1e-3 * usual);
}

// Common practice: leaching pays where cutters run hot, and while the leached diamond lasts.
TEST(RunTrends, ALeachedBitWearsLaterWhereItIsHotAndTheSameWhereItIsCool) {
  const auto worn = [](double face, double weight, double speed, double start) {
    scenario::Scenario s = testing::even_hole(1.0);
    s.numbers.abrasion_coefficient = samples::exactly(2e-15);
    s.numbers.acceleration_scale = samples::exactly(50.0);
    s.bit.layout.shapes.front().leach_depth = face;
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
// has reached it, and a rapid breakdown. In the model the stages show as wear per metre: what cutting takes
// is spread over little diamond at first, so that it falls as the flat grows; with the carbide come heat and
// a slower bit, and past 350 C wear runs away.
TEST(RunTrends, LifeRunsThroughBreakInDiamondAndBreakdown) {
  scenario::Scenario s = testing::short_scenario();
  testing::give_one_layer(s, 60.0, samples::invented_rock("hard abrasive", 130e6, 5.0));
  s.numbers.abrasion_coefficient = samples::exactly(1e-16);
  s.plan[0].weight_on_bit = 30e3;
  s.plan[0].rotary_speed = 3.0;    // 180 rpm: well cooled, slower turning stays under 350 C to the end
  s.repeat.connection_time = 0.0;  // rods would cool it between
  s.rules.worn_height.reset();
  s.stepping.relative_tolerance = 1e-3;
  s.stepping.output_every = 0.5;
  const RunOutcome outcome = run(s);
  ASSERT_EQ(outcome.ended_by, EndedBy::stopped_drilling);
  const int cutter = 6;  // the outermost
  const double carbide_reached = 2e-3 * std::tan(s.bit.layout.back_rake(cutter));
  double first = 0.0, diamond = 0.0, warm = 0.0, breakdown = 0.0;
  const auto& rows = outcome.history.rows;
  for (std::size_t k = 1; k < rows.size(); ++k) {
    const double metres = rows[k].depth - rows[k - 1].depth, u = rows[k].worn_height(cutter);
    if (metres < 0.1) continue;
    const double per_metre = (u - rows[k - 1].worn_height(cutter)) / metres;
    const double T = rows[k].flat_temperature(cutter) - celsius_zero;
    if (first == 0.0) first = per_metre;
    if (u < carbide_reached) {
      EXPECT_LT(T, 350.0);
      diamond = per_metre;
    } else if (T < 390.0 && T > 360.0) {
      warm = per_metre;
    }
    breakdown = std::max(breakdown, per_metre);
  }
  EXPECT_LT(diamond, 0.8 * first);
  EXPECT_GT(warm, 1.1 * diamond);
  EXPECT_GT(breakdown, 5.0 * warm);
}

}  // namespace
}  // namespace dullcast::simulation
