#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>

#include "engine/scenario/library.hpp"
#include "models/letters.hpp"
#include "published/lab_fit.hpp"

// Full-size bits in a laboratory: open data of "ROP Model for PDC Bits in Geothermal Drilling", 55th US Rock
// Mechanics/Geomechanics Symposium (ARMA), 2021. Two numbers are fitted on granite at 100 rpm, 15 deg and 80
// rpm, 25 deg; every other row is predicted.
namespace dullcast {
namespace {

using testing::LabLayout;
using testing::LabModel;
using testing::LabRow;
constexpr double degree = pi / 180.0;

std::vector<LabRow> all_rows() {
  return testing::read_lab_rows(DULLCAST_SOURCE_DIR "/tests/published/lab_full_bit_drilling.csv");
}

bool is_fitted(const LabRow& row) {
  const long rpm = std::lround(60.0 * row.rotary_speed);
  return row.granite() && (rpm == 100 || rpm == 80);
}

std::vector<LabRow> only(const std::vector<LabRow>& rows, bool (*wanted)(const LabRow&)) {
  std::vector<LabRow> chosen;
  std::copy_if(rows.begin(), rows.end(), std::back_inserter(chosen), wanted);
  return chosen;
}

ModelNumbers library_numbers() {
  return read_library(DULLCAST_SOURCE_DIR "/scenarios/library", UnitParser()).models;
}

/// Size of the errors of a set of rows.
struct Errors {
  std::vector<double> speed, weight;  // relative, in ROP at the weight and in weight at the depth of cut
  static double median(std::vector<double> v) {
    for (double& x : v) x = std::abs(x);
    std::sort(v.begin(), v.end());
    const std::size_t n = v.size();
    return n % 2 == 1 ? v[n / 2] : 0.5 * (v[n / 2 - 1] + v[n / 2]);
  }
  static double most(const std::vector<double>& v) {
    double most = 0.0;
    for (double x : v) most = std::max(most, std::abs(x));
    return most;
  }
};

Errors errors_of(const LabModel& model, const std::vector<LabRow>& rows) {
  Errors errors;
  for (const LabRow& row : rows) {
    errors.speed.push_back(model.speed_at(row) / row.speed - 1.0);
    errors.weight.push_back(model.weight_at(row, row.speed / row.rotary_speed) / row.weight - 1.0);
  }
  return errors;
}

void print(const std::string& what, const Errors& e) {
  std::printf("  %-44s %2zu rows  ROP at given weight: median %4.1f %%, max %4.1f %%   ", what.c_str(),
              e.speed.size(), 100.0 * Errors::median(e.speed), 100.0 * Errors::most(e.speed));
  std::printf("weight at given depth of cut: median %4.1f %%, max %4.1f %%\n",
              100.0 * Errors::median(e.weight), 100.0 * Errors::most(e.weight));
}

/// The error table; returns the errors of the predicted rows.
Errors print_table(const LabModel& model) {
  std::map<std::string, std::vector<LabRow>> groups;
  for (const LabRow& row : all_rows())
    groups[(is_fitted(row) ? "fitted     " : "predicted  ") + row.group()].push_back(row);
  for (const auto& [name, rows] : groups) print(name, errors_of(model, rows));
  const Errors predicted =
      errors_of(model, only(all_rows(), [](const LabRow& row) { return !is_fitted(row); }));
  print("all predicted", predicted);
  return predicted;
}

std::vector<LabRow> fitted_rows() {
  return only(all_rows(), is_fitted);
}
std::vector<LabRow> predicted_rows() {
  return only(all_rows(), [](const LabRow& row) { return !is_fitted(row); });
}
std::vector<LabRow> rows_of(const std::string& group) {
  std::vector<LabRow> rows;
  for (const LabRow& row : all_rows())
    if (row.group() == group) rows.push_back(row);
  return rows;
}

/// Other ways to lay out eleven cutters on four blades that no one could call unreasonable.
std::vector<LabLayout> other_layouts() {
  return {
      {"flat: even, no cone, gauge 15 deg", 0.0, 0.6, 15.0 * degree, 1.0, 0.0},
      {"crowded to gauge, swept, cone 12, gauge 60", 12.0 * degree, 0.6, 60.0 * degree, 0.75, 30.0 * degree},
      {"deep: even, cone 15, nose 0.4, gauge 80", 15.0 * degree, 0.4, 80.0 * degree, 1.0, 0.0}};
}

TEST(LabFullBitDrilling, TheFileHasThe35PublishedRows) {
  EXPECT_EQ(all_rows().size(), 35u);
  EXPECT_EQ(fitted_rows().size(), 14u);
  // 2,300 lbf and 9.9 ft/h at 100 rpm: 10.23 kN, 0.503 mm/rev.
  const LabRow row = rows_of("Sierra White granite, 15 deg, 100 rpm").front();
  EXPECT_NEAR(row.weight, 10231.0, 0.5);
  EXPECT_NEAR(row.speed / row.rotary_speed, 0.503e-3, 0.0005e-3);
  EXPECT_NEAR(row.strength, 193.05e6, 0.01e6);
}

TEST(LabFullBitDrilling, TheLibrarysLandAndSlopeAreTheFit) {
  const ModelNumbers numbers = library_numbers();
  LabModel model = testing::library_lab_model(numbers);
  const double left = testing::fit_edge(fitted_rows(), model);
  std::printf(
      "  fitted on %s: land %.4f mm (times contact strength ratio 1.5: %.4f mm), slope of psi %.3f, rms %.1f "
      "%% "
      "of weight\n",
      model.layout.name.c_str(), 1e3 * model.edge.land_reference, 1.5e3 * model.edge.land_reference,
      model.edge.psi_slope, 100.0 * left);
  // Half of the last digit written in the library.
  EXPECT_NEAR(model.edge.land_reference, numbers.land_reference.central, 0.0005e-3);
  EXPECT_NEAR(model.edge.psi_slope, numbers.psi_slope.central, 0.005);
  EXPECT_EQ(numbers.land_reference.mark, "fit");
  EXPECT_EQ(numbers.psi_slope.mark, "fit");
}

TEST(LabFullBitDrilling, TheFitIsALeastSumOfSquares) {
  LabModel model = testing::library_lab_model(library_numbers());
  const auto rms = [&](double land, double slope) {
    LabModel trial = model;
    trial.edge.land_reference = land;
    trial.edge.psi_slope = slope;
    double sum = 0.0;
    for (double error : errors_of(trial, fitted_rows()).weight) sum += error * error;
    return std::sqrt(sum / 14.0);
  };
  const double left = testing::fit_edge(fitted_rows(), model);
  const double land = model.edge.land_reference, slope = model.edge.psi_slope;
  EXPECT_NEAR(rms(land, slope), left, 1e-12);
  EXPECT_GT(rms(1.02 * land, slope), left);
  EXPECT_GT(rms(0.98 * land, slope), left);
  // The slope ends where psi meets its floor at 25 deg: less is worse, more changes nothing.
  EXPECT_GT(rms(land, slope - 0.05), left);
  EXPECT_NEAR(rms(land, slope + 0.5), left, 1e-12);
}

TEST(LabFullBitDrilling, PredictsTheRowsThatItWasNotFittedOn) {
  const LabModel model = testing::library_lab_model(library_numbers());
  std::printf("  library numbers, %s:\n", model.layout.name.c_str());
  const Errors predicted = print_table(model);
  // Recorded medians of |relative error|, to three digits. They are reproducible; the tolerance is the last
  // digit and what cells four times as wide change (below).
  const double same = 0.0015;
  const struct {
    const char* group;
    double speed, weight;
  } recorded[] = {{"Sierra White granite, 15 deg, 150 rpm", 0.257, 0.081},
                  {"Sierra White granite, 25 deg, 120 rpm", 0.154, 0.069},
                  {"Berea sandstone, 15 deg, 100 rpm", 0.048, 0.037},
                  {"Sierra White granite, 15 deg, 100 rpm", 0.068, 0.030},
                  {"Sierra White granite, 25 deg, 80 rpm", 0.177, 0.099}};
  for (const auto& row : recorded) {
    const Errors errors = errors_of(model, rows_of(row.group));
    EXPECT_NEAR(Errors::median(errors.speed), row.speed, same) << row.group;
    EXPECT_NEAR(Errors::median(errors.weight), row.weight, same) << row.group;
  }
  EXPECT_NEAR(Errors::median(predicted.speed), 0.117, same);
  EXPECT_NEAR(Errors::median(predicted.weight), 0.062, same);
  EXPECT_NEAR(Errors::most(predicted.speed), 0.640, same);
  EXPECT_NEAR(Errors::most(predicted.weight), 0.140, same);
  // A rough model with one land came to a median near 25 % in ROP on rows it had not seen.
  EXPECT_LT(Errors::median(predicted.speed), 0.25);

  LabModel coarse = model;
  coarse.spacing_share = 1.0 / 16.0;
  const Errors coarsely = errors_of(coarse, predicted_rows());
  EXPECT_NEAR(Errors::median(coarsely.speed), Errors::median(predicted.speed), 0.001);
  EXPECT_NEAR(Errors::median(coarsely.weight), Errors::median(predicted.weight), 0.001);
}

TEST(LabFullBitDrilling, BeatsAModelOfSharpCuttersOnly) {
  const LabModel model = testing::library_lab_model(library_numbers());
  LabModel sharp = model;
  sharp.edge.land_reference = 0.0;
  sharp.edge_radius = 1e-9;
  const Errors with_land = errors_of(model, predicted_rows()), without = errors_of(sharp, predicted_rows());
  print("sharp cutters only, predicted", without);
  EXPECT_LT(4.0 * Errors::median(with_land.weight), Errors::median(without.weight));
  EXPECT_LT(4.0 * Errors::median(with_land.speed), Errors::median(without.speed));
  for (double error : without.speed) EXPECT_GT(error, 0.0) << "sharp cutters must drill too fast";
}

TEST(LabFullBitDrilling, SensitivityToTheUnpublishedLayout) {
  const ModelNumbers numbers = library_numbers();
  std::vector<LabLayout> layouts = other_layouts();
  for (const LabLayout& layout : layouts) {
    LabModel model = testing::library_lab_model(numbers);
    model.layout = layout;
    const double left = testing::fit_edge(fitted_rows(), model);
    std::printf("  %s: land %.3f mm, slope %.2f, rms %.1f %%\n", layout.name.c_str(),
                1e3 * model.edge.land_reference, model.edge.psi_slope, 100.0 * left);
    const Errors predicted = print_table(model);
    // The library's spread must hold what another layout would have given.
    EXPECT_GT(model.edge.land_reference, numbers.land_reference.low) << layout.name;
    EXPECT_LT(model.edge.land_reference, numbers.land_reference.high) << layout.name;
    EXPECT_GE(model.edge.psi_slope, numbers.psi_slope.low) << layout.name;
    EXPECT_LE(model.edge.psi_slope, numbers.psi_slope.high) << layout.name;
    // No layout makes or breaks the prediction: within three points of the usual one's median.
    EXPECT_NEAR(Errors::median(predicted.speed), 0.117, 0.03) << layout.name;
    EXPECT_NEAR(Errors::median(predicted.weight), 0.062, 0.035) << layout.name;
  }
}

TEST(LabFullBitDrilling, SensitivityToTheGranitesStrengthAndToTheFloorOfPsi) {
  const ModelNumbers numbers = library_numbers();
  // The same granite is given 150 MPa by Ye & Ghassemi 2018 [pub].
  LabModel softer = testing::library_lab_model(numbers);
  softer.granite_strength = 150e6;
  const double left = testing::fit_edge(fitted_rows(), softer);
  std::printf("  granite at 150 MPa: land %.3f mm, slope %.2f, rms %.1f %%\n",
              1e3 * softer.edge.land_reference, softer.edge.psi_slope, 100.0 * left);
  print_table(softer);
  EXPECT_LT(softer.edge.land_reference, numbers.land_reference.high);
  // Without the floor of 5 deg the 25 deg bit would ask for a psi below 0: the floor is what ends the slope.
  LabModel unfloored = testing::library_lab_model(numbers);
  unfloored.edge.psi_least = -10.0 * degree;
  const double left_unfloored = testing::fit_edge(fitted_rows(), unfloored);
  std::printf("  psi not floored: land %.3f mm, slope %.2f, rms %.1f %%\n",
              1e3 * unfloored.edge.land_reference, unfloored.edge.psi_slope, 100.0 * left_unfloored);
  print_table(unfloored);
  EXPECT_GT(unfloored.edge.psi_slope, numbers.psi_slope.central);
  EXPECT_LE(unfloored.edge.psi_slope, numbers.psi_slope.high);
}

TEST(LabFullBitDrilling, ARateIndependentLawIsTooStiffAtTheHigherSpeeds) {
  // The laboratory's slopes of weight against depth of cut rise by 10 to 20 % from 100 to 150 and from 80 to
  // 120 rpm; the law has no speed in it and so must need less weight than measured at the faster rows'
  // middle.
  const LabModel model = testing::library_lab_model(library_numbers());
  for (const char* group :
       {"Sierra White granite, 15 deg, 150 rpm", "Sierra White granite, 25 deg, 120 rpm"}) {
    const Errors errors = errors_of(model, rows_of(group));
    double mean = 0.0;
    for (double error : errors.weight) mean += error / static_cast<double>(errors.weight.size());
    EXPECT_LT(mean, 0.0) << group;
  }
}

}  // namespace
}  // namespace dullcast
