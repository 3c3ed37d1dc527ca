#include "engine/analysis/calibrate.hpp"

#include <gtest/gtest.h>

#include <limits>
#include <stdexcept>

#include "engine/analysis/uncertain_scenario.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::analysis {
namespace {

using testing::uncertain_scenario;

constexpr double not_measured = std::numeric_limits<double>::quiet_NaN();

/// The run of the inspected bit: a few holes of the uncertain scenario.
scenario::Scenario inspected_run() {
  scenario::Scenario s = uncertain_scenario();
  s.repeat.holes = 6;
  s.repeat.stop_at = scenario::StopAt::last_hole;
  return s;
}

/// Readings of a bit that wore as if the abrasion coefficient were `factor` times what the library says.
scenario::Inspection planted(double factor, double error = 1e-5) {
  scenario::Scenario truth = inspected_run();
  truth.numbers.abrasion_coefficient.central *= factor;
  scenario::Inspection inspection;
  inspection.worn_height = simulation::run(truth).end.worn_height;
  inspection.measurement_error = error;
  inspection.location = {"wells.yaml", 12, 3};
  return inspection;
}

TEST(LearnFromInspection, RecoversAPlantedFactor) {
  for (const double factor : {0.4, 1.0, 2.5}) {
    const InspectionEvidence evidence = learn_from_inspection(inspected_run(), planted(factor), {});
    // Matched to 1e-4 in ln(wear), which is nearly proportional to the coefficient.
    EXPECT_NEAR(evidence.coefficient_factor, factor, 1e-3 * factor);
    EXPECT_EQ(evidence.effects.size(), 6U);
  }
}

/// The inspected run with a spread on what cutting wears.
scenario::Scenario cutting_run(double central = 1.0) {
  scenario::Scenario s = inspected_run();
  s.numbers.cutting_wear_share = {0.3 * central, central, 5.0 * central, "asm", ""};
  return s;
}

// Cutting wears by the rock that each edge cuts, rubbing by its travel: the pattern over the cutters tells
// them apart when it is read well, and the mean alone does not.
TEST(LearnFromInspection, TellsCuttingFromRubbingByThePatternOverTheCutters) {
  scenario::Scenario truth = cutting_run();
  truth.numbers.abrasion_coefficient.central *= 1.7;
  truth.numbers.cutting_wear_share.central = 2.5;
  scenario::Inspection inspection = planted(1.0);
  inspection.worn_height = simulation::run(truth).end.worn_height;
  inspection.measurement_error = 1e-6;
  const InspectionEvidence sharp = learn_from_inspection(cutting_run(), inspection, {});
  ASSERT_TRUE(sharp.cutting_wear_share.has_value());
  EXPECT_NEAR(sharp.cutting_wear_share->central, 2.5, 0.15);
  EXPECT_NEAR(sharp.coefficient_factor, 1.7, 0.06);
  EXPECT_LT(sharp.cutting_wear_share->low, 2.5);
  EXPECT_GT(sharp.cutting_wear_share->high, 2.5);
  // Readings ten times as sharp leave a tenth of the width, while the prior's pull is small.
  inspection.measurement_error = 1e-5;
  const InspectionEvidence less_sharp = learn_from_inspection(cutting_run(), inspection, {});
  const auto width = [](const InspectionEvidence& evidence) {
    return std::log(evidence.cutting_wear_share->high / evidence.cutting_wear_share->low);
  };
  ASSERT_TRUE(less_sharp.cutting_wear_share.has_value());
  EXPECT_NEAR(width(less_sharp) / width(sharp), 10.0, 3.0);
  // A share beyond the library's high is told as well.
  truth.numbers = cutting_run().numbers;
  truth.numbers.cutting_wear_share.central = 6.0;
  inspection.worn_height = simulation::run(truth).end.worn_height;
  EXPECT_NEAR(learn_from_inspection(cutting_run(), inspection, {}).cutting_wear_share->central, 6.0, 0.6);
  // Read to a third of a millimetre they say nothing of it, and the share stays.
  inspection.measurement_error = 0.3e-3;
  const InspectionEvidence blunt = learn_from_inspection(cutting_run(), inspection, {});
  EXPECT_FALSE(blunt.cutting_wear_share.has_value());
}

TEST(LearnFromInspection, CuttersNotMeasuredAreLeftOut) {
  scenario::Inspection inspection = planted(2.5);
  inspection.worn_height(0) = inspection.worn_height(4) = not_measured;
  EXPECT_NEAR(learn_from_inspection(inspected_run(), inspection, {}).coefficient_factor, 2.5, 2.5e-3);
  // One reading that is wrong by far moves the factor; left out, it does not.
  inspection.worn_height(6) *= 3.0;
  EXPECT_GT(learn_from_inspection(inspected_run(), inspection, {}).coefficient_factor, 3.0);
  inspection.worn_height(6) = not_measured;
  EXPECT_NEAR(learn_from_inspection(inspected_run(), inspection, {}).coefficient_factor, 2.5, 2.5e-3);
}

TEST(LearnFromInspection, OnlyTheHolesItHadDrilledCount) {
  scenario::Scenario longer = inspected_run();
  longer.repeat.holes = 40;
  scenario::Inspection inspection = planted(2.5);
  inspection.holes = 6.0;
  EXPECT_NEAR(learn_from_inspection(longer, inspection, {}).coefficient_factor, 2.5, 2.5e-3);
}

TEST(LearnFromInspection, ABitThatStartedWornIsJudgedByItsGain) {
  scenario::Scenario used = inspected_run();
  used.bit.starting_wear.setConstant(0.3e-3);
  scenario::Scenario truth = used;
  truth.numbers.abrasion_coefficient.central *= 2.5;
  scenario::Inspection inspection = planted(1.0);
  inspection.worn_height = simulation::run(truth).end.worn_height;
  EXPECT_NEAR(learn_from_inspection(used, inspection, {}).coefficient_factor, 2.5, 2.5e-3);
  inspection.worn_height.setConstant(0.29e-3);
  EXPECT_THROW(learn_from_inspection(used, inspection, {}), std::invalid_argument);
}

/// The reading error of a mean over m cutters is error/sqrt(m); between fields there is site_spread; both are
/// standard deviations of ln(wear), the noise their root of squares at the 90 % point.
TEST(LearnFromInspection, NoiseIsReadingErrorAndSiteSpreadInSquares) {
  double last = 0.0;
  for (const double error : {1e-5, 1e-4, 4e-4}) {
    const scenario::Inspection inspection = planted(1.0, error);
    const double noise = learn_from_inspection(inspected_run(), inspection, {}).noise;
    const double cutters = static_cast<double>(inspection.worn_height.size());
    const double reading = error / inspection.worn_height.mean() / std::sqrt(cutters);
    EXPECT_NEAR(noise, 1.2815515655446004 * std::sqrt(reading * reading + 0.15 * 0.15), 1e-6);
    EXPECT_GT(noise, last);
    last = noise;
  }
}

TEST(LearnFromInspection, CuttersThatScatterAreTrustedLess) {
  scenario::Inspection inspection = planted(1.0);
  const double even = learn_from_inspection(inspected_run(), inspection, {}).noise;
  for (Eigen::Index i = 0; i < inspection.worn_height.size(); ++i)
    inspection.worn_height(i) *= i % 2 == 0 ? 1.5 : 0.5;
  EXPECT_GT(learn_from_inspection(inspected_run(), inspection, {}).noise, 1.1 * even);
}

TEST(LearnFromInspection, SameOnTwoThreads) {
  ForecastOptions two;
  two.threads = 2;
  const InspectionEvidence a = learn_from_inspection(inspected_run(), planted(2.5), {});
  const InspectionEvidence b = learn_from_inspection(inspected_run(), planted(2.5), two);
  EXPECT_EQ(a.coefficient_factor, b.coefficient_factor);
  EXPECT_EQ(a.noise, b.noise);
  for (std::size_t k = 0; k < a.effects.size(); ++k) EXPECT_EQ(a.effects[k].slope, b.effects[k].slope);
}

std::string refusal_of(const scenario::Scenario& inspected, const scenario::Inspection& inspection) {
  try {
    learn_from_inspection(inspected, inspection, {});
  } catch (const std::invalid_argument& error) {
    return error.what();
  }
  return "";
}

TEST(LearnFromInspection, SaysWhereAndWhyReadingsAreOfNoUse) {
  const scenario::Inspection good = planted(1.0);
  scenario::Inspection bad = good;
  bad.worn_height.setConstant(not_measured);
  EXPECT_EQ(refusal_of(inspected_run(), bad), "wells.yaml:12: calibrate_from: no cutter was measured");
  bad.worn_height.setConstant(-1e-4);
  EXPECT_EQ(refusal_of(inspected_run(), bad),
            "wells.yaml:12: calibrate_from: the readings show no more wear than the bit started with");
  bad.worn_height.setZero();
  EXPECT_EQ(refusal_of(inspected_run(), bad),
            "wells.yaml:12: calibrate_from: the readings show no more wear than the bit started with");
  for (const Eigen::Index readings : {0, 6, 8}) {
    bad.worn_height = Eigen::ArrayXd::Constant(readings, 1e-3);
    EXPECT_EQ(refusal_of(inspected_run(), bad),
              "wells.yaml:12: calibrate_from: as many readings as the inspected bit has cutters are needed");
  }
  scenario::Scenario idle = inspected_run();
  idle.rules.least_progress = 1e3;
  EXPECT_EQ(refusal_of(idle, good), "wells.yaml:12: calibrate_from: the inspected run does not wear the bit");
}

}  // namespace
}  // namespace dullcast::analysis
