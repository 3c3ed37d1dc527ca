#include "engine/analysis/calibrate.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>
#include <string>

#include "engine/analysis/layer_hole.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::analysis {
namespace {

/// Mean over the measured cutters.
double measured_mean(const Eigen::ArrayXd& values, const Eigen::ArrayXd& readings, double& count) {
  double sum = 0.0;
  count = 0.0;
  for (Eigen::Index i = 0; i < readings.size(); ++i) {
    if (!std::isfinite(readings(i))) continue;
    sum += values(i);
    count += 1.0;
  }
  return sum / count;
}

/// Readings against a run: what is sought of it.
struct Reading {
  const scenario::Inspection& inspection;
  std::string place;      // of the readings, for messages
  double measured = 0.0;  // m, mean of the measured cutters
  double at_start = 0.0;  // m, their mean when the run began
  double count = 0.0;     // measured cutters
};

/// A run whose mean worn height is that measured, and the factor on the abrasion coefficient that makes it
/// so.
struct Match {
  double factor = 1.0;
  simulation::RunOutcome outcome;
};

/// Secant in ln(gain) against ln(factor), from the guess that wear is proportional to the coefficient; at
/// another central share of cutting where one is given.
Match match_mean(const scenario::Scenario& scenario, const Reading& reading, std::optional<double> share,
                 double guess, const simulation::Progress& progress) {
  constexpr int most_trials = 12;
  constexpr double close_enough = 1e-4;
  Match match;
  match.factor = guess;
  InspectionEvidence tried;
  if (share) {
    tried.cutting_wear_share = scenario.numbers.cutting_wear_share;
    tried.cutting_wear_share->central = *share;
  }
  double slope = 1.0, last_log_factor = 0.0, last_log_gain = 0.0, count = 0.0;
  for (int trial = 0;; ++trial) {
    tried.coefficient_factor = match.factor;
    match.outcome = simulation::run(with_evidence(scenario, tried), progress);
    const double gain = measured_mean(match.outcome.end.worn_height, reading.inspection.worn_height, count) -
                        reading.at_start;
    if (!(gain > 0.0))
      throw std::invalid_argument(reading.place + "calibrate_from: the inspected run does not wear the bit");
    const double miss = std::log((reading.measured - reading.at_start) / gain);
    if (std::abs(miss) < close_enough) return match;
    if (trial == most_trials) {
      throw std::invalid_argument(reading.place +
                                  "calibrate_from: no abrasion coefficient reproduces the readings");
    }
    const double log_gain = std::log(gain), log_factor = std::log(match.factor);
    if (trial > 0 && log_factor != last_log_factor) {
      const double seen = (log_gain - last_log_gain) / (log_factor - last_log_factor);
      if (seen > 0.2 && seen < 5.0) slope = seen;
    }
    last_log_factor = log_factor;
    last_log_gain = log_gain;
    match.factor *= std::exp(miss / slope);
  }
}

/// What the cutters' pattern says of the share of cutting in their wear, the mean being matched: one step of
/// Gauss and Newton in its logarithm from `share`, with the library's spread as prior. Nothing where the
/// readings narrow that spread by less than half.
std::optional<scenario::Quantity> told_share(const scenario::Scenario& scenario, const Reading& reading,
                                             double share, const Match& here,
                                             const simulation::Progress& progress) {
  const scenario::Quantity& prior = scenario.numbers.cutting_wear_share;
  if (!(prior.low > 0.0) || !(prior.high > prior.low)) return std::nullopt;
  const double spread = std::log(prior.high / prior.low) / (2.0 * ninety_percent_point);
  const double step = 0.5;  // of ln(share): wide of the runs' own errors
  Match moved;
  try {
    moved = match_mean(scenario, reading, share * std::exp(step), here.factor, progress);
  } catch (const std::invalid_argument&) {
    return std::nullopt;  // another share does not reach these readings
  }
  const Eigen::ArrayXd& readings = reading.inspection.worn_height;
  double squares = 0.0, product = 0.0, slopes = 0.0;
  for (Eigen::Index i = 0; i < readings.size(); ++i) {
    if (!std::isfinite(readings(i))) continue;
    const double miss = readings(i) - here.outcome.end.worn_height(i);
    const double slope = (moved.outcome.end.worn_height(i) - here.outcome.end.worn_height(i)) / step;
    squares += miss * miss;
    product += miss * slope;
    slopes += slope * slope;
  }
  if (!(slopes > 0.0) || !(reading.count > 2.0)) return std::nullopt;
  // What no share explains is the readings' scatter, if that is more than their stated error.
  const double error = reading.inspection.measurement_error;
  const double left = std::max(0.0, squares - product * product / slopes) / (reading.count - 2.0);
  const double variance = std::max({error * error, left, 1e-12 * squares});
  const double weight = slopes / variance + 1.0 / (spread * spread);
  const double from_prior = std::log(share / prior.central) / (spread * spread);
  const double width = 1.0 / std::sqrt(weight);
  if (width > 0.5 * spread) return std::nullopt;
  const double move = std::clamp((product / variance - from_prior) / weight, -1.0, 1.0);
  scenario::Quantity told = prior;
  // The prior pulls; it does not bind: one share in five lies past its low and high.
  told.central = share * std::exp(move);
  told.low = told.central * std::exp(-ninety_percent_point * width);
  told.high = told.central * std::exp(ninety_percent_point * width);
  return told;
}

}  // namespace

InspectionEvidence learn_from_inspection(const scenario::Scenario& inspected,
                                         const scenario::Inspection& inspection,
                                         const ForecastOptions& options, const ForecastProgress& progress) {
  const std::string place = inspection.location.file + ":" + std::to_string(inspection.location.line) + ": ";
  if (inspection.worn_height.size() != inspected.bit.layout.count()) {
    throw std::invalid_argument(
        place + "calibrate_from: as many readings as the inspected bit has cutters are needed");
  }
  double count = 0.0;
  const double measured = measured_mean(inspection.worn_height, inspection.worn_height, count);
  if (!(count > 0.0)) throw std::invalid_argument(place + "calibrate_from: no cutter was measured");
  const double at_start = measured_mean(inspected.bit.starting_wear, inspection.worn_height, count);
  if (!(measured > at_start)) {
    throw std::invalid_argument(place +
                                "calibrate_from: the readings show no more wear than the bit started with");
  }

  scenario::Scenario scenario = inspected;
  scenario.repeat.stop_at = scenario::StopAt::last_hole;
  if (inspection.holes > 0.0) scenario.repeat.holes = static_cast<int>(std::lround(inspection.holes));
  scenario.stepping.output_every = 0.0;
  scenario.random_events.drawn = false;  // what broke at random does not say how fast diamond wears

  const Reading reading{inspection, place, measured, at_start, count};
  int runs = 0;
  constexpr double most_runs = 16.0;  // as a rule
  // One-hole runs that measure slopes, in units of these runs.
  const double effects_work = options.band ? static_cast<double>(uncertain_numbers(scenario).size()) /
                                                 std::max(1, scenario.repeat.holes)
                                           : 0.0;
  const simulation::Progress tell = [&](double drilled, int asked) {
    if (progress) progress(std::min(runs + drilled / asked, most_runs), most_runs + effects_work);
    if (drilled >= asked) ++runs;
  };
  Match match = match_mean(scenario, reading, std::nullopt, 1.0, tell);
  InspectionEvidence evidence;
  // The pattern over the cutters: cutting wears by the rock that each edge cuts, rubbing by travel.
  double share = scenario.numbers.cutting_wear_share.central;
  for (int trial = 0; trial < 3; ++trial) {
    const std::optional<scenario::Quantity> told = told_share(scenario, reading, share, match, tell);
    if (!told) break;
    const double moved = std::abs(std::log(told->central / share));
    try {
      match = match_mean(scenario, reading, told->central, match.factor, tell);
    } catch (const std::invalid_argument&) {
      break;
    }
    evidence.cutting_wear_share = told;
    share = told->central;
    if (moved < 0.05) break;
  }
  evidence.coefficient_factor = match.factor;
  if (!options.band) return evidence;
  const scenario::Scenario matched = with_evidence(scenario, evidence);
  const simulation::RunOutcome& outcome = match.outcome;
  evidence.effects = number_effects(
      matched, half_worn(outcome.end), "outer_dull_grade", options, [&](double done, double all) {
        if (progress) progress(most_runs + effects_work * done / all, most_runs + effects_work);
      });

  double scatter = 0.0;
  for (Eigen::Index i = 0; i < inspection.worn_height.size(); ++i) {
    if (!std::isfinite(inspection.worn_height(i))) continue;
    const double miss = (inspection.worn_height(i) - outcome.end.worn_height(i)) / measured;
    scatter += miss * miss / count;
  }
  const double of_mean = inspection.measurement_error / measured;
  const double variance = (of_mean * of_mean + scatter) / count + site_spread * site_spread;
  evidence.noise = ninety_percent_point * std::sqrt(variance);
  return evidence;
}

}  // namespace dullcast::analysis
