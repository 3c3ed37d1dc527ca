#include "engine/learning/found_condition.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <stdexcept>

#include "engine/learning/reading_likelihood.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::learning {
namespace {

/// 1, what a table cracked by heat has borne at least.
constexpr double cracked_damage = ReadingLaw{}.heat_check_damage;
constexpr double most_factor = 100.0;  // on wear: past any spread of the library

bool read(const scenario::CutterSeen& seen) {
  return seen.tells_wear() && !seen.at_least;
}

/// The factor by the heights that were read; nothing where none was or the run wears none of them.
std::optional<double> factor_of_heights(const scenario::InspectedBit& found, const Eigen::ArrayXd& start,
                                        const Eigen::ArrayXd& gain) {
  double seen = 0.0, predicted = 0.0;
  for (std::size_t k = 0; k < found.cutters.size(); ++k) {
    if (!read(found.cutters[k])) continue;
    const auto i = static_cast<Eigen::Index>(k);
    seen += *found.cutters[k].worn_height - start(i);
    predicted += gain(i);
  }
  if (!(predicted > 0.0)) return std::nullopt;
  return std::max(0.0, seen / predicted);
}

/// The factor at which a zone has the grade read, by halving in its logarithm.
std::optional<double> factor_of_grade(const scenario::ShelvedBit& bit, const PredictedBit& shape,
                                      const Eigen::ArrayXd& gain) {
  const bool outer = bit.found.outer_grade.has_value();
  const std::optional<scenario::GradeSeen>& seen = outer ? bit.found.outer_grade : bit.found.inner_grade;
  if (!seen) return std::nullopt;
  std::vector<bool> gone(static_cast<std::size_t>(gain.size()), false);
  for (std::size_t k = 0; k < bit.found.cutters.size(); ++k) gone[k] = bit.found.cutters[k].lost;
  const auto grade = [&](double factor) {
    return zone_grade(shape, shape.starting_wear + factor * gain, gone, outer);
  };
  if (!grade(1.0)) return std::nullopt;
  if (*grade(0.0) >= seen->grade) return 0.0;
  double low = -std::log(most_factor), high = -low;
  if (*grade(std::exp(high)) < seen->grade) return most_factor;
  while (high - low > 1e-6) {
    const double middle = 0.5 * (low + high);
    (*grade(std::exp(middle)) < seen->grade ? low : high) = middle;
  }
  return std::exp(0.5 * (low + high));
}

/// Marks as many more cutters as were counted beyond those marked already, those of the greatest risk first.
void mark_counted(const std::optional<int>& count, const Eigen::ArrayXd& risk,
                  const std::function<bool(Eigen::Index)>& marked,
                  const std::function<void(Eigen::Index)>& mark) {
  if (!count) return;
  int left = *count;
  std::vector<Eigen::Index> order;
  for (Eigen::Index i = 0; i < risk.size(); ++i) {
    if (marked(i))
      --left;
    else
      order.push_back(i);
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](Eigen::Index a, Eigen::Index b) { return risk(a) > risk(b); });
  for (std::size_t k = 0; k < order.size() && left > 0; ++k, --left) mark(order[k]);
}

void put(const scenario::CutterSeen& seen, Eigen::Index i, double exposure, simulation::BitCondition& bit) {
  if (seen.renewed) {
    bit.worn_height(i) = bit.heat_damage(i) = bit.chip_hazard(i) = 0.0;
    bit.lost(i) = bit.table_gone(i) = bit.chips(i) = 0;
    return;
  }
  if (seen.worn_height) {
    const double height = std::min(*seen.worn_height, exposure);
    bit.worn_height(i) = seen.at_least ? std::max(height, bit.worn_height(i)) : height;
  }
  if (seen.lost) bit.lost(i) = 1;
  if (seen.table_gone) bit.table_gone(i) = 1;
  if (seen.chipped) bit.chips(i) = 1;
  if (seen.heat_checked) bit.heat_damage(i) = std::max(bit.heat_damage(i), cracked_damage);
}

}  // namespace

FoundCondition found_condition(const scenario::ShelvedBit& bit) {
  const scenario::InspectedBit& found = bit.found;
  const geometry::BitLayout& layout = bit.run.bit.layout;
  const Eigen::Index n = layout.count();
  if (!found.cutters.empty() && static_cast<Eigen::Index>(found.cutters.size()) != n)
    throw std::invalid_argument("bit " + found.bit + ": as many cutters as the bit has are needed");
  scenario::Scenario run = bit.run;
  run.random_events.drawn = false;
  FoundCondition result;
  result.bit = simulation::run(run, {}, simulation::Rows::left_out).end;
  simulation::BitCondition& now = result.bit;
  now.chips = now.chips.min(1);

  PredictedBit shape;
  shape.starting_wear = run.bit.starting_wear;
  shape.usable_height = layout.exposure;
  shape.radius = layout.radius;
  shape.bit_radius = layout.bit_radius;
  const Eigen::ArrayXd gain = (now.worn_height - run.bit.starting_wear).max(0.0);
  std::optional<double> factor = factor_of_heights(found, run.bit.starting_wear, gain);
  if (!factor) {
    factor = factor_of_grade(bit, shape, gain);
    result.by_grade = factor.has_value();
  }
  result.wear_factor = factor.value_or(1.0);
  now.worn_height = (run.bit.starting_wear + result.wear_factor * gain).min(layout.exposure);
  result.scaled = static_cast<int>(n);
  for (std::size_t k = 0; k < found.cutters.size(); ++k) {
    const auto i = static_cast<Eigen::Index>(k);
    const scenario::CutterSeen& seen = found.cutters[k];
    put(seen, i, layout.exposure(i), now);
    const bool known = read(seen) || seen.renewed;
    result.measured += known ? 1 : 0;
    result.scaled -= known || seen.lost || (seen.worn_height && !seen.at_least) ? 1 : 0;
  }
  mark_counted(
      found.lost, now.pocket_load, [&](Eigen::Index i) { return now.lost(i) != 0; },
      [&](Eigen::Index i) { now.lost(i) = 1; });
  mark_counted(
      found.chipped, now.chip_hazard, [&](Eigen::Index i) { return now.chips(i) != 0 || now.lost(i) != 0; },
      [&](Eigen::Index i) { now.chips(i) = 1; });
  const auto cracked = [&](Eigen::Index i) {
    return static_cast<std::size_t>(i) < found.cutters.size() &&
           found.cutters[static_cast<std::size_t>(i)].heat_checked;
  };
  mark_counted(found.heat_checked, now.heat_damage, cracked,
               [&](Eigen::Index i) { now.heat_damage(i) = std::max(now.heat_damage(i), cracked_damage); });
  // A table counts as ruined from 1 on, and a scenario's bit may start with no more.
  now.heat_damage = now.heat_damage.min(1.0);
  return result;
}

}  // namespace dullcast::learning
