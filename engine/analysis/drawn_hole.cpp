#include "engine/analysis/drawn_hole.hpp"

#include <algorithm>
#include <mutex>
#include <stdexcept>

#include "engine/base/machine_fault.hpp"
#include "engine/base/threads.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::analysis {
namespace {

/// Seeds of fetched bits lie this far above the draw's, so that no two bits of a command share their luck.
constexpr long luck_of_its_own = 1'000'000;

scenario::Scenario one_hole(const scenario::Scenario& given, int draw, const HoleDrawOptions& options) {
  scenario::Scenario hole = drawn_scenario(given, draw);
  hole.repeat.holes = 1;
  hole.repeat.stop_at = scenario::StopAt::beyond_repair;
  hole.stepping.relative_tolerance = options.relative_tolerance;
  hole.stepping.output_every = 0.0;
  if (static_cast<std::size_t>(draw) < options.least_progress.size())
    hole.rules.least_progress =
        std::max(hole.rules.least_progress, options.least_progress[static_cast<std::size_t>(draw)]);
  return hole;
}

bool finishes(const simulation::RunOutcome& run) {
  return run.ended_by == simulation::EndedBy::last_hole;
}

BitBill bill_after(const scenario::Scenario& hole, const simulation::RunOutcome& run) {
  return bit_bill(hole, run.end, run.ended_by == simulation::EndedBy::blade_sheared);
}

void drill(scenario::Scenario hole, DrawnHole& drawn) {
  const double top = hole.column.layers.front().top, bottom = hole.column.layers.back().bottom;
  simulation::RunOutcome run = simulation::run(hole, {}, simulation::Rows::left_out);
  const BitBill own = bill_after(hole, run);
  drawn.slowest = slowest_layer(run);
  drawn.finished = finishes(run);
  drawn.cost.after = own.plan.cost;
  drawn.cost.worn = own.worn_in_part;
  double seconds = run.elapsed_time, depth = top + run.footage;
  hole = with_new_bit(std::move(hole));
  while (!finishes(run)) {
    // Stopped in the last of its depth: nothing is left that a bit could be sent down for.
    if (!(depth < bottom - 1e-3)) break;
    if (drawn.fetched == most_fetched) {
      drawn.endless = true;
      break;
    }
    ++drawn.fetched;
    hole.random_events.seed += luck_of_its_own;
    const scenario::Scenario rest = rest_of_hole(hole, depth);
    run = simulation::run(rest, {}, simulation::Rows::left_out);
    drawn.cost.fetched += bill_after(rest, run).total();
    seconds += run.elapsed_time;
    depth += run.footage;
  }
  drawn.cost.rig = hole.costs.rig_per_second * seconds;
}

}  // namespace

double slowest_layer(const simulation::RunOutcome& run) {
  double slowest = 0.0;
  for (const simulation::LayerPassage& passage : run.passages) {
    const double pace = passage.mean_rate_of_penetration;
    if (pace > 0.0 && (slowest == 0.0 || pace < slowest)) slowest = pace;
  }
  return slowest;
}

std::vector<double> least_progress_beside(const std::vector<DrawnHole>& new_bit) {
  std::vector<double> least;
  // One that did not finish is no measure of how fast it can be done.
  for (const DrawnHole& drawn : new_bit)
    least.push_back(drawn.finished ? patience_share * drawn.slowest : 0.0);
  return least;
}

scenario::Scenario rest_of_hole(scenario::Scenario scenario, double depth) {
  std::vector<scenario::Layer>& layers = scenario.column.layers;
  if (layers.empty() || !(depth >= layers.front().top) || !(depth < layers.back().bottom))
    throw std::invalid_argument("the rest of a hole begins inside its column");
  std::erase_if(layers, [&](const scenario::Layer& layer) { return layer.bottom <= depth; });
  layers.front().top = depth;
  std::erase_if(scenario.plan, [&](const scenario::OperatingInterval& one) { return one.to <= depth; });
  if (!scenario.plan.empty()) scenario.plan.front().from = std::max(depth, scenario.plan.front().from);
  std::erase_if(scenario.upsets, [&](const scenario::Upset& upset) { return upset.from < depth; });
  return scenario;
}

std::vector<DrawnHole> drawn_holes(const scenario::Scenario& scenario, const HoleDrawOptions& options,
                                   const ForecastProgress& progress) {
  std::vector<DrawnHole> holes(static_cast<std::size_t>(std::max(0, options.draws)));
  std::mutex telling;
  int done = 0;
  base::parallel_for(options.draws, options.threads, [&](int draw) {
    DrawnHole& drawn = holes[static_cast<std::size_t>(draw)];
    try {
      drill(one_hole(scenario, draw, options), drawn);
    } catch (const std::exception& error) {
      if (base::is_machine_fault(error)) throw;  // none of the draw's
      drawn.failure = std::current_exception();
      drawn.trouble = error.what();
    }
    const std::lock_guard<std::mutex> lock(telling);
    if (progress) progress(++done, options.draws);
  });
  return holes;
}

}  // namespace dullcast::analysis
