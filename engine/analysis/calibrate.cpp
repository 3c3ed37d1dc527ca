#include "engine/analysis/calibrate.hpp"

#include <cmath>
#include <stdexcept>
#include <string>

#include "engine/analysis/layer_hole.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::analysis {
namespace {

scenario::Scenario with_factor(scenario::Scenario scenario, double factor) {
  for (double* value :
       {&scenario.numbers.abrasion_coefficient.low, &scenario.numbers.abrasion_coefficient.central,
        &scenario.numbers.abrasion_coefficient.high}) {
    *value *= factor;
  }
  return scenario;
}

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

  // Secant in ln(gain) against ln(factor), from the guess that wear is proportional to the coefficient.
  constexpr int most_trials = 12;
  constexpr double close_enough = 1e-4;
  double factor = 1.0, slope = 1.0, last_log_factor = 0.0, last_log_gain = 0.0;
  simulation::RunOutcome outcome;
  for (int trial = 0;; ++trial) {
    outcome = simulation::run(with_factor(scenario, factor), [&](double drilled, int asked) {
      if (progress) progress(std::min(trial + drilled / asked, 4.0), 4.0);
    });
    const double gain = measured_mean(outcome.end.worn_height, inspection.worn_height, count) - at_start;
    if (!(gain > 0.0))
      throw std::invalid_argument(place + "calibrate_from: the inspected run does not wear the bit");
    const double miss = std::log((measured - at_start) / gain);
    if (std::abs(miss) < close_enough) break;
    if (trial == most_trials) {
      throw std::invalid_argument(place + "calibrate_from: no abrasion coefficient reproduces the readings");
    }
    const double log_gain = std::log(gain), log_factor = std::log(factor);
    if (trial > 0 && log_factor != last_log_factor) {
      const double seen = (log_gain - last_log_gain) / (log_factor - last_log_factor);
      if (seen > 0.2 && seen < 5.0) slope = seen;
    }
    last_log_factor = log_factor;
    last_log_gain = log_gain;
    factor *= std::exp(miss / slope);
  }

  InspectionEvidence evidence;
  evidence.coefficient_factor = factor;
  if (!options.band) return evidence;
  const scenario::Scenario matched = with_factor(scenario, factor);
  evidence.effects = number_effects(matched, half_worn(outcome.end), "outer_dull_grade", options);

  double scatter = 0.0;
  for (Eigen::Index i = 0; i < inspection.worn_height.size(); ++i) {
    if (!std::isfinite(inspection.worn_height(i))) continue;
    const double miss = (inspection.worn_height(i) - outcome.end.worn_height(i)) / measured;
    scatter += miss * miss / count;
  }
  const double reading = inspection.measurement_error / measured;
  const double variance = (reading * reading + scatter) / count + site_spread * site_spread;
  evidence.noise = ninety_percent_point * std::sqrt(variance);
  return evidence;
}

}  // namespace dullcast::analysis
