// What changes along a hole, and when: the plan, upsets, and the adding of rods.

#include "engine/simulation/schedule.hpp"

#include <gtest/gtest.h>

#include <limits>
#include <utility>

#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

using Kind = Schedule::Kind;
constexpr double never = std::numeric_limits<double>::infinity();

scenario::Upset pump_lost(double from, double lasts) {
  scenario::Upset upset;
  upset.from = from;
  upset.lasts = lasts;
  upset.flow = 0.0;
  return upset;
}

struct Bench {
  explicit Bench(const scenario::Scenario& s)
      : scenario(s), models(assemble(scenario)), schedule(scenario, models) {
    schedule.begin_hole(0, 0.0);
    schedule.follow(models.intervals[0]);
  }
  scenario::Scenario scenario;
  RunModels models;
  Schedule schedule;
};

TEST(Schedule, WithoutUpsetsThePlanHoldsAndRodsAreCounted) {
  scenario::Scenario s = testing::short_scenario();  // 5 m, a rod every 2 m
  s.repeat.connection_time = 0.0;
  Bench bench(s);
  EXPECT_EQ(&bench.schedule.current(), &bench.models.intervals[0]);
  EXPECT_EQ(bench.schedule.next_depth(), never) << "what takes no time needs no stop";
  EXPECT_EQ(bench.schedule.next_time(), never);
  EXPECT_EQ(bench.schedule.connections(2.0), 0) << "the second rod is not needed yet";
  EXPECT_EQ(bench.schedule.connections(2.1), 1);
  EXPECT_EQ(bench.schedule.connections(5.0), 2);
}

TEST(Schedule, NoRodIsAddedAtTheBottomOfTheHole) {
  scenario::Scenario s = testing::short_scenario();
  s.repeat.connection_every = 2.5;
  Bench bench(s);
  EXPECT_EQ(bench.schedule.next_depth(), 2.5);
  bench.schedule.advance(2.5, 1.0);
  bench.schedule.advance(2.5, 1.0 + s.repeat.connection_time);
  EXPECT_EQ(bench.schedule.next_depth(), never);
  EXPECT_EQ(bench.schedule.connections(5.0), 1);
}

TEST(Schedule, RodsAreAddedAtTheirMultiplesBelowWhereverTheHoleBegins) {
  scenario::Scenario s = testing::short_scenario();
  s.repeat.connection_every = 1.5;
  Bench bench(s);
  for (const auto& [top, first] : {std::pair{0.0, 1.5}, {1.4, 1.5}, {1.5, 3.0}, {2.9, 3.0}, {3.1, 4.5}}) {
    bench.schedule.begin_hole(0, top);
    EXPECT_DOUBLE_EQ(bench.schedule.next_depth(), first) << "from " << top;
  }
}

TEST(Schedule, AddingARodTakesTheBitOffBottomForItsTime) {
  for (const bool pump : {false, true}) {
    scenario::Scenario s = testing::short_scenario();
    s.repeat.pump_at_connections = pump;
    Bench bench(s);
    const auto begun = bench.schedule.advance(2.0, 50.0);
    ASSERT_EQ(begun.size(), 1u);
    EXPECT_EQ(begun[0].kind, Kind::connection_begins);
    const DrillingInterval& lifted = bench.schedule.current();
    EXPECT_TRUE(lifted.off_bottom);
    EXPECT_TRUE(lifted.settings.weight_on_bit.has_value());
    EXPECT_EQ(lifted.settings.weight_on_bit.value_or(-1.0), 0.0);
    EXPECT_EQ(lifted.rotary_speed, 0.0);
    EXPECT_EQ(lifted.flow, pump ? s.plan[0].flow : 0.0);
    EXPECT_EQ(bench.schedule.next_time(), 50.0 + s.repeat.connection_time);
    EXPECT_EQ(bench.schedule.next_depth(), never) << "nothing new begins off bottom";
    EXPECT_TRUE(bench.schedule.advance(2.0, 100.0).empty()) << "not yet";
    const auto ended = bench.schedule.advance(2.0, 50.0 + s.repeat.connection_time);
    ASSERT_EQ(ended.size(), 1u);
    EXPECT_EQ(ended[0].kind, Kind::connection_ends);
    EXPECT_EQ(&bench.schedule.current(), &bench.models.intervals[0]);
    EXPECT_TRUE(bench.schedule.as_planned());
  }
}

TEST(Schedule, UpsetsChangeWhatTheyNameAndOnlyThat) {
  scenario::Scenario s = testing::short_scenario();
  s.upsets = {pump_lost(1.0, 90.0)};
  Bench bench(s);
  EXPECT_EQ(bench.schedule.next_depth(), 1.0);
  const auto begun = bench.schedule.advance(1.0, 30.0);
  ASSERT_EQ(begun.size(), 1u);
  EXPECT_EQ(begun[0].kind, Kind::upset_begins);
  const DrillingInterval& now = bench.schedule.current();
  EXPECT_EQ(now.flow, 0.0);
  EXPECT_EQ(now.flow_at_bit, 0.0);
  EXPECT_EQ(now.settings.weight_on_bit.value_or(-1.0), s.plan[0].weight_on_bit.value());
  EXPECT_EQ(now.rotary_speed, s.plan[0].rotary_speed);
  EXPECT_FALSE(now.off_bottom);
  EXPECT_TRUE(bench.schedule.upset());
  EXPECT_EQ(bench.schedule.next_time(), 120.0);
  const auto ended = bench.schedule.advance(1.3, 120.0);
  ASSERT_EQ(ended.size(), 1u);
  EXPECT_EQ(ended[0].kind, Kind::upset_ends);
  EXPECT_TRUE(bench.schedule.as_planned());
  EXPECT_EQ(bench.schedule.next_depth(), 2.0) << "it does not begin again";
}

TEST(Schedule, LaterUpsetsPrevailAndEarlierOnesComeBack) {
  scenario::Scenario s = testing::short_scenario();
  scenario::Upset spike;
  spike.from = 1.1;
  spike.lasts = 10.0;
  spike.weight_on_bit = 60e3;
  spike.flow = 1e-3;
  s.upsets = {pump_lost(1.0, 90.0), spike};
  Bench bench(s);
  bench.schedule.advance(1.0, 0.0);
  bench.schedule.advance(1.1, 20.0);
  EXPECT_EQ(bench.schedule.current().flow, 1e-3);
  EXPECT_EQ(bench.schedule.current().settings.weight_on_bit.value_or(-1.0), 60e3);
  EXPECT_EQ(bench.schedule.next_time(), 30.0);
  bench.schedule.advance(1.15, 30.0);
  EXPECT_EQ(bench.schedule.current().flow, 0.0);
  EXPECT_EQ(bench.schedule.current().settings.weight_on_bit.value_or(-1.0), 20e3);
}

TEST(Schedule, AnUpsetOfAnotherHoleStaysAway) {
  scenario::Scenario s = testing::short_scenario();
  s.upsets = {pump_lost(1.0, 90.0)};
  s.upsets[0].hole = 1;
  Bench bench(s);
  EXPECT_EQ(bench.schedule.next_depth(), 2.0);
  EXPECT_TRUE(bench.schedule.advance(1.5, 10.0).empty());
  bench.schedule.begin_hole(1, 0.0);
  EXPECT_EQ(bench.schedule.next_depth(), 1.0);
  bench.scenario.upsets[0].hole = -1;
  Bench every(bench.scenario);
  EXPECT_EQ(every.schedule.next_depth(), 1.0);
}

TEST(Schedule, AnUpsetGoesOnIntoTheNextStretch) {
  scenario::Scenario s = testing::short_scenario();
  s.upsets = {pump_lost(2.9, 900.0)};
  s.repeat.connection_every = 100.0;
  Bench bench(s);
  bench.schedule.advance(2.9, 0.0);
  bench.schedule.follow(bench.models.intervals[1]);
  EXPECT_EQ(bench.schedule.current().flow, 0.0);
  EXPECT_EQ(bench.schedule.current().layer, 1);
  EXPECT_EQ(bench.schedule.current().bottom, 5.0);
  bench.schedule.advance(3.2, 900.0);
  EXPECT_EQ(&bench.schedule.current(), &bench.models.intervals[1]);
}

}  // namespace
}  // namespace dullcast::simulation
