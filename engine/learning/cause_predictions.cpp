#include "engine/learning/cause_predictions.hpp"

#include <algorithm>
#include <cmath>
#include <mutex>

#include "engine/analysis/drawn_band.hpp"
#include "engine/base/machine_fault.hpp"
#include "engine/base/threads.hpp"
#include "engine/learning/shelf_numbers.hpp"

namespace dullcast::learning {
namespace {

constexpr int most_matches = 3;
constexpr double near_enough = 0.1;  // of ln(factor)
constexpr double most_wear = 3.0;    // spreads of ln(factor) that a match may go

double log_spread(const scenario::Quantity& quantity) {
  if (!(quantity.low > 0.0) || !(quantity.high > quantity.low)) return 0.0;
  return std::log(quantity.high / quantity.low) / (2.0 * ninety_percent_point);
}

/// Of ln(wear), of what only makes it faster or slower. Several grades: the widest, for one bit seldom tells
/// them apart.
double spread_of_pace(const scenario::Scenario& run) {
  double grades = 0.0;
  for (const scenario::CutterKind& kind : run.bit.kinds)
    grades = std::max(grades, log_spread(kind.grade.wear_resistance));
  return std::hypot(log_spread(run.numbers.abrasion_coefficient), grades,
                    log_spread(run.numbers.bit_to_bit_wear));
}

/// The numbers of draw `draw` (none: central ones), but for the pace, which is the record's times
/// e^log_factor.
scenario::Scenario with_numbers(const scenario::Scenario& run, std::optional<int> draw, double log_factor) {
  scenario::Scenario drawn = draw ? analysis::drawn_scenario(run, *draw) : run;
  drawn.repeat = run.repeat;
  drawn.random_events = run.random_events;
  drawn.random_events.drawn = false;
  drawn.numbers.abrasion_coefficient.central =
      run.numbers.abrasion_coefficient.central * std::exp(log_factor);
  drawn.numbers.bit_to_bit_wear.central = run.numbers.bit_to_bit_wear.central;
  for (std::size_t k = 0; k < drawn.bit.kinds.size(); ++k)
    drawn.bit.kinds[k].grade.wear_resistance.central = run.bit.kinds[k].grade.wear_resistance.central;
  return drawn;
}

PredictedBit shifted(PredictedBit bit, double log_factor) {
  bit.logs.col(wear_gain) = (bit.logs.col(wear_gain) - log_factor).max(log_of_nothing);
  return bit;
}

struct Place {
  std::size_t cause = 0, level = 0;
};

}  // namespace

CausePredictions predict_causes(const scenario::ShelvedBit& bit, const std::vector<Cause>& causes,
                                const CauseOptions& options) {
  scenario::ShelvedBit record = bit;
  record.run.stepping.relative_tolerance = options.relative_tolerance;
  CausePredictions result;
  result.law = options.law;
  result.law.bit_spread = spread_of_pace(record.run);
  result.drilled_enough = 0.95 * (record.run.repeat.holes - 1) / record.run.repeat.holes;
  std::vector<Place> places;
  for (std::size_t c = 0; c < causes.size(); ++c) {
    result.bits.emplace_back(causes[c].levels.size());
    result.wear_factor.emplace_back(causes[c].levels.size(), 1.0);
    for (std::size_t l = 0; l < causes[c].levels.size(); ++l) {
      result.bits[c][l].resize(static_cast<std::size_t>(options.draws));
      places.push_back({c, l});
    }
  }
  const auto levels = static_cast<int>(places.size());
  const double all = static_cast<double>(levels) * (options.draws + 2.0);
  double done = 0.0;
  std::mutex telling;
  const auto one_done = [&](double runs) {
    const std::lock_guard<std::mutex> lock(telling);
    done += runs;
    if (options.told) options.told(std::min(done, all), all);
  };
  const auto drill = [&](const Place& place, std::optional<int> draw, double log_factor) {
    scenario::Scenario run = with_numbers(record.run, draw, log_factor);
    causes[place.cause].levels[place.level].change(run);
    return shifted(predict(run), log_factor);
  };
  const double most = most_wear * result.law.bit_spread;
  // What the run as told asks for is where the others start from.
  double start = 0.0;
  const auto match = [&](int k) {
    const Place& place = places[static_cast<std::size_t>(k)];
    double log_factor = start;
    try {
      for (int trial = 0; trial < most_matches; ++trial) {
        const Reading reading = read_against(record.found, drill(place, {}, log_factor), result.law);
        const double wanted = reading.tells_wear ? std::clamp(reading.bit_mean, -most, most) : 0.0;
        const bool near = std::abs(wanted - log_factor) < near_enough;
        log_factor = wanted;
        if (near) break;
      }
    } catch (const std::exception& error) {
      // A change that the engine cannot follow at all is left out; the run as told must be one it can.
      if (k == 0 || base::is_machine_fault(error)) throw;
    }
    result.wear_factor[place.cause][place.level] = std::exp(log_factor);
    one_done(2.0);
  };
  match(0);
  start = std::log(result.wear_factor[0][0]);
  base::parallel_for(levels - 1, options.threads, [&](int k) { match(k + 1); });
  base::parallel_for(levels * options.draws, options.threads, [&](int task) {
    const int level = task % levels, draw = task / levels;
    const Place& place = places[static_cast<std::size_t>(level)];
    try {
      result.bits[place.cause][place.level][static_cast<std::size_t>(draw)] =
          drill(place, draw, std::log(result.wear_factor[place.cause][place.level]));
    } catch (const std::exception& error) {
      if (base::is_machine_fault(error)) throw;
      const std::lock_guard<std::mutex> lock(telling);
      ++result.failed;
    }
    one_done(1.0);
  });
  return result;
}

}  // namespace dullcast::learning
