#include "engine/pages/shop_view.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "engine/pages/shop_clock.hpp"
#include "engine/pages/shop_words.hpp"
#include "engine/storage/sample_shop.hpp"

namespace dullcast::pages {
namespace {

using nlohmann::json;
using storage::ShopOutlook;

constexpr double a_day = 86400.0;

storage::ChangeOutlook change(const std::string& name, double total, double error, double hours = 0.0,
                              double hours_error = 1.0) {
  storage::ChangeOutlook one;
  one.kind = "bench";
  one.name = name;
  one.total_more = total;
  one.total_error = error;
  one.late_time_more = 3600.0 * hours;
  one.late_time_error = 3600.0 * hours_error;
  one.late_holes_error = 1.0;
  return one;
}

TEST(ShopClock, InstantsAreDaysOfThePlaceThroughDaylightSaving) {
  const ShopClock clock(storage::sample::shop());
  EXPECT_EQ(clock.day_text(0.0), "2031-03-03");
  EXPECT_EQ(clock.minute_text(7.5 * 3600.0), "2031-03-03 07:30");
  // 30 times 24 h later the clock has gone forward by one.
  EXPECT_EQ(clock.minute_text(30.0 * a_day), "2031-04-02 01:00");
  EXPECT_DOUBLE_EQ(clock.days(30.0 * a_day + 11.0 * 3600.0), 30.5);
  EXPECT_DOUBLE_EQ(clock.days(1.5 * a_day), 1.5);
  EXPECT_EQ(short_day(*clock.day(30.0 * a_day)), "2 Apr");
}

TEST(ShopClock, WhatIsNotKnownHasNoDayAndUnknownZonesAreTold) {
  const ShopClock clock(storage::sample::shop());
  for (const double instant : {std::nan(""), HUGE_VAL, -HUGE_VAL, 1e300, -1e11}) {
    EXPECT_EQ(clock.day_text(instant), "");
    EXPECT_EQ(clock.minute_text(instant), "");
    EXPECT_TRUE(std::isnan(clock.days(instant)));
  }
  ShopOutlook outlook = storage::sample::shop();
  outlook.time_zone = "Nowhere/At_all";
  EXPECT_THROW(ShopClock{outlook}, std::invalid_argument);
  outlook = storage::sample::shop();
  outlook.begins = 9'000'000'000'000;
  EXPECT_THROW(ShopClock{outlook}, std::invalid_argument);
}

TEST(ShopWords, ADifferenceOfLessThanTwoErrorsIsNone) {
  EXPECT_TRUE(tells(-2.0, 1.0));
  EXPECT_TRUE(tells(0.5, 0.0));
  EXPECT_FALSE(tells(-1.99, 1.0));
  EXPECT_FALSE(tells(0.0, 0.0));
  EXPECT_FALSE(tells(std::nan(""), 1.0));
  EXPECT_FALSE(tells(1.0, std::nan("")));
  EXPECT_EQ(change_words(change("braze in", -1900.0, 951.0, -3.0, 1.6), "EUR"),
            "makes no difference that these futures can tell");
  EXPECT_EQ(change_words(change("braze in", -8400.0, 702.0, -3.0, 1.6), "EUR"),
            "saves 8400 \xc2\xb1 1400 EUR");
  EXPECT_EQ(change_words(change("braze in", 300.0, 100.0, -3.0, 1.0), "EUR"),
            "saves 3.0 \xc2\xb1 2.0 h of rigs standing, but costs 300 \xc2\xb1 200 EUR more");
  EXPECT_EQ(change_words(change("braze in", -12.0, 0.0), "EUR"), "saves 12 \xc2\xb1 0 EUR");
}

TEST(ShopWords, TheBestChangeIsNamedFirst) {
  ShopOutlook outlook;
  outlook.currency = "EUR";
  outlook.changes = {change("unsure", -9000.0, 5000.0), change("rigs alone", 0.0, 10.0, -20.0, 2.0),
                     change("some money", -500.0, 100.0), change("most money", -1500.0, 100.0)};
  EXPECT_EQ(best_changes_first(outlook), (std::vector<std::size_t>{3, 2, 1, 0}));
  EXPECT_EQ(answer_words(outlook),
            "One more bench at most money saves 1500 \xc2\xb1 200 EUR, without what it costs itself.");
}

TEST(ShopWords, WhereNothingHelpsTheAnswerIsNo) {
  ShopOutlook outlook;
  EXPECT_EQ(answer_words(outlook), "No change was tried.");
  outlook.changes = {change("unsure", -90.0, 50.0)};
  EXPECT_EQ(answer_words(outlook),
            "No: none of the changes that were tried makes a difference that these futures can tell.");
  outlook.changes.push_back(change("dearer", 900.0, 50.0));
  EXPECT_EQ(
      answer_words(outlook),
      "No: none of the changes that were tried saves money or rigs' time, as far as these futures tell.");
}

TEST(ShopWords, TheBusiestWeeksStandInOrderAndNoBitMeansNone) {
  ShopOutlook outlook = storage::sample::shop();
  for (storage::WeekOutlook& week : outlook.weeks) week.arrivals = {1.0, 0.0, 1.0, 2.0};
  outlook.weeks[9].arrivals.mean = 2.95;
  outlook.weeks[5].arrivals.mean = 3.0;
  EXPECT_EQ(busiest_weeks(outlook), (std::vector<std::size_t>{5, 9}));
  EXPECT_EQ(busiest_words(outlook, ShopClock(outlook)), "the weeks of 7 Apr and 5 May");
  for (storage::WeekOutlook& week : outlook.weeks) week.arrivals.mean = 0.0;
  EXPECT_TRUE(busiest_weeks(outlook).empty());
  EXPECT_EQ(busiest_words(outlook, ShopClock(outlook)), "");
}

TEST(ShopView, WhatIsReadFirstIsWhatTheOutlookSays) {
  ShopOutlook outlook = storage::sample::shop();
  outlook.arrivals = {36.2, 33.0, 36.0, 40.0};
  outlook.late_holes = {2.41, 0.0, 1.0, 8.0};
  outlook.late_time.mean = 80.0 * 3600.0;
  outlook.turnaround = {21.0 * a_day, 9.0 * a_day, 20.0 * a_day, 33.0 * a_day};
  const json head = shop_view(outlook, {}).at("headline");
  EXPECT_EQ(head.at("arrivals"), "36 bits");
  EXPECT_EQ(head.at("arrivals_ends"), "middle 36, eight futures of ten from 33 to 40");
  EXPECT_EQ(head.at("late"), "2.4 of 80");
  EXPECT_EQ(head.at("standing"), "80 h");
  EXPECT_EQ(head.at("turnaround"), "20 days");
  EXPECT_EQ(head.at("turnaround_high"), "33 days");
  EXPECT_EQ(head.at("answer"), answer_words(outlook));
}

TEST(ShopView, DaysAreThoseOfThePlaceWithTheirMonthsAndWeekdays) {
  const json view = shop_view(storage::sample::shop(), {});
  ASSERT_EQ(view.at("days").size(), 182u);
  EXPECT_EQ(view.at("days")[0], json({{"date", "2031-03-03"}, {"short", "3 Mar"}, {"weekday", 1}}));
  EXPECT_EQ(view.at("days")[181].at("date"), "2031-08-31");
  EXPECT_EQ(view.at("first_day"), "2031-03-03");
  EXPECT_EQ(view.at("last_day"), "2031-08-31");
  ASSERT_EQ(view.at("months").size(), 6u);
  EXPECT_EQ(view.at("months")[1], json({{"day", 29}, {"name", "April 2031"}}));
  EXPECT_EQ(view.at("weeks").at("begin")[6].at("text"), "2031-04-14");
}

TEST(ShopView, ABitHasItsDueDatesAndThousandthsOfFuturesByPlace) {
  ShopOutlook outlook = storage::sample::shop();
  storage::BitOutlook& bit = outlook.bits[2];
  bit.due = {0.0, 27.5 * a_day, 40.5 * a_day, std::nan("")};
  bit.due_after_hole = 7;
  bit.due_rule = "failed";
  bit.days[3] = {0.25, 0.0, 0.5, 0.0, 0.0, 0.2496, std::nan(""), 0.0};
  const json told = shop_view(outlook, {}).at("bits")[2];
  EXPECT_EQ(told.at("due").at("low").at("text"), "2031-03-30");
  EXPECT_EQ(told.at("due").at("middle").at("minute"), "2031-04-12 13:00");
  EXPECT_NEAR(told.at("due").at("middle").at("day").get<double>(), 40.0 + 13.0 / 24.0, 1e-4);
  EXPECT_TRUE(told.at("due").at("high").is_null());
  EXPECT_EQ(told.at("after_hole"), "Lower Meadow 8");
  EXPECT_EQ(told.at("rule"), "it stopped drilling");
  EXPECT_EQ(told.at("days")[3], json::array({250, 0, 500, 0, 0, 250, 0, 0}));
}

TEST(ShopView, StationsCuttersHolesAndPullsAreTold) {
  const ShopOutlook outlook = storage::sample::shop();
  const json view = shop_view(outlook, {});
  const json& station = view.at("stations")[3];
  EXPECT_EQ(station.at("name"), "braze in");
  EXPECT_EQ(station.at("open").size(), 26u);
  EXPECT_NEAR(station.at("work").at("high")[9].get<double>(), outlook.stations[3].weeks[9].work.high, 1.0);
  EXPECT_NEAR(view.at("cutters")[0].at("stock_out").get<double>(), outlook.cutters[0].stock_out, 1e-6);
  EXPECT_TRUE(view.at("cutters")[1].at("wait").at("mean").is_null());
  EXPECT_EQ(view.at("holes").size(), 80u);
  EXPECT_EQ(view.at("holes")[4].at("number"), 5);
  EXPECT_EQ(view.at("early_pulls")[0].at("bit"), "LM-104");
  EXPECT_EQ(view.at("early_pulls")[0].at("after_hole"), "Lower Meadow 22");
  EXPECT_TRUE(view.at("early_pulls")[0].at("more").at("total_tells"));
  EXPECT_FALSE(view.at("early_pulls")[1].at("more").at("total_tells"));
  EXPECT_EQ(view.at("changes")[0].at("what"), "one more bit (four blades)");
  EXPECT_EQ(view.at("places").size(), storage::bit_places);
  EXPECT_EQ(view.at("weeks").at("by_class").size(), storage::repair_classes);
}

TEST(ShopView, FuturesThatCouldNotBeRunAreToldAndAnOutlookOfNothingIsAView) {
  const json sample = shop_view(storage::sample::shop(), {});
  bool told = false;
  for (const json& words : sample.at("estimates"))
    told = told || words.get<std::string>().find(
                       "left out: 1; the first said: the bit does not drill at all") != std::string::npos;
  EXPECT_TRUE(told);
  ShopOutlook nothing;
  nothing.time_zone = "UTC";
  const json view = shop_view(nothing, {});
  EXPECT_TRUE(view.at("bits").empty());
  EXPECT_TRUE(view.at("days").empty());
}

}  // namespace
}  // namespace dullcast::pages
