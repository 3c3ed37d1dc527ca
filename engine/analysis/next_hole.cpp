#include "engine/analysis/next_hole.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "engine/statistics/mean_error.hpp"
#include "engine/statistics/quantile_bounds.hpp"

namespace dullcast::analysis {
namespace {

constexpr std::array every_choice{BitChoice::run_again, BitChoice::rework_first, BitChoice::new_bit};

std::size_t place(BitChoice choice) {
  return static_cast<std::size_t>(choice);
}

/// Mean, its standard error (none of fewer than two), and ends.
DrawnMoney spread_of(std::vector<double> values) {
  DrawnMoney money;
  if (values.empty()) return money;
  const statistics::MeanError found = statistics::mean_error(values);
  money.mean = found.mean;
  if (values.size() > 1) money.error = found.error;
  std::sort(values.begin(), values.end());
  const auto at = [&](double share) {
    return values[static_cast<std::size_t>(
        statistics::rank_that_reaches(share, static_cast<long>(values.size())) - 1)];
  };
  money.low = at(0.1);
  money.high = at(0.9);
  return money;
}

HoleCost with_choice(HoleCost cost, BitChoice choice, const NextHole& hole, double new_price) {
  cost.already = hole.now.total();
  cost.before = choice == BitChoice::rework_first ? hole.now.plan.cost
                : choice == BitChoice::new_bit    ? new_price
                                                  : 0.0;
  return cost;
}

HoleCost mean_of(const std::vector<HoleCost>& costs) {
  HoleCost mean;
  const auto n = static_cast<double>(costs.size());
  for (const HoleCost& cost : costs) {
    for (double HoleCost::*line : {&HoleCost::before, &HoleCost::rig, &HoleCost::fetched, &HoleCost::after,
                                   &HoleCost::worn, &HoleCost::already})
      mean.*line += cost.*line / n;
  }
  return mean;
}

/// The draws that count in probabilities: all choices were run.
std::vector<std::size_t> draws_run(const ChoiceDraws& draws, NextHole& hole) {
  std::size_t count = std::numeric_limits<std::size_t>::max();
  for (const auto& choice : draws) {
    if (choice) count = std::min(count, choice->size());
  }
  std::vector<std::size_t> run;
  std::exception_ptr first;
  for (std::size_t k = 0; count != std::numeric_limits<std::size_t>::max() && k < count; ++k) {
    const DrawnHole* failed = nullptr;
    for (const auto& choice : draws) {
      if (choice && (*choice)[k].failure && failed == nullptr) failed = &(*choice)[k];
    }
    if (failed == nullptr) {
      run.push_back(k);
    } else if (hole.failed++ == 0) {
      hole.first_failure = failed->trouble;
      first = failed->failure;
    }
  }
  if (run.empty() && first) std::rethrow_exception(first);
  return run;
}

bool endless(const ChoiceDraws& draws, std::size_t k) {
  return std::any_of(draws.begin(), draws.end(),
                     [&](const auto& choice) { return choice && (*choice)[k].endless; });
}

}  // namespace

const char* bit_choice_name(BitChoice choice) {
  switch (choice) {
    case BitChoice::run_again:
      return "run_again";
    case BitChoice::rework_first:
      return "rework_first";
    case BitChoice::new_bit:
      return "new_bit";
  }
  return "";
}

NextHole compare_choices(const scenario::Scenario& scenario, const ChoiceDraws& draws) {
  NextHole hole;
  hole.now = bit_bill(scenario, condition_at_start(scenario));
  hole.unpriced = missing_prices(scenario.costs);
  const double new_price = scenario.costs.replacement > 0.0 ? scenario.costs.replacement : scenario.costs.bit;
  const std::vector<std::size_t> run = draws_run(draws, hole);
  hole.draws = static_cast<int>(run.size());
  for (const std::size_t k : run) hole.endless += endless(draws, k) ? 1 : 0;
  std::array<std::vector<double>, bit_choices> totals;
  for (const BitChoice choice : every_choice) {
    const auto& of_choice = draws[place(choice)];
    if (!of_choice) continue;
    ChoiceOutlook outlook;
    std::vector<HoleCost> costs;
    for (const std::size_t k : run) {
      const DrawnHole& drawn = (*of_choice)[k];
      outlook.finished += drawn.finished ? 1 : 0;
      if (endless(draws, k)) continue;
      costs.push_back(with_choice(drawn.cost, choice, hole, new_price));
      totals[place(choice)].push_back(costs.back().total());
    }
    if (hole.draws > 0) outlook.probability = static_cast<double>(outlook.finished) / hole.draws;
    outlook.interval = statistics::probability_interval(outlook.finished, hole.draws, 0.95);
    outlook.mean = mean_of(costs);
    outlook.cost = spread_of(totals[place(choice)]);
    hole.choices[place(choice)] = outlook;
  }
  if (!hole.unpriced.empty() || hole.draws - hole.endless < 2) return hole;
  std::vector<BitChoice> order;
  for (const BitChoice choice : every_choice) {
    if (hole.of(choice)) order.push_back(choice);
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](BitChoice a, BitChoice b) { return hole.of(a)->cost.mean < hole.of(b)->cost.mean; });
  if (order.size() < 2) return hole;
  hole.cheapest = order[0];
  hole.runner_up = order[1];
  const std::vector<double>& least = totals[place(order[0])];
  for (std::size_t other = 1; other < order.size(); ++other) {
    std::vector<double> differences = totals[place(order[other])];
    for (std::size_t k = 0; k < differences.size(); ++k) differences[k] -= least[k];
    const DrawnMoney more = spread_of(std::move(differences));
    ChoiceOutlook& outlook = *hole.choices[place(order[other])];
    outlook.more = more.mean;
    outlook.more_error = more.error;
  }
  return hole;
}

NextHole next_hole(const scenario::Scenario& scenario, const HoleDrawOptions& options,
                   const ForecastProgress& progress) {
  if (options.draws < 2) throw std::invalid_argument("choices between bits need two draws or more");
  const BitBill now = bit_bill(scenario, condition_at_start(scenario));
  const bool rework = now.plan.kind == condition::RepairClass::replace_cutters ||
                      now.plan.kind == condition::RepairClass::rebuild_pockets;
  const double stages = rework ? 3.0 : 2.0;
  double stage = 0.0;
  const ForecastProgress tell = [&](double done, double all) {
    if (progress) progress(stage * all + done, stages * all);
  };
  ChoiceDraws draws;
  HoleDrawOptions beside = options;
  const auto drill = [&](BitChoice choice, const scenario::Scenario& with_bit) {
    draws[place(choice)] = drawn_holes(with_bit, beside, tell);
    stage += 1.0;
  };
  drill(BitChoice::new_bit, with_new_bit(scenario));
  beside.least_progress = least_progress_beside(*draws[place(BitChoice::new_bit)]);
  drill(BitChoice::run_again, scenario);
  if (rework) drill(BitChoice::rework_first, reworked(scenario, now.plan));
  return compare_choices(scenario, draws);
}

}  // namespace dullcast::analysis
