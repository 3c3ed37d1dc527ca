#include "engine/shop/run_shop.hpp"

#include <algorithm>
#include <exception>
#include <mutex>
#include <utility>

#include "engine/base/machine_fault.hpp"
#include "engine/base/threads.hpp"
#include "engine/shop/early_pulls.hpp"
#include "engine/shop/future.hpp"
#include "engine/shop/future_figures.hpp"
#include "engine/shop/outlook.hpp"

namespace dullcast::shop {
namespace {

/// A change of the plan that is tried: what it is called, and the trial.
struct Change {
  storage::ChangeOutlook told;
  Trial trial;
};

std::vector<Change> changes_of(const ShopPlan& plan) {
  std::vector<Change> changes;
  const auto add = [&](const char* kind, const std::string& name) -> Trial& {
    changes.emplace_back();
    changes.back().told.kind = kind;
    changes.back().told.name = name;
    return changes.back().trial;
  };
  for (std::size_t s = 0; plan.changes.one_more_bench && s < plan.stations.size(); ++s)
    add("bench", plan.stations[s].name).more_bench = s;
  for (std::size_t d = 0; plan.changes.one_more_bit && d < plan.designs.size(); ++d) {
    const bool booked = std::any_of(plan.holes.begin(), plan.holes.end(),
                                    [d](const BookedHole& hole) { return hole.design == d; });
    if (booked) add("bit", plan.designs[d].name).more_bit = d;
  }
  if (plan.changes.more_shift) add("shift", *plan.changes.more_shift).more_shift = true;
  return changes;
}

struct Future {
  DrilledFuture drilled;
  FutureFigures as_planned;
  std::vector<FutureFigures> changed;
  std::exception_ptr failure;
  std::string trouble;
};

/// One figure of all futures.
storage::Spread spread_over(const std::vector<FutureFigures>& futures, double FutureFigures::*figure) {
  std::vector<double> values;
  for (const FutureFigures& future : futures) values.push_back(future.*figure);
  return spread_of(std::move(values));
}

void tell_change(storage::ChangeOutlook& told, std::size_t c, const std::vector<Future>& futures) {
  std::vector<FutureFigures> with, without;
  std::vector<double> turnarounds;
  for (const Future& future : futures) {
    with.push_back(future.changed[c]);
    without.push_back(future.as_planned);
    turnarounds.insert(turnarounds.end(), with.back().turnarounds.begin(), with.back().turnarounds.end());
  }
  told.late_holes = spread_over(with, &FutureFigures::late_holes);
  told.late_time = spread_over(with, &FutureFigures::late_time);
  told.total = spread_over(with, &FutureFigures::total);
  told.turnaround = spread_of(std::move(turnarounds));
  tell_more(told, with, without);
}

}  // namespace

storage::ShopOutlook run_shop(const ShopPlan& plan, const ShopOptions& options) {
  std::vector<Change> changes = options.changes ? changes_of(plan) : std::vector<Change>{};
  std::vector<Future> futures(static_cast<std::size_t>(plan.futures));
  std::mutex telling;
  int done = 0;
  base::parallel_for(plan.futures, options.threads, [&](int f) {
    Future& future = futures[static_cast<std::size_t>(f)];
    try {
      future.drilled.drill = std::make_unique<FutureDrill>(plan, f);
      future.drilled.log = simulate_future(plan, *future.drilled.drill, {});
      future.as_planned = figures_of(future.drilled.log);
      for (const Change& change : changes)
        future.changed.push_back(figures_of(simulate_future(plan, *future.drilled.drill, change.trial)));
      future.drilled.drill->rest();
    } catch (const std::exception& error) {
      if (base::is_machine_fault(error)) throw;  // none of the future's
      future.failure = std::current_exception();
      future.trouble = error.what();
    }
    const std::lock_guard<std::mutex> lock(telling);
    if (options.progress) options.progress("Drilling futures", ++done, plan.futures);
  });
  const auto failed = static_cast<int>(
      std::count_if(futures.begin(), futures.end(), [](const Future& future) { return future.failure; }));
  std::string first_failure;
  if (failed > 0) {
    const auto first =
        std::find_if(futures.begin(), futures.end(), [](const Future& one) { return one.failure; });
    if (failed == plan.futures) std::rethrow_exception(first->failure);
    first_failure = first->trouble;
    std::erase_if(futures, [](const Future& future) { return future.failure != nullptr; });
  }

  std::vector<const FutureLog*> logs;
  for (const Future& future : futures) logs.push_back(&future.drilled.log);
  storage::ShopOutlook outlook = outlook_of(plan, logs);
  outlook.failed = failed;
  outlook.first_failure = first_failure;
  for (std::size_t c = 0; c < changes.size(); ++c) {
    tell_change(changes[c].told, c, futures);
    outlook.changes.push_back(std::move(changes[c].told));
  }
  if (!options.pulls || plan.early_pulls < 1) return outlook;
  std::vector<DrilledFuture> drilled;
  for (Future& future : futures) drilled.push_back(std::move(future.drilled));
  PullSearch search{plan.early_pulls, options.threads, priced(plan), {}};
  if (options.progress)
    search.progress = [&](double tried, double all) { options.progress("Seeking early pulls", tried, all); };
  EarlyPulls found = seek_early_pulls(plan, drilled, search);
  outlook.early_pulls = std::move(found.pulls);
  outlook.pulls_tried = found.tried;
  return outlook;
}

}  // namespace dullcast::shop
