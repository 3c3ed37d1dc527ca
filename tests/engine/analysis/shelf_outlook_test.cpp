#include "engine/analysis/shelf_outlook.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "tools/samples/invented_scenario.hpp"

// What a record found beside what its run forecasts, on outcomes made up so that every figure is known.
namespace dullcast::analysis {
namespace {

/// A bit of four cutters, the first of which started worn by 0.1 mm.
scenario::ShelvedBit record_of(std::vector<scenario::CutterSeen> cutters) {
  scenario::ShelvedBit record;
  geometry::resize(record.run.bit.layout, 4);
  record.run.bit.starting_wear = Eigen::ArrayXd::Zero(4);
  record.run.bit.starting_wear(0) = 1e-4;
  record.run.bit.lot.strength_spread.central = 0.2;
  record.found.cutters = std::move(cutters);
  return record;
}

simulation::RunOutcome outcome_of(std::vector<double> worn) {
  simulation::RunOutcome outcome;
  outcome.end.worn_height = Eigen::Map<Eigen::ArrayXd>(worn.data(), static_cast<Eigen::Index>(worn.size()));
  outcome.end.chip_hazard = outcome.end.pocket_load = outcome.end.bond_load = outcome.end.heat_damage =
      Eigen::ArrayXd::Zero(4);
  return outcome;
}

scenario::CutterSeen worn(double height) {
  scenario::CutterSeen seen;
  seen.worn_height = height;
  return seen;
}

TEST(ShelfOutlook, TheRatioCountsFromTheStartAndOnlyWhereWearAloneIsTold) {
  scenario::CutterSeen chipped = worn(3e-3), least = worn(2e-3);
  chipped.chipped = true;
  least.at_least = true;
  const auto beside = beside_forecast(record_of({worn(5e-4), chipped, least, worn(9e-4)}),
                                      outcome_of({3e-4, 9e-4, 9e-4, 4e-4}));
  EXPECT_NEAR(*beside.wear_ratio, (4e-4 + 9e-4) / (2e-4 + 4e-4), 1e-12);
  EXPECT_EQ(beside.worst_found, 2e-3);
  EXPECT_TRUE(beside.worst_at_least);
  EXPECT_EQ(beside.worst_forecast, 9e-4) << "of the cutters that tell wear, the one read as at least 2 mm";
}

TEST(ShelfOutlook, WithoutReadingsTheWorstOfAllIsForecastAndNoRatioIs) {
  const auto beside = beside_forecast(record_of({}), outcome_of({3e-4, 9e-4, 8e-4, 4e-4}));
  EXPECT_FALSE(beside.wear_ratio || beside.worst_found || beside.chipped.found);
  EXPECT_EQ(beside.worst_forecast, 9e-4);
}

TEST(ShelfOutlook, CountsAreTheRecordsOrItsMarksAndExpectationsAreSumsOfChances) {
  scenario::CutterSeen lost, bared, renewed, chipped;
  lost.lost = bared.table_gone = renewed.renewed = chipped.chipped = true;
  scenario::ShelvedBit record = record_of({lost, bared, renewed, chipped});
  record.run.bit.starting_chip_hazard = Eigen::ArrayXd::Constant(4, 0.5);
  simulation::RunOutcome outcome = outcome_of({0, 0, 0, 0});
  outcome.end.chip_hazard.setConstant(0.5 + std::log(2.0));
  outcome.end.pocket_load(0) = 1.0;  // a half, whatever the spread
  outcome.end.bond_load(0) = 1.0;
  outcome.end.pocket_load(2) = 1.0;  // of the renewed one: not counted
  outcome.end.heat_damage(1) = 3.0;
  outcome.end.heat_damage(3) = 0.25;
  const auto beside = beside_forecast(record, outcome);
  EXPECT_EQ(beside.chipped.found, 1);
  EXPECT_EQ(beside.lost.found, 2);
  EXPECT_EQ(beside.heat_checked.found, 0);
  EXPECT_NEAR(beside.chipped.expected, 1.5, 1e-12);
  EXPECT_NEAR(beside.lost.expected, 0.75, 1e-12);
  EXPECT_NEAR(beside.heat_checked.expected, 1.25, 1e-12);
  record.found.breakage_noted = false;
  EXPECT_FALSE(beside_forecast(record, outcome).chipped.found);
  record.found.chipped = 3;
  EXPECT_EQ(beside_forecast(record, outcome).chipped.found, 3);
}

TEST(ShelfOutlook, AMedianIsTheMiddleOne) {
  EXPECT_FALSE(median_of({}));
  EXPECT_EQ(median_of({3.0}), 3.0);
  EXPECT_EQ(median_of({5.0, 1.0, 3.0}), 3.0);
  EXPECT_EQ(median_of({4.0, 1.0, 3.0, 10.0}), 3.5);
}

TEST(ShelfOutlook, ARunThatFailsIsKeptWithItsReasonAmongTheOthers) {
  scenario::ShelvedBit good, bad;
  good.run = bad.run = samples::invented_scenario();
  good.run.repeat.stop_at = bad.run.repeat.stop_at = scenario::StopAt::last_hole;
  bad.run.column.layers.front().rock.unconfined_strength.central = std::nan("");
  int told = 0;
  const auto all = shelf_beside_forecast({good, bad, good}, 2, [&](double done, double of) {
    ++told;
    EXPECT_EQ(done, told);
    EXPECT_EQ(of, 3.0);
  });
  ASSERT_EQ(all.size(), 3u);
  EXPECT_EQ(told, 3);
  EXPECT_TRUE(all[0].failure.empty()) << all[0].failure;
  EXPECT_FALSE(all[1].failure.empty());
  EXPECT_TRUE(all[2].failure.empty());
  EXPECT_GT(all[0].footage, 0.0);
  EXPECT_TRUE(all[0].finished);
  EXPECT_EQ(all[0].footage, all[2].footage);
}

}  // namespace
}  // namespace dullcast::analysis
