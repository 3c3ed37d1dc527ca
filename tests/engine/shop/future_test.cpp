#include "engine/shop/future.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "engine/shop/small_plan.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::shop {
namespace {

using storage::BitPlace;

FutureLog future_of(const ShopPlan& plan, const Trial& trial = {}) {
  FutureDrill drill(plan, 0);
  return simulate_future(plan, drill, trial);
}

/// s that a bit spends at a place up to `end`.
double time_at(const std::vector<PlaceChange>& places, BitPlace place, Instant end) {
  double time = 0.0;
  for (std::size_t k = 0; k < places.size(); ++k) {
    const Instant until = k + 1 < places.size() ? places[k + 1].at : end;
    if (places[k].place == place) time += until - std::max(0.0, places[k].at);
  }
  return time;
}

TEST(Future, OneBitForTwoRigsMakesTheSecondWaitByTripRoadAndBench) {
  ShopPlan plan = small_plan(1, 1);
  const simulation::RunOutcome run = simulation::run(plan.holes[0].scenario);
  ASSERT_TRUE(run.rework_due);
  const condition::RepairPlan repair = analysis::bit_bill(plan.holes[0].scenario, run.end).plan;
  ASSERT_EQ(repair.kind, condition::RepairClass::replace_cutters);
  const FutureLog log = future_of(plan);
  EXPECT_EQ(log.holes[0].begun, 1.0 * a_day);
  EXPECT_FALSE(log.holes[0].begins_late);
  EXPECT_NEAR(log.holes[0].finished, 1.0 * a_day + run.elapsed_time, 1e-6);
  // Back, looked at, cut piece by piece, checked, and out again.
  const double shop = (1.0 + 4.0 + 0.5 * repair.cutters + 2.0) * an_hour;
  const double late = run.elapsed_time + 3.0 * an_hour + shop + 3.0 * an_hour;
  EXPECT_NEAR(log.holes[1].begun, 1.0 * a_day + late, 1e-6);
  EXPECT_NEAR(log.holes[1].late, late, 1e-6);
  EXPECT_TRUE(log.holes[1].begins_late);
  EXPECT_NEAR(log.rigs_waiting, 0.01 * late, 1e-8);
  // Both times it came in due, and was repaired or is to be.
  EXPECT_EQ(log.repairs_done, 2);
  EXPECT_NEAR(log.repairs, 2.0 * repair.cost, 1e-9);
}

TEST(Future, ARigThatNoBitReachesStandsUpToThePlansEnd) {
  ShopPlan plan = small_plan(1, 1);
  plan.bits[0].from = 100.0 * a_day;
  const FutureLog log = future_of(plan);
  for (const HoleLog& hole : log.holes) {
    EXPECT_TRUE(hole.begins_late);
    EXPECT_NEAR(hole.late, 59.0 * a_day, 1e-6);
    EXPECT_TRUE(std::isinf(hole.begun));
  }
}

TEST(Future, ASecondBitOrAChangeOfBitTakesTheWaitAway) {
  const ShopPlan plan = small_plan(1, 1);
  Trial trial;
  trial.more_bit = 0;
  const FutureLog log = future_of(plan, trial);
  EXPECT_EQ(log.late_holes(), 0);
  EXPECT_EQ(log.late_time(), 0.0);
  EXPECT_EQ(log.metres.size(), 2U);
}

TEST(Future, TimeOnBenchesAndInQueuesIsTheTimeThatBitsSpendThere) {
  ShopPlan plan = small_plan(3, 10);
  plan.cutters = {{"small", 2.0 * plan.designs[0].bit.layout.shape(0).radius,
                   plan.designs[0].bit.grade_of(0).name, 4, 3, 7, exactly(4.0 * a_day)}};
  const FutureLog log = future_of(plan);
  ASSERT_GT(log.stays.size(), 10U);
  double on_benches = 0.0, waiting = 0.0;
  for (const auto& visits : log.stations) {
    for (const BenchVisit& visit : visits) {
      on_benches += std::min(visit.done, plan.end) - std::min(visit.begun, plan.end);
      waiting += std::min(visit.begun, plan.end) - visit.arrived;
    }
  }
  double shortage = 0.0;
  for (const CutterTake& take : log.takes) shortage += std::min(take.got, plan.end) - take.asked;
  EXPECT_GT(shortage, 0.0) << "the shelf is meant to run short";
  double placed_benches = 0.0, placed_waiting = 0.0;
  for (const auto& places : log.places) {
    placed_benches += time_at(places, BitPlace::on_a_bench, plan.end);
    placed_waiting += time_at(places, BitPlace::waiting_in_shop, plan.end);
  }
  EXPECT_NEAR(on_benches, placed_benches, 1e-6);
  EXPECT_NEAR(waiting + shortage, placed_waiting, 1e-6);
}

TEST(Future, LittlesLawHoldsOnEveryStationOfAFinishedSeason) {
  // Number present, integrated from when bits come and go (a count of events), against the sum of their stays
  // (J. Little, Operations Research 9, 1961): exact where the station is empty at both ends.
  const FutureLog log = future_of(small_plan(3, 8));
  for (const auto& visits : log.stations) {
    std::map<Instant, int> changes;
    double stays = 0.0;
    for (const BenchVisit& visit : visits) {
      ASSERT_TRUE(std::isfinite(visit.done));
      ++changes[visit.arrived];
      --changes[visit.done];
      stays += visit.done - visit.arrived;
    }
    double integral = 0.0;
    int present = 0;
    Instant since = 0.0;
    for (const auto& [at, change] : changes) {
      integral += present * (at - since);
      since = at;
      present += change;
    }
    EXPECT_EQ(present, 0);
    EXPECT_NEAR(integral, stays, 1e-9 * stays);
  }
}

TEST(Future, NoRigAndNoBitIsInTwoHolesAtOnceAndEveryMetreIsSomebodys) {
  const ShopPlan plan = small_plan(3, 8);
  const FutureLog log = future_of(plan);
  std::map<std::size_t, std::vector<std::pair<Instant, Instant>>> of_bit, of_rig;
  double metres = 0.0;
  for (std::size_t h = 0; h < plan.holes.size(); ++h) {
    ASSERT_TRUE(std::isfinite(log.holes[h].finished)) << plan.holes[h].name;
    of_rig[plan.holes[h].rig].push_back({log.holes[h].begun, log.holes[h].finished});
    if (log.holes[h].fetched == 0)
      of_bit[*log.holes[h].bit].push_back({log.holes[h].begun, log.holes[h].finished});
    metres +=
        plan.holes[h].scenario.column.layers.back().bottom - plan.holes[h].scenario.column.layers.front().top;
    EXPECT_GE(log.holes[h].begun, plan.holes[h].booked);
  }
  for (auto* all : {&of_bit, &of_rig}) {
    for (auto& [who, spans] : *all) {
      std::sort(spans.begin(), spans.end());
      for (std::size_t k = 1; k < spans.size(); ++k) EXPECT_GE(spans[k].first, spans[k - 1].second) << who;
    }
  }
  double drilled = 0.0;
  for (const double one : log.metres) drilled += one;
  EXPECT_NEAR(drilled, metres, 1e-6);
}

TEST(Future, ABitGoesOnFromHoleToHoleWithItsWearUntilItIsDue) {
  ShopPlan plan = small_plan(1, 6);
  plan.holes.erase(std::remove_if(plan.holes.begin(), plan.holes.end(),
                                  [](const BookedHole& hole) { return hole.rig == 1; }),
                   plan.holes.end());
  // Less wear: due in a later hole.
  for (BookedHole& hole : plan.holes) hole.scenario.numbers.abrasion_coefficient = samples::exactly(8e-15);
  const FutureLog log = future_of(plan);
  ASSERT_FALSE(log.out.empty());
  EXPECT_GT(log.out.front().hole, 0U);
  // The same holes in one run of the engine wear it alike. Nothing is drawn that matters to this bit.
  scenario::Scenario in_one_go = plan.holes[0].scenario;
  in_one_go.repeat.holes = static_cast<int>(log.out.front().hole) + 1;
  const simulation::RunOutcome run = simulation::run(in_one_go);
  ASSERT_TRUE(run.rework_due);
  EXPECT_EQ(run.rework_due->hole, static_cast<int>(log.out.front().hole));
  FutureDrill drill(plan, 0);
  BitLife life = life_of(plan, 0);
  for (std::size_t h = 0; h <= log.out.front().hole; ++h) drill.drill(life, h, std::nan(""));
  // The engine's own judge ends a hole where it likes; steps differ, and with them wear, by its tolerance.
  EXPECT_LT((life.condition.worn_height - run.end.worn_height).abs().maxCoeff(),
            0.01 * run.end.worn_height.maxCoeff());
}

TEST(Future, APulledBitComesInThoughItIsNotDue) {
  ShopPlan plan = small_plan(3, 6);
  for (BookedHole& hole : plan.holes) hole.scenario.numbers.abrasion_coefficient = samples::exactly(4e-15);
  const FutureLog before = future_of(plan);
  ASSERT_FALSE(before.drilled.empty());
  const Pull first = before.drilled.front();
  ASSERT_TRUE(std::none_of(before.out.begin(), before.out.end(), [&](const OutOfHole& out) {
    return out.bit == first.bit && out.hole == first.after_hole;
  }));
  Trial trial;
  trial.pulls = {first};
  const FutureLog log = future_of(plan, trial);
  ASSERT_FALSE(log.out.empty());
  EXPECT_EQ(log.out.front().why, "pulled");
  EXPECT_EQ(log.out.front().bit, first.bit);
  EXPECT_EQ(log.out.front().hole, first.after_hole);
}

TEST(Future, ABitTooDearToRepairIsReplacedAfterItsLeadTime) {
  ShopPlan plan = small_plan(1, 2);
  for (BookedHole& hole : plan.holes) hole.scenario.costs.replacement = 300.0;
  const FutureLog log = future_of(plan);
  ASSERT_FALSE(log.stays.empty());
  ASSERT_EQ(log.stays.front().kind, condition::RepairClass::scrap);
  EXPECT_EQ(log.repairs, 0.0);
  EXPECT_NEAR(log.new_bits, 300.0 * static_cast<double>(log.stays.size()), 1e-9);
  const auto bought = std::find_if(log.places[0].begin(), log.places[0].end(), [](const PlaceChange& one) {
    return one.place == BitPlace::being_bought;
  });
  ASSERT_NE(bought, log.places[0].end());
  EXPECT_EQ(std::next(bought)->place, BitPlace::ready);
  EXPECT_NEAR(std::next(bought)->at - bought->at, 20.0 * a_day, 1e-6);
}

TEST(Future, WhatWasDrilledOnceIsNotDrilledAgain) {
  const ShopPlan plan = small_plan(3, 8);
  FutureDrill drill(plan, 0);
  const FutureLog first = simulate_future(plan, drill, {});
  const long drilled = drill.drilled();
  const FutureLog again = simulate_future(plan, drill, {});
  EXPECT_EQ(drill.drilled(), drilled);
  EXPECT_EQ(first.total(), again.total());
  EXPECT_EQ(first.late_time(), again.late_time());
  // And a fresh one drills the same.
  const FutureLog fresh = future_of(plan);
  EXPECT_EQ(first.total(), fresh.total());
}

TEST(Future, ANamedBitGoesToNoOtherHoleWhileItsOwnIsToCome) {
  ShopPlan plan = small_plan(2, 2);
  plan.holes.back().bit = 1;  // the last hole, south's second
  const FutureLog log = future_of(plan);
  for (std::size_t h = 0; h + 1 < plan.holes.size(); ++h) EXPECT_EQ(log.holes[h].bit, 0U);
  EXPECT_EQ(log.holes.back().bit, 1U);
}

}  // namespace
}  // namespace dullcast::shop
