#include "engine/pages/due_words.hpp"

#include <gtest/gtest.h>

#include <set>

#include "engine/pages/run_words.hpp"

namespace dullcast::pages {
namespace {

using analysis::Concern;
using simulation::EndedBy;

scenario::Scenario of_holes(int holes) {
  scenario::Scenario s;
  s.repeat.holes = holes;
  return s;
}

simulation::RunOutcome ended(EndedBy how, int finished) {
  simulation::RunOutcome outcome;
  outcome.ended_by = how;
  outcome.holes_finished = finished;
  return outcome;
}

simulation::RunOutcome due_in(int hole) {
  simulation::RunOutcome outcome;
  outcome.rework_due.emplace();
  outcome.rework_due->hole = hole;
  return outcome;
}

simulation::LifeEnd end_of_life(const char* name, int due, int hole) {
  simulation::LifeEnd end;
  end.end = name;
  end.due = due;
  end.hole = hole;
  return end;
}

TEST(DueWords, SayInWhichHoleAndWhyARunEndedWithoutIt) {
  EXPECT_EQ(due_words(of_holes(40), due_in(30)), "hole 31 of 40");
  EXPECT_EQ(due_words(of_holes(40), ended(EndedBy::last_hole, 40)), "not in 40 holes");
  EXPECT_EQ(due_words(of_holes(40), ended(EndedBy::stopped_drilling, 4)), "stopped drilling in hole 5");
  EXPECT_EQ(due_words(of_holes(40), ended(EndedBy::blade_sheared, 4)), "a blade sheared in hole 5");
  EXPECT_EQ(end_words(end_of_life("low", 1, 6)), "hole 7");
  EXPECT_EQ(end_words(end_of_life("high", 0, 39)), "not within hole 40");
}

TEST(DueWords, TheBitIsLookedAtBeforeTheEarlyEndOfItsBand) {
  EXPECT_EQ(inspect_words({end_of_life("low", 1, 6)}, due_in(30)),
            "after hole 6 at the latest: one bit in ten is due in the next");
  EXPECT_EQ(inspect_words({end_of_life("low", 1, 0)}, due_in(30)),
            "in the first hole already: one bit in ten is due within it");
  EXPECT_EQ(inspect_words({end_of_life("low", 0, 39)}, ended(EndedBy::last_hole, 40)),
            "whenever it is out of the hole");
  EXPECT_EQ(inspect_words({}, due_in(0)), "in the first hole already: no band was asked for");
  EXPECT_EQ(inspect_words({}, due_in(30)), "well before hole 31: no band was asked for");
}

TEST(DueWords, EveryConcernHasARemedyThatNamesTheRock) {
  std::set<std::string> remedies;
  for (const Concern concern :
       {Concern::heat, Concern::wear, Concern::chips, Concern::retention, Concern::progress,
        Concern::standstill, Concern::packing, Concern::cleaning, Concern::balling, Concern::steam}) {
    remedies.insert(remedy(concern, "marl"));
    EXPECT_NE(remedy(concern, "marl").find("marl"), std::string::npos);
  }
  // A bit that stands still wants what a slow one wants, and packed slots what cuttings that lag want.
  EXPECT_EQ(remedies.size(), 8u);
}

TEST(RunWords, ARuleIsToldWithItsNumber) {
  scenario::ReworkRules rules;
  EXPECT_EQ(rule_words("chip_probability", rules), "chip_probability");
  rules.heat_damage = 0.5;
  rules.speed_share_of_new = 0.4;
  rules.chip_probability = 0.25;
  rules.lost_cutters = 1;
  EXPECT_EQ(rule_words("heat_damage", rules), "heat damage 0.5");
  EXPECT_EQ(rule_words("speed_share_of_new", rules), "drilling at 40 % of a new bit's speed");
  EXPECT_EQ(rule_words("chip_probability", rules), "a cutter's edge chipped with a chance of 25 %");
  EXPECT_EQ(rule_words("lost_cutters", rules), "1 cutter lost");
  rules.lost_cutters = 2;
  EXPECT_EQ(rule_words("lost_cutters", rules), "2 cutters lost");
}

TEST(RunWords, TimesAreToldInSecondsUpToTwoMinutes) {
  EXPECT_EQ(seconds_words(4.26), "4.3 s");
  EXPECT_EQ(seconds_words(119.0), "119 s");
  EXPECT_EQ(seconds_words(120.0), "2 min");
  EXPECT_EQ(seconds_words(754.0), "13 min");
}

}  // namespace
}  // namespace dullcast::pages
