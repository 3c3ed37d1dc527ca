#include "tools/proofs/lab_proof.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "models/common/constants.hpp"

namespace dullcast::proofs {
namespace {

constexpr double degree = pi / 180.0;
constexpr double foot_per_hour = 0.3048 / 3600.0, pound_force = 4.4482216152605;
const std::string source = "ARMA 2021 open data";

/// Twice per row: rate of penetration at its weight, weight at its depth of cut. Each is held against the
/// share of error that is claimed for the median, so a row beyond it is listed as failing.
void add_row_lines(Section& section, const LabRow& row, double speed_error, double weight_error,
                   Standing standing) {
  const double feet = row.speed / foot_per_hour, pounds = row.weight / pound_force;
  section.lines.push_back(number_line(row.group() + number_words(", %.0f lbf: ROP", pounds), source,
                                      "%.1f ft/h", feet, feet * (1.0 + speed_error), claimed_median * feet,
                                      standing));
  section.lines.push_back(
      number_line(row.group() + number_words(", %.2f mm/rev: weight", 1e3 * row.depth_of_cut()), source,
                  "%.0f lbf", pounds, pounds * (1.0 + weight_error), claimed_median * pounds, standing));
}

Line median_line(const std::string& what, const std::vector<double>& errors, Standing standing) {
  const double median = median_size(errors);
  return {what + number_words(" (%.0f rows)", static_cast<double>(errors.size())),
          source,
          number_words("median <= %.0f %%", 100.0 * claimed_median),
          number_words("median %.1f %%", 100.0 * median) +
              number_words(", worst %.1f %%", 100.0 * greatest_size(errors)),
          number_words("mean %+.1f %%", 100.0 * mean_of(errors)),
          standing,
          median <= claimed_median};
}

Section rows_section(const std::vector<LabRow>& rows, const LabErrors& errors, Standing standing) {
  Section section;
  const bool fitted = standing == Standing::fitted;
  section.title = fitted ? "1a Full-bit laboratory drilling: with the numbers fitted on all rows"
                         : "1b Full-bit laboratory drilling: each group kept back";
  section.notes = {
      fitted
          ? "Three numbers (land of the edge, slope of psi, exponent of the rate) were fitted on these rows' "
            "weights at measured depths of cut: no prediction."
          : "Each group is predicted by the numbers that the other groups give. A line holds within 20 % of "
            "the measurement."};
  for (std::size_t i = 0; i < rows.size(); ++i)
    add_row_lines(section, rows[i], errors.speed[i], errors.weight[i], standing);
  section.lines.push_back(median_line("all: ROP at measured weight", errors.speed, standing));
  section.lines.push_back(median_line("all: weight at measured depth of cut", errors.weight, standing));
  return section;
}

/// A straight line through weights over depths of cut, by least squares.
struct Slope {
  double value = 0.0;           // N per m/rev
  double standard_error = 0.0;  // of the same, from the scatter about the line
  double share() const { return standard_error / value; }
};

Slope slope_of(const std::vector<LabRow>& rows, const std::function<double(const LabRow&)>& weight) {
  const auto n = static_cast<double>(rows.size());
  double mean_d = 0.0, mean_w = 0.0, square = 0.0, product = 0.0, residual = 0.0;
  for (const LabRow& row : rows) mean_d += row.depth_of_cut() / n, mean_w += weight(row) / n;
  for (const LabRow& row : rows) {
    const double d = row.depth_of_cut() - mean_d;
    square += d * d;
    product += d * (weight(row) - mean_w);
  }
  const double slope = product / square;
  for (const LabRow& row : rows) {
    const double off = weight(row) - mean_w - slope * (row.depth_of_cut() - mean_d);
    residual += off * off;
  }
  return {slope, std::sqrt(residual / (n - 2.0) / square)};
}

std::map<std::string, std::vector<LabRow>> groups_of(const std::vector<LabRow>& rows) {
  std::map<std::string, std::vector<LabRow>> groups;
  for (const LabRow& row : rows) groups[row.group()].push_back(row);
  return groups;
}

/// The measured slope of weight over depth of cut at the faster speed over that at the slower, against the
/// model's.
Line rate_line(const std::map<std::string, std::vector<LabRow>>& groups, const LabModel& model,
               const std::string& slow, const std::string& fast) {
  const auto measured = [](const LabRow& row) { return row.weight; };
  const auto modelled = [&](const LabRow& row) { return model.weight_at(row, row.depth_of_cut()); };
  const auto& a = groups.at(slow);
  const auto& b = groups.at(fast);
  const Slope slower = slope_of(a, measured), faster = slope_of(b, measured);
  const double found = faster.value / slower.value;
  const double ours = slope_of(b, modelled).value / slope_of(a, modelled).value;
  const double margin = 2.0 * found * std::hypot(slower.share(), faster.share());
  Line line = number_line("slope of weight over depth of cut, faster over slower: " + fast + " over " +
                              slow.substr(slow.rfind(',') + 2),
                          source, "x %.3f", found, ours, margin, Standing::fitted);
  line.published += number_words(" +- %.3f", margin);
  return line;
}

Section groups_section(const std::vector<LabRow>& rows, const std::vector<LabFold>& folds,
                       const LabModel& model) {
  Section section;
  section.title = "1c Groups kept back, and what speed does";
  section.notes = {
      "A slope line compares the fitted numbers and holds within two standard errors of the measured "
      "ratio."};
  for (const LabFold& fold : folds) {
    section.notes.push_back(fold.group + number_words(" kept back: land %.3f mm", 1e3 * fold.land) +
                            number_words(", psi slope %.2f", fold.psi_slope) +
                            number_words(", exponent %.3f", fold.exponent) +
                            number_words(": ROP %+.1f %% on average", 100.0 * mean_of(fold.errors.speed)) +
                            number_words(", weight %+.1f %%.", 100.0 * mean_of(fold.errors.weight)));
    section.lines.push_back(median_line(fold.group + ": ROP", fold.errors.speed, Standing::predicted));
    section.lines.push_back(median_line(fold.group + ": weight", fold.errors.weight, Standing::predicted));
  }
  const auto groups = groups_of(rows);
  section.lines.push_back(rate_line(groups, model, "Sierra White granite, 15 deg, 100 rpm",
                                    "Sierra White granite, 15 deg, 150 rpm"));
  section.lines.push_back(rate_line(groups, model, "Sierra White granite, 25 deg, 80 rpm",
                                    "Sierra White granite, 25 deg, 120 rpm"));
  return section;
}

Line trial_line(const LabTrial& trial) {
  Line line = median_line(trial.name, trial.predicted.speed, Standing::predicted);
  line.what = trial.name + number_words(": land %.3f mm", 1e3 * trial.land) +
              number_words(", psi slope %.2f", trial.psi_slope) +
              number_words(", exponent %.3f", trial.exponent);
  line.model += number_words("; weight median %.1f %%", 100.0 * median_size(trial.predicted.weight));
  return line;
}

}  // namespace

std::vector<LabFold> keep_back(const std::vector<LabRow>& rows, const LabModel& model) {
  std::vector<LabFold> folds;
  for (const auto& [group, own] : groups_of(rows)) {
    std::vector<LabRow> others;
    for (const LabRow& row : rows)
      if (row.group() != group) others.push_back(row);
    LabModel fitted = model;
    fit_edge(others, fitted);
    folds.push_back({group, fitted.edge.land_reference, fitted.edge.psi_slope, fitted.rate.exponent,
                     errors_of(fitted, own)});
  }
  return folds;
}

LabErrors kept_back_errors(const std::vector<LabRow>& rows, const std::vector<LabFold>& folds) {
  LabErrors errors;
  std::map<std::string, std::size_t> used;
  for (const LabRow& row : rows) {
    const auto fold = std::find_if(folds.begin(), folds.end(),
                                   [&](const LabFold& one) { return one.group == row.group(); });
    const std::size_t k = used[row.group()]++;
    errors.speed.push_back(fold->errors.speed.at(k));
    errors.weight.push_back(fold->errors.weight.at(k));
  }
  return errors;
}

LabTrial try_model(const std::vector<LabRow>& rows, LabModel model, const std::string& name) {
  LabTrial trial;
  trial.name = name;
  trial.predicted = kept_back_errors(rows, keep_back(rows, model));
  trial.fit_rms = fit_edge(rows, model);
  trial.land = model.edge.land_reference;
  trial.psi_slope = model.edge.psi_slope;
  trial.exponent = model.rate.exponent;
  return trial;
}

LabErrors errors_of(const LabModel& model, const std::vector<LabRow>& rows) {
  LabErrors errors;
  for (const LabRow& row : rows) {
    errors.speed.push_back(model.speed_at(row) / row.speed - 1.0);
    errors.weight.push_back(model.weight_at(row, row.depth_of_cut()) / row.weight - 1.0);
  }
  return errors;
}

double median_size(std::vector<double> errors) {
  if (errors.empty()) return std::numeric_limits<double>::quiet_NaN();
  for (double& error : errors) {
    if (std::isnan(error)) return error;
    error = std::abs(error);
  }
  std::sort(errors.begin(), errors.end());
  const std::size_t n = errors.size();
  return n % 2 == 1 ? errors[n / 2] : 0.5 * (errors[n / 2 - 1] + errors[n / 2]);
}

double greatest_size(const std::vector<double>& errors) {
  double most = errors.empty() ? std::numeric_limits<double>::quiet_NaN() : 0.0;
  for (const double error : errors) {
    if (std::isnan(error)) return error;
    most = std::max(most, std::abs(error));
  }
  return most;
}

double mean_of(const std::vector<double>& errors) {
  double sum = 0.0;
  for (const double error : errors) sum += error;
  return sum / static_cast<double>(errors.size());
}

std::vector<LabLayout> reasonable_layouts() {
  // Half of the last digit of the published cutter diameters (0.43 and 0.51 in).
  constexpr double half_digit = 0.005 * 0.0254;
  const auto with = [](const char* name, auto change) {
    LabLayout layout = usual_lab_layout();
    layout.name = name;
    change(layout);
    return layout;
  };
  return {with("usual: even, cone 10 deg, nose 0.6, gauge 75 deg", [](LabLayout&) {}),
          with("flat: no cone, gauge 15 deg",
               [](LabLayout& l) { l.cone_angle = 0.0, l.gauge_angle = 15.0 * degree; }),
          with("crowded to gauge, swept 30 deg, cone 12, gauge 60 deg",
               [](LabLayout& l) {
                 l.cone_angle = 12.0 * degree, l.gauge_angle = 60.0 * degree, l.crowding = 0.75;
                 l.wing_sweep = 30.0 * degree;
               }),
          with("deep: cone 15 deg, nose 0.4, gauge 80 deg",
               [](LabLayout& l) {
                 l.cone_angle = 15.0 * degree, l.nose_share = 0.4, l.gauge_angle = 80.0 * degree;
               }),
          with("nose far out, 0.75", [](LabLayout& l) { l.nose_share = 0.75; }),
          with("steep cone, 20 deg", [](LabLayout& l) { l.cone_angle = 20.0 * degree; }),
          with("crowded to the axis", [](LabLayout& l) { l.crowding = 1.1; }),
          with("one of the 11 cutters on gauge, only reaming", [](LabLayout& l) { l.not_cutting = 1; }),
          with("three of the 11 cutters on gauge, only reaming", [](LabLayout& l) { l.not_cutting = 3; }),
          with("the blade of two cutters first", [](LabLayout& l) { l.short_blade_first = true; }),
          with("cutters half a last digit larger", [](LabLayout& l) { l.diameter_change = half_digit; }),
          with("cutters half a last digit smaller", [](LabLayout& l) { l.diameter_change = -half_digit; })};
}

LabProof prove_lab(const std::vector<LabRow>& rows, const scenario::ModelNumbers& numbers) {
  LabProof proof;
  proof.rows = rows;
  const LabModel model = library_lab_model(numbers);
  proof.errors = errors_of(model, rows);
  const std::vector<LabFold> folds = keep_back(rows, model);
  proof.kept_back = kept_back_errors(rows, folds);
  proof.sections.push_back(rows_section(rows, proof.errors, Standing::fitted));
  proof.sections.push_back(rows_section(rows, proof.kept_back, Standing::predicted));
  proof.sections.push_back(groups_section(rows, folds, model));

  Section layouts;
  layouts.title = "1d Sensitivity to the unpublished cutter layout, and to what else was not published";
  layouts.notes = {"Each is refitted on all rows; errors are of groups kept back."};
  for (const LabLayout& layout : reasonable_layouts()) {
    LabModel other = model;
    other.layout = layout;
    proof.layouts.push_back(try_model(rows, other, layout.name));
    layouts.lines.push_back(trial_line(proof.layouts.back()));
  }
  LabModel softer = model;
  softer.granite_strength = 150e6;  // Ye & Ghassemi 2018 [pub] give the same granite this strength
  proof.others.push_back(try_model(rows, softer, "granite at 150 MPa instead of 193"));
  LabModel unfloored = model;
  unfloored.edge.psi_least = -10.0 * degree;
  proof.others.push_back(try_model(rows, unfloored, "psi without its floor of 5 deg"));
  LabModel steady = model;
  steady.rate.exponent = 0.0;
  steady.fits_rate = false;
  proof.others.push_back(try_model(rows, steady, "strength that follows neither speed nor depth"));
  for (const LabTrial& trial : proof.others) layouts.lines.push_back(trial_line(trial));
  proof.sections.push_back(layouts);
  return proof;
}

std::string lab_rows_csv(const LabProof& proof) {
  std::string text =
      csv_row({"rock", "back_rake_deg", "rpm", "weight_n", "weight_fitted_n", "weight_kept_back_n",
               "rop_m_per_h", "rop_fitted_m_per_h", "rop_kept_back_m_per_h", "depth_of_cut_mm"});
  for (std::size_t i = 0; i < proof.rows.size(); ++i) {
    const LabRow& row = proof.rows[i];
    text += csv_row({row.rock, number_words("%.0f", row.back_rake / degree),
                     number_words("%.0f", 60.0 * row.rotary_speed), number_words("%.6g", row.weight),
                     number_words("%.6g", row.weight * (1.0 + proof.errors.weight[i])),
                     number_words("%.6g", row.weight * (1.0 + proof.kept_back.weight[i])),
                     number_words("%.6g", 3600.0 * row.speed),
                     number_words("%.6g", 3600.0 * row.speed * (1.0 + proof.errors.speed[i])),
                     number_words("%.6g", 3600.0 * row.speed * (1.0 + proof.kept_back.speed[i])),
                     number_words("%.6g", 1e3 * row.depth_of_cut())});
  }
  return text;
}

std::string lab_layouts_csv(const LabProof& proof) {
  std::string text =
      csv_row({"what", "kind", "land_mm", "psi_slope", "exponent", "fit_rms", "rop_median_error",
               "rop_worst_error", "weight_median_error", "weight_worst_error"});
  const auto add = [&](const LabTrial& trial, const char* kind) {
    text += csv_row({trial.name, kind, number_words("%.4f", 1e3 * trial.land),
                     number_words("%.3f", trial.psi_slope), number_words("%.4f", trial.exponent),
                     number_words("%.5f", trial.fit_rms),
                     number_words("%.5f", median_size(trial.predicted.speed)),
                     number_words("%.5f", greatest_size(trial.predicted.speed)),
                     number_words("%.5f", median_size(trial.predicted.weight)),
                     number_words("%.5f", greatest_size(trial.predicted.weight))});
  };
  for (const LabTrial& trial : proof.layouts) add(trial, "layout");
  for (const LabTrial& trial : proof.others) add(trial, "other");
  return text;
}

}  // namespace dullcast::proofs
