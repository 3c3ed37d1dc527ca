// Chips drawn by chance: their number follows the hazard, a chip is a larger flat whose neighbours take its
// load, and nothing is drawn where chance is carried as a probability.

#include <gtest/gtest.h>

#include <cmath>

#include "engine/simulation/drawn_strengths.hpp"
#include "engine/simulation/outcome_views.hpp"
#include "engine/simulation/run.hpp"
#include "engine/simulation/same_outcome.hpp"
#include "models/failure/chipping.hpp"
#include "models/wear/cutter_wear.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

using samples::exactly;
using testing::events_of;

/// 1.5 m of limestone on edges a third as strong as usual: about one chip a run. Hardly any other wear.
scenario::Scenario brittle_edges() {
  scenario::Scenario s = testing::short_scenario();
  testing::give_one_layer(s, 1.5, samples::invented_rock("limestone", 80e6, 1.0));
  s.repeat.connection_time = 0.0;
  s.stepping.relative_tolerance = 1e-2;
  s.numbers.abrasion_coefficient = samples::exactly(1e-22);
  s.plan[0].feed_limit = 20.0 / 3600.0;  // one depth of cut, whatever chips
  s.bit.kinds.front().grade.edge_strength = samples::exactly(1.15e9);
  return s;
}

scenario::Scenario drawn(scenario::Scenario s, long seed) {
  s.random_events = {true, seed};
  return s;
}

TEST(DrawnChips, CarriedAsAProbabilityNothingIsDrawn) {
  scenario::Scenario s = brittle_edges();
  s.random_events = {false, 1};
  const RunOutcome one = run(s);
  s.random_events.seed = 2;
  testing::expect_same_bits(one, run(s));
  EXPECT_TRUE(events_of(one, EventKind::chip).empty());
  EXPECT_EQ(one.end.chips.sum(), 0);
  EXPECT_GT(one.end.chip_hazard.minCoeff(), 0.0);
  EXPECT_GT(one.passages[0].greatest_chip_probability, 0.01);
  EXPECT_NEAR(one.passages[0].chip_hazard, one.end.chip_hazard.sum(), 1e-12);
}

TEST(DrawnChips, TheSameSeedGivesTheSameBitsAnotherSeedOthers) {
  const scenario::Scenario s = brittle_edges();
  const RunOutcome one = run(drawn(s, 5)), again = run(drawn(s, 5));
  testing::expect_same_bits(one, again);
  EXPECT_TRUE((one.end.chip_hazard == again.end.chip_hazard).all());
  EXPECT_TRUE((one.end.chips == again.end.chips).all());
  bool differs = false;
  for (long seed = 6; seed < 12; ++seed) {
    const RunOutcome other = run(drawn(s, seed));
    differs |= (other.end.worn_height != one.end.worn_height).any();
  }
  EXPECT_TRUE(differs);
}

// Doob and Meyer's compensator of a point process [hb: Bremaud, Point Processes and Queues, 1981; Cox &
// Miller, The Theory of Stochastic Processes, 1965]: chips less the integral of their hazard is a martingale,
// so both have the same mean, although each chip changes the hazard that follows; its variance is the mean
// integral. Without a chip yet the hazard is the one that the undrawn run carries: the chance of none at all
// is exp(-integral). 400 bits, 4 standard errors each.
TEST(DrawnChips, ComeAtTheRateOfTheirHazard) {
  const scenario::Scenario s = brittle_edges();
  const int bits = 400;
  double chips = 0.0, hazard = 0.0, none = 0.0;
  Eigen::ArrayXd difference = Eigen::ArrayXd::Zero(s.bit.layout.count()), compensator = difference;
  for (long seed = 1; seed <= bits; ++seed) {
    const RunOutcome outcome = run(drawn(s, seed));
    const Eigen::ArrayXd count = outcome.end.chips.cast<double>();
    chips += count.sum();
    hazard += outcome.end.chip_hazard.sum();
    difference += count - outcome.end.chip_hazard;
    compensator += outcome.end.chip_hazard;
    none += outcome.end.chips.sum() == 0 ? 1.0 : 0.0;
    ASSERT_EQ(static_cast<int>(events_of(outcome, EventKind::chip).size()), outcome.end.chips.sum());
  }
  EXPECT_GT(hazard / bits, 0.2);
  EXPECT_NEAR(chips, hazard, 4.0 * std::sqrt(hazard));
  for (Eigen::Index i = 0; i < difference.size(); ++i)
    EXPECT_NEAR(difference(i), 0.0, 4.0 * std::sqrt(std::max(compensator(i), 1.0))) << "cutter " << i;
  const double expected = std::exp(-run(s).end.chip_hazard.sum());
  EXPECT_NEAR(none / bits, expected, 4.0 * std::sqrt(expected * (1.0 - expected) / bits));
}

TEST(DrawnChips, FallAtTheAllowanceThatWasDrawn) {
  const scenario::Scenario s = brittle_edges();
  int looked_at = 0;
  for (long seed = 1; seed <= 6; ++seed) {
    const RunOutcome outcome = run(drawn(s, seed));
    for (Eigen::Index i = 0; i < s.bit.layout.count(); ++i) {
      double reached = 0.0;
      for (int k = 0; k < outcome.end.chips(i); ++k) {
        reached += chip_allowance(drawn(s, seed).random_events, i, k);
        ++looked_at;
      }
      // What it bore lies between the allowance that it used up and the next one.
      EXPECT_GE(outcome.end.chip_hazard(i), reached - 1e-8);
      const double next = reached + chip_allowance(drawn(s, seed).random_events, i, outcome.end.chips(i));
      EXPECT_LE(outcome.end.chip_hazard(i), next + 1e-8);
    }
  }
  EXPECT_GT(looked_at, 0);
}

// On a bit whose cutters overlap. Where none reaches a cutter's middle it goes on cutting the full depth
// there, chipped or not.
TEST(DrawnChips, AChipIsALargerFlatAndNeighboursTakeItsLoad) {
  scenario::Scenario s = samples::invented_scenario();
  testing::give_one_layer(s, 1.5, samples::invented_rock("limestone", 80e6, 1.0));
  s.stepping.relative_tolerance = 1e-2;
  s.repeat.connection_time = 0.0;
  s.numbers.abrasion_coefficient = samples::exactly(1e-22);
  s.plan[0].feed_limit = 20.0 / 3600.0;
  // Weibull's modulus is 10: a strength at which one chip is to be expected.
  s.bit.kinds.front().grade.edge_strength = samples::exactly(1.5e9);
  s.bit.kinds.front().grade.edge_strength =
      samples::exactly(1.5e9 * std::pow(run(s).end.chip_hazard.sum(), 0.1));
  const RunOutcome sound = run(s);
  EXPECT_NEAR(sound.end.chip_hazard.sum(), 1.0, 0.05);
  const HistoryRow& before = sound.history.rows.back();
  int looked_at = 0;
  for (long seed = 1; seed <= 60 && looked_at < 3; ++seed) {
    const RunOutcome outcome = run(drawn(s, seed));
    Eigen::Index i = 0;
    outcome.end.chips.maxCoeff(&i);
    if (outcome.end.chips.sum() != 1 || s.bit.layout.radius(i) > 0.08) continue;
    ++looked_at;
    const HistoryRow& after = outcome.history.rows.back();
    // Its height: 0.4 of the depth of cut met, at least the edge radius and at most half the cutter's radius.
    EXPECT_GE(outcome.end.worn_height(i), 30e-6);
    EXPECT_LE(outcome.end.worn_height(i), 0.5 * 8e-3);
    EXPECT_LT(outcome.end.worn_height(i), 0.4 * 1.5 * after.depth_of_cut);
    EXPECT_GT(after.flat_area(i), before.flat_area(i) + 1e-7);
    EXPECT_LT(after.area_of_cut(i), 0.99 * before.area_of_cut(i)) << "cutter " << i;
    EXPECT_NEAR(after.area_of_cut.sum(), before.area_of_cut.sum(), 1e-6 * before.area_of_cut.sum());
    double gained = 0.0;
    for (Eigen::Index k = 0; k < s.bit.layout.count(); ++k) {
      if (k == i) continue;
      gained += after.area_of_cut(k) - before.area_of_cut(k);
      EXPECT_LT(outcome.end.worn_height(k), 1e-9) << "the others are whole";
    }
    EXPECT_NEAR(gained, before.area_of_cut(i) - after.area_of_cut(i), 1e-6 * before.area_of_cut.sum());
    EXPECT_EQ(events_of(outcome, EventKind::chip).at(0).cutter, static_cast<int>(i));
  }
  EXPECT_EQ(looked_at, 3);
}

TEST(DrawnChips, AGradeWithAStrongerEdgeChipsLess) {
  scenario::Scenario s = brittle_edges();
  const double weak = run(s).end.chip_hazard.sum();
  s.bit.kinds.front().grade.edge_strength = samples::exactly(2.3e9);
  // Weibull's law with modulus 10 [hb]: twice the strength, 2^-10 of the small chance of each blow.
  EXPECT_NEAR(run(s).end.chip_hazard.sum() / weak, std::pow(2.0, -10.0), 0.1 * std::pow(2.0, -10.0));
  s.bit.kinds.front().grade.edge_strength = samples::exactly(1.15e9);
  s.bit.lot.edge_share = samples::exactly(0.9);
  EXPECT_GT(run(s).end.chip_hazard.sum(), 1.5 * weak) << "a lot with weaker edges";
}

// A harder layer's top comes and goes under the bit: what it adds falls on entry, and a softer one adds none.
TEST(DrawnChips, EnteringHarderRockAddsHazardAtOnce) {
  scenario::Scenario s = brittle_edges();
  s.bit.kinds.front().grade.edge_strength = samples::exactly(2e9);
  s.plan[0].feed_limit.reset();
  s.numbers.roughness_impacts = samples::exactly(0.0);
  s.column.layers[0].bottom = 0.7;
  s.column.layers.push_back({0.7, 1.5, samples::invented_rock("hard", 160e6, 1.0), 0.0, {}});
  const RunOutcome harder = run(s);
  double at_boundary = 0.0;
  for (const HistoryRow& row : harder.history.rows) {
    if (row.depth < 0.7) {
      EXPECT_EQ(row.chip_hazard.maxCoeff(), 0.0);
    }
    if (row.layer == 1 && row.depth == 0.7) at_boundary = row.chip_hazard.maxCoeff();
  }
  EXPECT_GT(at_boundary, 0.0);
  EXPECT_EQ(harder.end.chip_hazard.maxCoeff(), at_boundary);
  std::swap(s.column.layers[0].rock, s.column.layers[1].rock);
  EXPECT_EQ(run(s).end.chip_hazard.maxCoeff(), 0.0);
}

// Edges that hardly hold, on cutters that are nearly gone: what breaks off ends with the cutter.
TEST(DrawnChips, NoChipTakesACutterPastItsSize) {
  scenario::Scenario s = brittle_edges();
  s.bit.kinds.front().grade.edge_strength = samples::exactly(0.3e9);
  s.numbers.chip_size_share = samples::exactly(20.0);
  const double most = wear::greatest_worn_share * s.bit.layout.shapes.front().radius;
  s.bit.starting_wear.setConstant(0.9 * most);
  s.bit.layout.exposure.setConstant(2.0 * s.bit.layout.shapes.front().radius);
  s.rules.beyond_repair_share = 10.0;
  const RunOutcome outcome = run(drawn(s, 3));
  EXPECT_GT(outcome.end.chips.sum(), 0);
  EXPECT_LE(outcome.end.worn_height.maxCoeff(), most * (1.0 + 1e-6));
  // And where nothing is left nothing is told of, however often that may be struck.
  for (const Event& event : events_of(outcome, EventKind::chip)) EXPECT_GT(event.value, 0.0);
}

}  // namespace
}  // namespace dullcast::simulation
