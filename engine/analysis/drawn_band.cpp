#include "engine/analysis/drawn_band.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <exception>
#include <limits>
#include <mutex>
#include <numeric>

#include "engine/analysis/numbers_left.hpp"
#include "engine/base/machine_fault.hpp"
#include "engine/base/threads.hpp"
#include "engine/simulation/run.hpp"
#include "engine/statistics/counter_random.hpp"
#include "engine/statistics/normal_law.hpp"
#include "engine/statistics/quantile_bounds.hpp"

namespace dullcast::analysis {
namespace {

/// Streams of a seed that nothing on the bit is drawn from: those count from 2^32 on (see drawn_strengths).
constexpr std::uint64_t of_numbers = 1;

/// A normal variable whose 90 % point is 1.
double drawn(std::int64_t seed, std::uint64_t stream, std::size_t number) {
  return statistics::standard_normal_at(static_cast<std::uint64_t>(seed), stream, number) /
         statistics::ninety_percent_point;
}

struct Trial {
  simulation::RunOutcome run;
  scenario::Scenario scenario;
  std::exception_ptr failure;
  std::string trouble;
};

}  // namespace

scenario::Scenario drawn_scenario(const scenario::Scenario& given, int draw) {
  scenario::Scenario scenario = given;
  scenario.random_events.drawn = true;
  scenario.random_events.seed += draw;
  const std::int64_t seed = scenario.random_events.seed;
  scenario.repeat.stop_at = scenario::StopAt::rework_due;
  const std::vector<std::string> names = uncertain_numbers(scenario);
  std::vector<double> coordinates;
  for (std::size_t k = 0; k < names.size(); ++k) coordinates.push_back(drawn(seed, of_numbers, k));
  return with_numbers_drawn(std::move(scenario), names, std::move(coordinates));
}

scenario::Scenario with_numbers_drawn(scenario::Scenario scenario, const std::vector<std::string>& names,
                                      std::vector<double> coordinates) {
  if (scenario.learned) draw_together(coordinates, names, scenario.learned->together);
  return with_numbers_at(std::move(scenario), names, coordinates);
}

double life_drilled(const simulation::RunOutcome& run) {
  if (run.rework_due) return run.rework_due->footage;
  const bool good = run.ended_by == simulation::EndedBy::last_hole;
  return good ? std::numeric_limits<double>::infinity() : run.footage;
}

DrawnBand drawn_band(const scenario::Scenario& scenario, int draws, int threads,
                     const ForecastProgress& progress) {
  std::vector<Trial> trials(static_cast<std::size_t>(draws));
  std::mutex telling;
  int done = 0;
  base::parallel_for(draws, threads, [&](int draw) {
    Trial& trial = trials[static_cast<std::size_t>(draw)];
    trial.scenario = drawn_scenario(scenario, draw);
    try {
      trial.run = simulation::run(trial.scenario, {}, simulation::Rows::left_out);
    } catch (const std::exception& error) {
      if (base::is_machine_fault(error)) throw;  // none of the draw's
      trial.failure = std::current_exception();
      trial.trouble = error.what();
    }
    const std::lock_guard<std::mutex> lock(telling);
    if (progress) progress(++done, draws);
  });
  std::vector<Trial*> order;
  DrawnBand band;
  for (Trial& trial : trials) {
    if (trial.failure) {
      if (band.failed++ == 0) band.first_failure = trial.trouble;
      continue;
    }
    ++band.draws;
    if (!trial.run.rework_due) ++band.without_rework;
    order.push_back(&trial);
  }
  if (order.empty()) {
    if (!trials.empty()) std::rethrow_exception(trials.front().failure);
    return band;
  }
  std::stable_sort(order.begin(), order.end(), [](const Trial* a, const Trial* b) {
    return life_drilled(a->run) < life_drilled(b->run);
  });
  const auto at = [&](double share) {
    const long rank = statistics::rank_that_reaches(share, static_cast<long>(order.size()));
    const auto place = static_cast<std::size_t>(rank) - 1;
    return DrawnLife{order[place]->run, order[place]->scenario};
  };
  band.low = at(0.1);
  band.middle = at(0.5);
  band.high = at(0.9);
  return band;
}

}  // namespace dullcast::analysis
