#include "engine/pages/sweep_view.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "engine/analysis/made_sweep.hpp"
#include "engine/pages/course_bands.hpp"

namespace dullcast::pages {
namespace {

using nlohmann::json;
using testing::MadeCase;

/// Three points of twenty draws: point 2 is the cheapest, point 3 the coolest; draw j lasts 10 h more than
/// the one before it, and the last of every point sees no rework due.
storage::SweepTable three_points() {
  storage::SweepTable table = testing::made_sweep(3, 20, "grid", [](long point, long draw) {
    MadeCase made;
    made.due = draw < 19;
    made.rotating_time = 36e3 * static_cast<double>(draw + 1);
    made.cost = (point == 1 ? 80.0 : 100.0) + 0.1 * static_cast<double>(draw);
    made.hottest = (point == 2 ? 450.0 : 500.0) + static_cast<double>(draw);
    return made;
  });
  std::vector<double> weight;
  for (const double newtons : {10e3, 20e3, 30e3}) weight.insert(weight.end(), 20, newtons);
  table.columns.push_back(testing::made_column("weight_on_bit", "N", storage::ColumnRole::setting, weight));
  return table;
}

json view_of(const storage::SweepTable& table) {
  return sweep_view(table, analysis::find_meaning(table, {}), {}, {});
}

TEST(SweepView, SettingsAreOnePerPointWithTheirKind) {
  const json settings = view_of(three_points()).at("settings");
  ASSERT_EQ(settings.size(), 1u);
  EXPECT_EQ(settings[0].at("name"), "weight on bit");
  EXPECT_EQ(settings[0].at("kind"), "weight");
  EXPECT_EQ(settings[0].at("values"), json::array({10e3, 20e3, 30e3}));
}

TEST(SweepView, BandsHoldEightTenthsOfTheDraws) {
  const json bands = view_of(three_points()).at("bands");
  for (const json& band : bands) {
    if (band.at("outcome") != "hottest_flat") continue;
    const json& second = band.at("points").at(1);
    EXPECT_EQ(second.at("point"), 2);
    EXPECT_EQ(second.at("draws"), 20);
    // Draws 500 to 519 K: the least draw that 10, 50 and 90 % of all reach.
    EXPECT_DOUBLE_EQ(second.at("low").get<double>(), 501.0);
    EXPECT_DOUBLE_EQ(second.at("middle").get<double>(), 509.0);
    EXPECT_DOUBLE_EQ(second.at("high").get<double>(), 517.0);
    return;
  }
  FAIL() << "no band of the hottest flat";
}

TEST(SweepView, TradeOffNamesTheCheapestAndTheFront) {
  const json trade = view_of(three_points()).at("trade_off");
  EXPECT_EQ(trade.at("best"), 2);
  EXPECT_FALSE(trade.at("points").at(0).at("on_front").get<bool>());
  EXPECT_TRUE(trade.at("points").at(1).at("on_front").get<bool>());
  EXPECT_TRUE(trade.at("points").at(2).at("on_front").get<bool>());
  EXPECT_TRUE(trade.at("limits").at("hottest_flat").is_null());  // none was asked for
}

TEST(SweepView, SurvivalFallsAndTellsTheEndThatDrawsLeaveOpen) {
  const json view = view_of(three_points());
  const json& curve = view.at("survival");
  EXPECT_EQ(curve.at("lives"), 20);
  EXPECT_EQ(curve.at("censored"), 1);
  const json& share = curve.at("share");
  for (std::size_t k = 1; k < share.size(); ++k)
    EXPECT_LT(share[k].get<double>(), share[k - 1].get<double>());
  const json& half = view.at("life").at("rotating_time").at(1);
  EXPECT_DOUBLE_EQ(half.at("share").get<double>(), 0.5);
  EXPECT_DOUBLE_EQ(half.at("value").get<double>(), 36e4);
  // Nine tenths: twenty draws leave its late end open.
  EXPECT_TRUE(view.at("life").at("rotating_time").at(2).at("high").is_null());
}

/// Courses of six cases: case c wears c mm over 10 c metres, in three rows.
storage::SweepCourses six_courses() {
  storage::SweepCourses courses;
  courses.rows = 3;
  std::vector<double> footage, worn, hot;
  for (int c = 1; c <= 6; ++c) {
    courses.cases.push_back(c);
    for (const double share : {0.0, 0.5, 1.0}) {
      footage.push_back(10.0 * c * share);
      worn.push_back(1e-3 * c * share);
      hot.push_back(300.0 + footage.back());
    }
  }
  courses.columns = {testing::made_column("footage", "m", storage::ColumnRole::outcome, footage),
                     testing::made_column("greatest_worn_height", "m", storage::ColumnRole::outcome, worn),
                     testing::made_column("hottest_flat", "K", storage::ColumnRole::outcome, hot)};
  return courses;
}

TEST(CourseBands, TellsOnlyOfRunsThatGotSoFar) {
  const json bands = course_bands(six_courses());
  // Five of six reach 20 m, four 30 m: a band of fewer than five is none.
  EXPECT_DOUBLE_EQ(bands.at("footage").back().get<double>(), 20.0);
  EXPECT_EQ(bands.at("runs").front(), 6);
  EXPECT_EQ(bands.at("runs").back(), 5);
  // All wear a millimetre in ten metres and heat by a kelvin a metre; the one that ended at 10 m stays as
  // worn as it was, and is no longer hot.
  const json& worn = bands.at("bands").at(0);
  EXPECT_NEAR(worn.at("low").back().get<double>(), 1e-3, 1e-12);
  EXPECT_NEAR(worn.at("middle").back().get<double>(), 2e-3, 1e-12);
  EXPECT_NEAR(worn.at("high").back().get<double>(), 2e-3, 1e-12);
  EXPECT_NEAR(worn.at("middle").at(40).get<double>(), 1e-3, 1e-12);
  EXPECT_NEAR(bands.at("bands").at(1).at("low").back().get<double>(), 320.0, 1e-9);
}

TEST(CourseBands, FewCoursesHaveNone) {
  storage::SweepCourses courses = six_courses();
  courses.cases.resize(4);
  EXPECT_TRUE(course_bands(courses).is_null());
  EXPECT_TRUE(course_bands({}).is_null());
}

}  // namespace
}  // namespace dullcast::pages
