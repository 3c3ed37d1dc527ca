#pragma once

#include <string>
#include <vector>

#include "tools/proofs/lab_model.hpp"
#include "tools/proofs/line.hpp"

/// Full-bit laboratory drilling: three numbers of the force law are fitted on 35 rows. Each of the five
/// groups (rock, back rake, speed) is also kept back in turn and predicted by the numbers that the other four
/// give.
namespace dullcast::proofs {

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

/// The numbers that the rows without one group give, and that group's errors with them.
struct LabFold {
  std::string group;                                   // kept back
  double land = 0.0, psi_slope = 0.0, exponent = 0.0;  // m, 1, 1: as fitted
  LabErrors errors;                                    // of the group's rows, in the rows' order
};
std::vector<LabFold> keep_back(const std::vector<LabRow>& rows, const LabModel& model);

/// Errors of all folds together, in the rows' order.
LabErrors kept_back_errors(const std::vector<LabRow>& rows, const std::vector<LabFold>& folds);

/// One way to model the laboratory's bits: fitted on all rows, and the errors of the rows kept back.
struct LabTrial {
  std::string name;
  double land = 0.0, psi_slope = 0.0, exponent = 0.0;  // m, 1, 1: as fitted
  double fit_rms = 0.0;                                // 1, of weight
  LabErrors predicted;
};
LabTrial try_model(const std::vector<LabRow>& rows, LabModel model, const std::string& name);

/// What is claimed: the greatest median error of the predicted rates of penetration.
inline constexpr double claimed_median = 0.20;

/// The section and what the figures need.
struct LabProof {
  std::vector<LabRow> rows;
  LabErrors errors;     // of every row, with the library's numbers
  LabErrors kept_back;  // of every row, with the numbers that the other groups give
  std::vector<LabTrial> layouts;
  std::vector<LabTrial> others;  // the usual layout, something else unpublished changed
  std::vector<Section> sections;
};
LabProof prove_lab(const std::vector<LabRow>& rows, const scenario::ModelNumbers& numbers);

std::string lab_rows_csv(const LabProof& proof);
std::string lab_layouts_csv(const LabProof& proof);

}  // namespace dullcast::proofs
