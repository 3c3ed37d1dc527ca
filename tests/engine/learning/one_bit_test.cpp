#include "engine/learning/one_bit.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "engine/analysis/forecast.hpp"
#include "engine/learning/planted_shelf.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::learning {
namespace {

using testing::fleet_run;

constexpr double not_measured = std::numeric_limits<double>::quiet_NaN();

/// A bit of which only the abrasion coefficient is uncertain, within a factor of ten either way: nothing else
/// can explain what is read, and the prior hardly pulls.
scenario::Scenario one_unknown() {
  scenario::Scenario s = fleet_run(1);
  scenario::for_each_number(s, [](const std::string& name, scenario::Quantity& q) {
    if (name != "abrasion_coefficient") q.low = q.high = q.central;
  });
  s.numbers.abrasion_coefficient = testing::spread_between(2e-16, 2e-15, 2e-14);
  return s;
}

scenario::Inspection planted(const scenario::Scenario& run, double factor) {
  scenario::Scenario truth = run;
  truth.numbers.abrasion_coefficient.central *= factor;
  scenario::Inspection inspection;
  inspection.worn_height = simulation::run(truth).end.worn_height;
  inspection.measurement_error = 1e-5;
  inspection.location = {"wells.yaml", 12, 3};
  return inspection;
}

TEST(LearnFromOne, RecoversAPlantedFactor) {
  for (const double factor : {0.4, 1.0, 2.5}) {
    const scenario::Scenario run = one_unknown();
    const scenario::Inspection inspection = planted(run, factor);
    const scenario::Learned learned = learn_from_one(run, inspection, {});
    // The cutters' scatter of a tenth, over their number's root, leaves some 4 % (one deviation); the prior,
    // of ln(10)/1.28 = 1.8, pulls a two-thousandth of the way.
    // A scatter that grows with height leans low by its square.
    EXPECT_NEAR(learned.coefficient_factor, factor, 0.015 * factor) << factor;
    ASSERT_EQ(learned.numbers.size(), 1u);
    const scenario::Quantity& now = learned.numbers.front().now;
    const double cutters = static_cast<double>(inspection.worn_height.size());
    const double deviation = std::log(now.high / now.low) / (2.0 * ninety_percent_point);
    // The scatter over the root of the cutters at least; near the axis the calliper's error counts as well.
    EXPECT_GT(deviation, 0.98 * 0.1 / std::sqrt(cutters));
    EXPECT_LT(deviation, 1.5 * 0.1 / std::sqrt(cutters));
    EXPECT_EQ(now.mark, "fit");
  }
}

TEST(LearnFromOne, CuttersNotMeasuredAreLeftOut) {
  const scenario::Scenario run = one_unknown();
  scenario::Inspection inspection = planted(run, 2.5);
  inspection.worn_height(0) = not_measured;
  EXPECT_NEAR(learn_from_one(run, inspection, {}).coefficient_factor, 2.5, 0.04);
  // A reading that is wrong by far is a slip of the pen, and moves what is learnt by little.
  inspection.worn_height(3) *= 3.0;
  EXPECT_NEAR(learn_from_one(run, inspection, {}).coefficient_factor, 2.5, 0.1);
}

TEST(LearnFromOne, OnlyTheHolesItHadDrilledCount) {
  const scenario::Scenario run = one_unknown();
  scenario::Scenario longer = run;
  longer.repeat.holes = 20;
  scenario::Inspection inspection = planted(run, 2.5);
  inspection.holes = run.repeat.holes;
  EXPECT_NEAR(learn_from_one(longer, inspection, {}).coefficient_factor, 2.5, 0.04);
}

TEST(LearnFromOne, ABitThatStartedWornIsJudgedByItsGain) {
  scenario::Scenario used = one_unknown();
  used.bit.starting_wear.setConstant(0.3e-3);
  scenario::Inspection inspection = planted(used, 2.5);
  // The lean of a hundredth is of the whole height, half of which the run has worn.
  EXPECT_NEAR(learn_from_one(used, inspection, {}).coefficient_factor, 2.5, 0.06);
  inspection.worn_height.setConstant(0.29e-3);
  EXPECT_THROW(learn_from_one(used, inspection, {}), std::invalid_argument);
}

/// The whole way: a bit that wears 2.5 times as fast, inspected after a few holes, then its life forecast.
TEST(LearnFromOne, TheForecastOfTheBitThatWasInspectedRestsOnIt) {
  scenario::Scenario field = one_unknown();
  field.rules.worn_height = 0.8e-3;
  field.repeat.holes = 60;
  field.repeat.stop_at = scenario::StopAt::rework_due;
  scenario::Scenario truth = field;
  truth.numbers.abrasion_coefficient.central *= 2.5;
  const double lasted = simulation::run(truth).rework_due.value().footage;
  const scenario::Scenario run = one_unknown();
  const scenario::Scenario told = with_learned(field, learn_from_one(run, planted(run, 2.5), {}));
  const analysis::Forecast before = analysis::forecast(field, {}), now = analysis::forecast(told, {});
  EXPECT_EQ(now.learned_from, 1);
  EXPECT_NEAR(now.central.rework_due.value().footage, lasted, 0.02 * lasted);
  EXPECT_LT(now.severe.rework_due.value().footage, lasted);
  EXPECT_GT(now.mild.rework_due.value().footage, lasted);
  EXPECT_LT(now.half_band, 0.1 * before.half_band);
}

std::string refusal_of(const scenario::Scenario& inspected, const scenario::Inspection& inspection) {
  try {
    learn_from_one(inspected, inspection, {});
  } catch (const std::invalid_argument& error) {
    return error.what();
  }
  return "";
}

TEST(LearnFromOne, SaysWhereAndWhyReadingsAreOfNoUse) {
  const scenario::Scenario run = one_unknown();
  scenario::Inspection bad = planted(run, 1.0);
  const auto cutters = bad.worn_height.size();
  const scenario::Inspection good = bad;
  bad.worn_height.setConstant(not_measured);
  EXPECT_EQ(refusal_of(run, bad), "wells.yaml:12: calibrate_from: no cutter was measured");
  bad.worn_height.setZero();
  EXPECT_EQ(refusal_of(run, bad),
            "wells.yaml:12: calibrate_from: the readings show no more wear than the bit started with");
  for (const Eigen::Index readings : {Eigen::Index{0}, cutters - 1, cutters + 1}) {
    bad.worn_height = Eigen::ArrayXd::Constant(readings, 1e-3);
    EXPECT_EQ(refusal_of(run, bad),
              "wells.yaml:12: calibrate_from: as many readings as the inspected bit has cutters are needed");
  }
  scenario::Scenario idle = run;
  idle.rules.least_progress = 1e3;
  EXPECT_EQ(refusal_of(idle, good), "wells.yaml:12: calibrate_from: the inspected run does not wear the bit");
}

}  // namespace
}  // namespace dullcast::learning
