// What lets go in a run: cutters, tables, blades; what follows from it; and lots that are poor.

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/simulation/outcome_views.hpp"
#include "engine/simulation/run.hpp"
#include "engine/simulation/same_outcome.hpp"
#include "models/common/constants.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

using samples::exactly;
using testing::events_of;
using testing::first_event;

scenario::Scenario even_hole(double bottom) {
  scenario::Scenario s = testing::short_scenario();
  testing::give_one_layer(s, bottom, samples::invented_rock("limestone", 80e6, 1.0));
  s.repeat.connection_time = 0.0;
  s.numbers.abrasion_coefficient = samples::exactly(1e-22);
  s.stepping.relative_tolerance = 1e-3;
  return s;
}

scenario::Upset weight_spike(double from, double lasts, double weight) {
  scenario::Upset spike;
  spike.from = from;
  spike.lasts = lasts;
  spike.weight_on_bit = weight;
  return spike;
}

TEST(SuddenFailure, SoundSeatsHoldAnOrdinaryBit) {
  const RunOutcome outcome = run(even_hole(3.0));
  EXPECT_LT(outcome.end.pocket_load.maxCoeff(), 0.5);
  EXPECT_LT(outcome.end.bond_load.maxCoeff(), 0.5);
  EXPECT_LT(outcome.end.blade_load, 0.5);
  EXPECT_GT(outcome.end.pocket_load.minCoeff(), 0.01);
  EXPECT_NEAR(outcome.passages[0].greatest_load_share,
              std::max({outcome.end.pocket_load.maxCoeff(), outcome.end.bond_load.maxCoeff(),
                        outcome.end.blade_load}),
              1e-12);
  EXPECT_EQ(outcome.end.lost.sum(), 0);
}

// Seats just strong enough for 20 kN meet 30 kN: the most loaded leaves first, at once, and its neighbours,
// which take its load, may follow.
TEST(SuddenFailure, AWeightSpikeTakesTheWeakestSeatFirst) {
  scenario::Scenario s = even_hole(4.0);
  const RunOutcome sound = run(s);
  Eigen::Index weakest = 0;
  const double share = sound.end.pocket_load.maxCoeff(&weakest);
  s.numbers.braze_strength = samples::exactly(230e6 * share * 1.05);
  EXPECT_TRUE(events_of(run(s), EventKind::cutter_lost).empty()) << "it holds what it was made for";
  s.upsets = {weight_spike(2.0, 5.0, 30e3)};
  const RunOutcome outcome = run(s);
  const auto lost = events_of(outcome, EventKind::cutter_lost);
  ASSERT_FALSE(lost.empty());
  EXPECT_EQ(lost[0].cutter, static_cast<int>(weakest));
  EXPECT_NEAR(lost[0].depth, 2.0, 1e-6) << "the spike itself does it";
  EXPECT_EQ(static_cast<std::size_t>(outcome.end.lost.sum()), lost.size()) << "each told once";
  for (const Event& event : lost) EXPECT_EQ(outcome.end.lost(event.cutter), 1);
  const HistoryRow& end = outcome.history.rows.back();
  EXPECT_EQ(end.area_of_cut(weakest), 0.0);
  EXPECT_EQ(end.tangential_force(weakest), 0.0);
  EXPECT_NE(end.lateral_force, sound.history.rows.back().lateral_force);
}

// A cutter that is gone hands its load on, and a seat beside it that held no longer does.
TEST(SuddenFailure, ALostCutterLeadsToTheNext) {
  scenario::Scenario s = even_hole(2.0);
  s.plan[0].feed_limit = 20.0 / 3600.0;  // one depth of cut, so that loads are handed on and not eased
  const double held = run(s).end.pocket_load.maxCoeff();
  int chains = 0;
  for (Eigen::Index first = 0; first < 7; ++first) {
    s.bit.starting_lost = Eigen::ArrayXi::Zero(7);
    s.bit.starting_lost(first) = 1;
    s.numbers.braze_strength = samples::exactly(230e6);
    const RunOutcome gap = run(s);
    EXPECT_EQ(gap.end.lost.sum(), 1) << "sound seats bear it";
    Eigen::Index next = 0;
    const double load = gap.end.pocket_load.maxCoeff(&next);
    if (load < 1.03 * held) continue;
    ++chains;
    EXPECT_LE(std::abs(next - first), 1) << "radii follow the numbers";
    // A strength between what any seat bore at first and what that one bears now.
    s.numbers.braze_strength = samples::exactly(230e6 * 0.5 * (held + load));
    const RunOutcome follows = run(s);
    EXPECT_GE(follows.end.lost.sum(), 2);
    EXPECT_EQ(first_event(follows, EventKind::cutter_lost).cutter, static_cast<int>(next));
    s.bit.starting_lost.setZero();
    EXPECT_EQ(run(s).end.lost.sum(), 0) << "with every cutter in place they all hold";
  }
  EXPECT_GT(chains, 0);
}

TEST(SuddenFailure, ABondThatFailsTakesTheTableAndItsCarbideWearsFast) {
  scenario::Scenario s = even_hole(4.0);
  s.numbers.abrasion_coefficient = samples::exactly(1e-16);
  const RunOutcome sound = run(s);
  // Which bond is the most loaded as the spike begins, while they all still hold:
  s.upsets = {weight_spike(2.0, 0.01, 30e3)};
  Eigen::Index weakest = 0;
  run(s).end.bond_load.maxCoeff(&weakest);
  s.bit.kinds.front().grade.bond_strength = samples::exactly(400e6 * sound.end.bond_load.maxCoeff() * 1.02);
  s.upsets = {weight_spike(2.0, 5.0, 30e3)};
  const RunOutcome outcome = run(s);
  const auto tables = events_of(outcome, EventKind::table_lost);
  ASSERT_FALSE(tables.empty());
  EXPECT_EQ(tables[0].cutter, static_cast<int>(weakest));
  EXPECT_EQ(static_cast<std::size_t>(outcome.end.table_gone.sum()), tables.size());
  EXPECT_EQ(outcome.end.lost.sum(), 0) << "the carbide stays in its pocket";
  EXPECT_TRUE(events_of(outcome, EventKind::table_ruined).empty())
      << "a table that is gone is not ruined too";
  EXPECT_GT(outcome.end.worn_height(weakest), 10.0 * sound.end.worn_height(weakest));
}

TEST(SuddenFailure, AShearedBladeEndsTheRunBeyondRepair) {
  scenario::Scenario s = even_hole(4.0);
  s.repeat.holes = 3;
  s.bit.body.strength = samples::exactly(750e6 * run(even_hole(2.0)).end.blade_load * 1.05);
  EXPECT_EQ(run(s).ended_by, EndedBy::last_hole);
  s.upsets = {weight_spike(2.0, 5.0, 30e3)};
  s.upsets[0].hole = 1;
  const RunOutcome outcome = run(s);
  EXPECT_EQ(outcome.ended_by, EndedBy::blade_sheared);
  EXPECT_EQ(events_of(outcome, EventKind::blade_sheared).size(), 1u);
  EXPECT_NEAR(outcome.footage, 4.0 + 2.0, 1e-6);
  EXPECT_EQ(outcome.holes_finished, 1);
  ASSERT_TRUE(outcome.beyond_repair.has_value());
  EXPECT_EQ(outcome.beyond_repair->rule, "blade_sheared");
  EXPECT_EQ(outcome.beyond_repair->hole, 1);
}

TEST(SuddenFailure, GravelTearsCuttersThatRockAloneDoesNot) {
  scenario::Scenario s = even_hole(2.0);
  s.numbers.braze_strength = samples::exactly(230e6 * 1.5 * run(s).end.pocket_load.maxCoeff());
  EXPECT_EQ(run(s).end.lost.sum(), 0);
  scenario::RockRecord& rock = s.column.layers[0].rock;
  rock.inclusion_share = samples::exactly(0.3);
  rock.inclusion_size = samples::exactly(40e-3);
  rock.inclusion_strength = samples::exactly(200e6);
  EXPECT_GT(run(s).end.lost.sum(), 0);
}

// Invented: seats and bonds of a quarter and a third of sound strength, spread by 0.6. A sound lot of thirty
// bits loses nothing in a metre and a half; a poor one does.
TEST(SuddenFailure, APoorLotLosesCuttersWhereASoundOneDoesNot) {
  scenario::Scenario s = even_hole(1.5);
  s.stepping.relative_tolerance = 1e-2;
  const auto losses = [&] {
    int lost = 0;
    for (long seed = 1; seed <= 30; ++seed) {
      s.random_events = {true, seed};
      const RunOutcome outcome = run(s);
      lost += outcome.end.lost.sum() + outcome.end.table_gone.sum();
    }
    return lost;
  };
  EXPECT_EQ(losses(), 0);
  s.bit.lot = {"poor", samples::exactly(0.75), samples::exactly(0.35), samples::exactly(0.25),
               samples::exactly(0.6)};
  const int poor = losses();
  EXPECT_GT(poor, 5);
  EXPECT_LT(poor, 30 * 7 / 2);
}

TEST(SuddenFailure, WhatIsGoneStaysGoneInTheNextHole) {
  scenario::Scenario s = even_hole(2.0);
  s.numbers.braze_strength = samples::exactly(230e6 * run(s).end.pocket_load.maxCoeff() * 1.05);
  s.upsets = {weight_spike(1.0, 3.0, 26e3)};
  s.repeat.holes = 1;
  const RunOutcome first = run(s);
  ASSERT_GT(first.end.lost.sum(), 0);
  scenario::Scenario next = s;
  next.upsets.clear();
  next.bit.starting_lost = first.end.lost;
  next.bit.starting_table_gone = first.end.table_gone;
  next.bit.starting_wear = first.end.worn_height;
  next.bit.starting_chip_hazard = first.end.chip_hazard;
  s.repeat.holes = 2;
  s.upsets[0].hole = 0;
  const RunOutcome both = run(s), second = run(next);
  EXPECT_TRUE((both.end.lost == second.end.lost).all());
  EXPECT_NEAR(both.history.rows.back().torque, second.history.rows.back().torque,
              1e-4 * second.history.rows.back().torque);
}

}  // namespace
}  // namespace dullcast::simulation
