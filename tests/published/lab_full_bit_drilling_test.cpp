#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>

#include "engine/input/library.hpp"
#include "models/common/constants.hpp"
#include "tools/proofs/lab_proof.hpp"

// Full-size bits in a laboratory: open data of "ROP Model for PDC Bits in Geothermal Drilling", 55th US Rock
// Mechanics/Geomechanics Symposium (ARMA), 2021. Two numbers are fitted on granite at 100 rpm, 15 deg and 80
// rpm, 25 deg; every other row is predicted.
namespace dullcast::published {
namespace {

using proofs::errors_of;
using proofs::is_fitted;
using proofs::LabLayout;
using proofs::LabModel;
using proofs::LabRow;
using Errors = proofs::LabErrors;
constexpr double degree = pi / 180.0;

std::vector<LabRow> all_rows() {
  return proofs::read_lab_rows(DULLCAST_SOURCE_DIR "/tests/published/lab_full_bit_drilling.csv");
}

scenario::ModelNumbers library_numbers() {
  return input::read_library(DULLCAST_SOURCE_DIR "/scenarios/library", input::UnitParser()).models;
}

void print(const std::string& what, const Errors& e) {
  std::printf("  %-44s %2zu rows  ROP at given weight: median %4.1f %%, max %4.1f %%   ", what.c_str(),
              e.speed.size(), 100.0 * proofs::median_size(e.speed), 100.0 * proofs::greatest_size(e.speed));
  std::printf("weight at given depth of cut: median %4.1f %%, max %4.1f %%\n",
              100.0 * proofs::median_size(e.weight), 100.0 * proofs::greatest_size(e.weight));
}

/// The error table; returns the errors of the predicted rows.
Errors print_table(const LabModel& model) {
  std::map<std::string, std::vector<LabRow>> groups;
  for (const LabRow& row : all_rows())
    groups[(is_fitted(row) ? "fitted     " : "predicted  ") + row.group()].push_back(row);
  for (const auto& [name, rows] : groups) print(name, errors_of(model, rows));
  const Errors predicted = errors_of(model, proofs::predicted_of(all_rows()));
  print("all predicted", predicted);
  return predicted;
}

std::vector<LabRow> fitted_rows() {
  return proofs::fitted_of(all_rows());
}
std::vector<LabRow> predicted_rows() {
  return proofs::predicted_of(all_rows());
}
std::vector<LabRow> rows_of(const std::string& group) {
  std::vector<LabRow> rows;
  for (const LabRow& row : all_rows())
    if (row.group() == group) rows.push_back(row);
  return rows;
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
  const scenario::ModelNumbers numbers = library_numbers();
  LabModel model = proofs::library_lab_model(numbers);
  const double left = proofs::fit_edge(fitted_rows(), model);
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
  LabModel model = proofs::library_lab_model(library_numbers());
  const auto rms = [&](double land, double slope) {
    LabModel trial = model;
    trial.edge.land_reference = land;
    trial.edge.psi_slope = slope;
    double sum = 0.0;
    for (double error : errors_of(trial, fitted_rows()).weight) sum += error * error;
    return std::sqrt(sum / 14.0);
  };
  const double left = proofs::fit_edge(fitted_rows(), model);
  const double land = model.edge.land_reference, slope = model.edge.psi_slope;
  EXPECT_NEAR(rms(land, slope), left, 1e-12);
  EXPECT_GT(rms(1.02 * land, slope), left);
  EXPECT_GT(rms(0.98 * land, slope), left);
  // The slope ends where psi meets its floor at 25 deg: less is worse, more changes nothing.
  EXPECT_GT(rms(land, slope - 0.05), left);
  EXPECT_NEAR(rms(land, slope + 0.5), left, 1e-12);
}

TEST(LabFullBitDrilling, PredictsTheRowsThatItWasNotFittedOn) {
  const LabModel model = proofs::library_lab_model(library_numbers());
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
    EXPECT_NEAR(proofs::median_size(errors.speed), row.speed, same) << row.group;
    EXPECT_NEAR(proofs::median_size(errors.weight), row.weight, same) << row.group;
  }
  EXPECT_NEAR(proofs::median_size(predicted.speed), 0.117, same);
  EXPECT_NEAR(proofs::median_size(predicted.weight), 0.062, same);
  EXPECT_NEAR(proofs::greatest_size(predicted.speed), 0.640, same);
  EXPECT_NEAR(proofs::greatest_size(predicted.weight), 0.140, same);
  // A rough model with one land came to a median near 25 % in ROP on rows it had not seen.
  EXPECT_LT(proofs::median_size(predicted.speed), 0.25);

  LabModel coarse = model;
  coarse.spacing_share = 1.0 / 16.0;
  const Errors coarsely = errors_of(coarse, predicted_rows());
  EXPECT_NEAR(proofs::median_size(coarsely.speed), proofs::median_size(predicted.speed), 0.001);
  EXPECT_NEAR(proofs::median_size(coarsely.weight), proofs::median_size(predicted.weight), 0.001);
}

TEST(LabFullBitDrilling, BeatsAModelOfSharpCuttersOnly) {
  const LabModel model = proofs::library_lab_model(library_numbers());
  LabModel sharp = model;
  sharp.edge.land_reference = 0.0;
  sharp.edge_radius = 1e-9;
  const Errors with_land = errors_of(model, predicted_rows()), without = errors_of(sharp, predicted_rows());
  print("sharp cutters only, predicted", without);
  EXPECT_LT(4.0 * proofs::median_size(with_land.weight), proofs::median_size(without.weight));
  EXPECT_LT(4.0 * proofs::median_size(with_land.speed), proofs::median_size(without.speed));
  for (double error : without.speed) EXPECT_GT(error, 0.0) << "sharp cutters must drill too fast";
}

TEST(LabFullBitDrilling, SensitivityToTheUnpublishedLayout) {
  const scenario::ModelNumbers numbers = library_numbers();
  const std::vector<LabLayout> layouts = proofs::reasonable_layouts();
  ASSERT_GE(layouts.size(), 6u);
  for (const LabLayout& layout : layouts) {
    LabModel model = proofs::library_lab_model(numbers);
    model.layout = layout;
    const double left = proofs::fit_edge(fitted_rows(), model);
    std::printf("  %s: land %.3f mm, slope %.2f, rms %.1f %%\n", layout.name.c_str(),
                1e3 * model.edge.land_reference, model.edge.psi_slope, 100.0 * left);
    const Errors predicted = print_table(model);
    // The library's spread must hold what another layout would have given.
    EXPECT_GT(model.edge.land_reference, numbers.land_reference.low) << layout.name;
    EXPECT_LT(model.edge.land_reference, numbers.land_reference.high) << layout.name;
    EXPECT_GE(model.edge.psi_slope, numbers.psi_slope.low) << layout.name;
    EXPECT_LE(model.edge.psi_slope, numbers.psi_slope.high) << layout.name;
    // No layout makes or breaks the prediction: within three points of the usual one's median.
    EXPECT_NEAR(proofs::median_size(predicted.speed), 0.117, 0.03) << layout.name;
    EXPECT_NEAR(proofs::median_size(predicted.weight), 0.062, 0.035) << layout.name;
  }
}

TEST(LabFullBitDrilling, SensitivityToTheGranitesStrengthAndToTheFloorOfPsi) {
  const scenario::ModelNumbers numbers = library_numbers();
  // The same granite is given 150 MPa by Ye & Ghassemi 2018 [pub].
  LabModel softer = proofs::library_lab_model(numbers);
  softer.granite_strength = 150e6;
  const double left = proofs::fit_edge(fitted_rows(), softer);
  std::printf("  granite at 150 MPa: land %.3f mm, slope %.2f, rms %.1f %%\n",
              1e3 * softer.edge.land_reference, softer.edge.psi_slope, 100.0 * left);
  print_table(softer);
  EXPECT_LT(softer.edge.land_reference, numbers.land_reference.high);
  // Without the floor of 5 deg the 25 deg bit would ask for a psi below 0: the floor is what ends the slope.
  LabModel unfloored = proofs::library_lab_model(numbers);
  unfloored.edge.psi_least = -10.0 * degree;
  const double left_unfloored = proofs::fit_edge(fitted_rows(), unfloored);
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
  const LabModel model = proofs::library_lab_model(library_numbers());
  for (const char* group :
       {"Sierra White granite, 15 deg, 150 rpm", "Sierra White granite, 25 deg, 120 rpm"}) {
    const Errors errors = errors_of(model, rows_of(group));
    double mean = 0.0;
    for (double error : errors.weight) mean += error / static_cast<double>(errors.weight.size());
    EXPECT_LT(mean, 0.0) << group;
  }
}

}  // namespace
}  // namespace dullcast::published
