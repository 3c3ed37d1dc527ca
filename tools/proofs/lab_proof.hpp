#pragma once

#include <string>
#include <vector>

#include "tools/proofs/lab_model.hpp"
#include "tools/proofs/line.hpp"

/// Full-bit laboratory drilling: two numbers of the force law are fitted on 14 rows, 21 are predicted.
namespace dullcast::proofs {

/// Whether a row takes part in the fit: granite at 100 rpm, 15 deg and at 80 rpm, 25 deg.
bool is_fitted(const LabRow& row);

std::vector<LabRow> fitted_of(const std::vector<LabRow>& rows);
std::vector<LabRow> predicted_of(const std::vector<LabRow>& rows);

/// Errors of a set of rows, relative to the measurement.
struct LabErrors {
  std::vector<double> speed;   // in rate of penetration at the measured weight
  std::vector<double> weight;  // in weight at the measured depth of cut
};
LabErrors errors_of(const LabModel& model, const std::vector<LabRow>& rows);

/// Median, greatest and mean. Of absolute values, but for the mean, which keeps the sign. NaN of nothing.
double median_size(std::vector<double> errors);
double greatest_size(const std::vector<double>& errors);
double mean_of(const std::vector<double>& errors);

/// Other ways to lay out the published cutters on the published blades that no one could call unreasonable:
/// profile, spacing, sweep, order of blades, cutters that only ream, and cutter diameters within what two
/// published decimals of an inch leave open. The usual one is the first.
std::vector<LabLayout> reasonable_layouts();

/// One layout: refitted on the fitted rows, its errors on the predicted rows.
struct LabTrial {
  std::string name;
  double land = 0.0, psi_slope = 0.0;  // m, 1: as fitted
  double fit_rms = 0.0;                // 1, of weight on the fitted rows
  LabErrors predicted;
};
LabTrial try_layout(const std::vector<LabRow>& rows, const scenario::ModelNumbers& numbers,
                    const LabLayout& layout);

/// What is claimed: the greatest median error of the predicted rates of penetration.
inline constexpr double claimed_median = 0.20;

/// The section and what the figures need.
struct LabProof {
  std::vector<LabRow> rows;
  LabErrors errors;  // of every row, with the library's numbers
  std::vector<LabTrial> layouts;
  std::vector<LabTrial> others;  // the usual layout, something else unpublished changed
  std::vector<Section> sections;
};
LabProof prove_lab(const std::vector<LabRow>& rows, const scenario::ModelNumbers& numbers);

std::string lab_rows_csv(const LabProof& proof);
std::string lab_layouts_csv(const LabProof& proof);

}  // namespace dullcast::proofs
