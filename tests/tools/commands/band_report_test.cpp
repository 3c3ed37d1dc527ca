#include "tools/commands/band_report.hpp"

#include <gtest/gtest.h>

#include <sstream>

#include "tools/commands/band_announcement.hpp"
#include "tools/commands/program.hpp"

namespace dullcast::commands {
namespace {

using testing::has;

simulation::RunOutcome due_in(int hole, double hottest) {
  simulation::RunOutcome run;
  run.rework_due = simulation::Milestone{};
  run.rework_due->hole = hole - 1;
  run.rework_due->footage = 100.0 * hole;
  run.rework_due->rotating_time = 7200.0 * hole;
  run.hottest.temperature = hottest;
  return run;
}

analysis::Forecast made_forecast() {
  analysis::Forecast forecast;
  forecast.severe = due_in(4, 620.0);
  forecast.central = due_in(9, 607.0);
  forecast.mild = due_in(20, 411.0);
  forecast.effects = {{"abrasion_coefficient", 0.8, 0.7}, {"rate_exponent", 0.3, 0.3}};
  return forecast;
}

std::string told(const analysis::Forecast& forecast) {
  std::ostringstream out;
  print_band({out, base::ShownUnits::si}, forecast);
  return out.str();
}

TEST(BandReport, TellsLowCentralAndHighAndWhatTheyAreDueTo) {
  const std::string text = told(made_forecast());
  EXPECT_TRUE(has(text, "low             central         high")) << text;
  EXPECT_TRUE(has(text, "due in hole    4               9               20")) << text;
  EXPECT_TRUE(has(text, "About one case in ten is worse than low")) << text;
  EXPECT_TRUE(has(text, "abrasion coefficient 70 %, rate exponent 30 %")) << text;
  EXPECT_FALSE(has(text, "reading one bit")) << text;
}

TEST(BandReport, WhatAnInspectionLeavesOpenIsACauseAmongTheOthers) {
  analysis::Forecast forecast = made_forecast();
  forecast.learned_from = 1;
  forecast.effects[0].share = 0.1;
  forecast.inspection_share = 0.6;
  const std::string text = told(forecast);
  EXPECT_TRUE(has(text,
                  "due to      what reading one bit of one field leaves open 60 %, rate exponent 30 %, "
                  "abrasion coefficient 10 %"))
      << text;
}

TEST(BandReport, UnderChanceTheMiddleOfTheDrawsStandsInThePlaceOfTheRunTold) {
  analysis::Forecast forecast = made_forecast();
  forecast.effects.clear();
  forecast.central_scenario.random_events = {true, 12};
  forecast.middle = due_in(7, 500.0);
  forecast.draws = 38;
  forecast.draws_failed = 2;
  forecast.first_failed_draw = "hole 3 at 12 m: no balance";
  forecast.draws_without_rework = 5;
  const std::string text = told(forecast);
  EXPECT_TRUE(has(text, "low             middle          high")) << text;
  EXPECT_TRUE(has(text, "due in hole    4               7               20")) << text;
  EXPECT_TRUE(has(text, "Of 38 draws of chance (seeds 12 to 51) and of the library's numbers together"))
      << text;
  EXPECT_TRUE(has(text, "in 5 rework did not fall due")) << text;
  EXPECT_TRUE(has(text, "2 more draws could not be run")) << text;
  EXPECT_TRUE(has(text, "hole 3 at 12 m: no balance")) << text;
  EXPECT_FALSE(has(text, "case in ten")) << text;
  EXPECT_TRUE(has(hottest_ends_words(forecast, base::ShownUnits::si), "to rework due")) << text;
}

TEST(BandReport, EndsOutOfOrderAreNotToldAsChances) {
  analysis::Forecast forecast = made_forecast();
  std::swap(forecast.severe, forecast.central);
  const std::string text = told(forecast);
  EXPECT_FALSE(has(text, "About one case in ten")) << text;
  EXPECT_TRUE(has(text, "do not")) << text;
}

TEST(BandReport, EachHottestFlatSaysItsCase) {
  EXPECT_EQ(hottest_ends_words(made_forecast(), base::ShownUnits::si),
            "hottest 347 degC in the low case, 138 degC in the high one");
}

TEST(BandAnnouncement, SpeaksOfMoreThanAMinuteOnly) {
  EXPECT_EQ(band_ahead_words({250, 59.0}, "The band"), "");
  EXPECT_EQ(band_ahead_words({250, 238.0}, "The band"),
            "The band takes about 4 min more (up to 250 runs); --central-only does without.");
}

}  // namespace
}  // namespace dullcast::commands
