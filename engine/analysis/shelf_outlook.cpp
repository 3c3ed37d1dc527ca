#include "engine/analysis/shelf_outlook.hpp"

#include <algorithm>
#include <cmath>
#include <exception>
#include <mutex>

#include "engine/base/machine_fault.hpp"
#include "engine/base/threads.hpp"
#include "engine/simulation/run.hpp"
#include "models/failure/sudden_failure.hpp"

namespace dullcast::analysis {
namespace {

/// An array's entry, 0 where a bit has none.
double entry_of(const Eigen::ArrayXd& values, std::size_t cutter) {
  const auto i = static_cast<Eigen::Index>(cutter);
  return i < values.size() ? values(i) : 0.0;
}

void compare_wear(const scenario::ShelvedBit& record, const simulation::BitCondition& end,
                  BesideForecast& beside) {
  const Eigen::ArrayXd& start = record.run.bit.starting_wear;
  double found = 0.0, forecast = 0.0;
  bool measured = false;
  for (std::size_t i = 0; i < record.found.cutters.size(); ++i) {
    const scenario::CutterSeen& seen = record.found.cutters[i];
    if (!seen.tells_wear()) continue;
    measured = true;
    const double height = *seen.worn_height, worn = entry_of(end.worn_height, i);
    if (height >= beside.worst_found.value_or(-1.0)) {
      beside.worst_at_least = seen.at_least || (height == beside.worst_found && beside.worst_at_least);
      beside.worst_found = height;
    }
    beside.worst_forecast = std::max(beside.worst_forecast, worn);
    if (seen.at_least) continue;
    found += height - entry_of(start, i);
    forecast += worn - entry_of(start, i);
  }
  if (forecast > 0.0) beside.wear_ratio = found / forecast;
  if (!measured && end.worn_height.size() > 0) beside.worst_forecast = end.worn_height.maxCoeff();
}

/// The record's count, or how many of its cutters are marked where all were looked at.
template <class Mark>
std::optional<int> found_of(const std::optional<int>& count, const scenario::InspectedBit& found,
                            const Mark& mark) {
  if (count) return count;
  if (found.cutters.empty() || !found.breakage_noted) return std::nullopt;
  return static_cast<int>(std::count_if(found.cutters.begin(), found.cutters.end(), mark));
}

void count_breakage(const scenario::ShelvedBit& record, const simulation::BitCondition& end,
                    BesideForecast& beside) {
  const scenario::InspectedBit& found = record.found;
  beside.chipped.found =
      found_of(found.chipped, found, [](const scenario::CutterSeen& seen) { return seen.chipped; });
  beside.lost.found = found_of(found.lost, found,
                               [](const scenario::CutterSeen& seen) { return seen.lost || seen.table_gone; });
  beside.heat_checked.found =
      found_of(found.heat_checked, found, [](const scenario::CutterSeen& seen) { return seen.heat_checked; });
  const scenario::BitRecord& bit = record.run.bit;
  const double spread = bit.lot.strength_spread.central;
  for (std::size_t i = 0; i < static_cast<std::size_t>(bit.layout.count()); ++i) {
    if (i < found.cutters.size() && found.cutters[i].renewed) continue;
    beside.chipped.expected -=
        std::expm1(entry_of(bit.starting_chip_hazard, i) - entry_of(end.chip_hazard, i));
    const double holds =
        (1.0 - failure::lognormal_failure_probability(entry_of(end.pocket_load, i), spread)) *
        (1.0 - failure::lognormal_failure_probability(entry_of(end.bond_load, i), spread));
    beside.lost.expected += 1.0 - holds;
    const double heat = entry_of(end.heat_damage, i) - entry_of(bit.starting_damage, i);
    beside.heat_checked.expected += std::clamp(heat, 0.0, 1.0);
  }
}

}  // namespace

BesideForecast beside_forecast(const scenario::ShelvedBit& record, const simulation::RunOutcome& outcome) {
  BesideForecast beside;
  beside.footage = outcome.footage;
  beside.finished = outcome.ended_by == simulation::EndedBy::last_hole;
  beside.inner_grade = outcome.end.inner_dull_grade;
  beside.outer_grade = outcome.end.outer_dull_grade;
  compare_wear(record, outcome.end, beside);
  count_breakage(record, outcome.end, beside);
  return beside;
}

std::vector<BesideForecast> shelf_beside_forecast(
    const std::vector<scenario::ShelvedBit>& shelf, int threads,
    const std::function<void(double done, double all)>& progress) {
  std::vector<BesideForecast> all(shelf.size());
  std::mutex telling;
  double done = 0.0;
  base::parallel_for(static_cast<int>(shelf.size()), threads, [&](int i) {
    const auto k = static_cast<std::size_t>(i);
    try {
      all[k] = beside_forecast(shelf[k], simulation::run(shelf[k].run, {}, simulation::Rows::left_out));
    } catch (const std::exception& error) {
      if (base::is_machine_fault(error)) throw;
      all[k].failure = error.what();
    }
    const std::lock_guard<std::mutex> lock(telling);
    done += 1.0;
    if (progress) progress(done, static_cast<double>(shelf.size()));
  });
  return all;
}

std::optional<double> median_of(std::vector<double> values) {
  if (values.empty()) return std::nullopt;
  std::sort(values.begin(), values.end());
  const std::size_t middle = values.size() / 2;
  return values.size() % 2 == 1 ? values[middle] : 0.5 * (values[middle - 1] + values[middle]);
}

}  // namespace dullcast::analysis
