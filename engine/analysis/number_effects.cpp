#include "engine/analysis/number_effects.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>
#include <mutex>

#include "engine/analysis/layer_hole.hpp"
#include "engine/base/threads.hpp"
#include "engine/scenario/number_fields.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::analysis {
namespace {

/// A change of ln(wear) too small to tell in a band; its square is nothing beside the leading ones.
constexpr double hardly_matters = 0.01;

/// Numbers that only say when something breaks or how the steel goes, by what they are about. They touch
/// wear, the speed and the heat of a hole only where something does break or blades rub, which one run with
/// all of them moved tells.
const std::vector<std::vector<std::string>>& breakage_numbers() {
  static const std::vector<std::vector<std::string>> numbers{
      // Edges
      {"weibull_modulus", "edge_hot_share", "edge_damaged_share", "roughness_impacts", "impact_impedance",
       "chip_size_share", "shock_share", "boundary_undulation", "load_variation", "brittle_strength",
       "bottom_unevenness", "stone_protrusion", "touch_down_overload", "edge_strength", "edge_share",
       "inclusion_size", "table_modulus", "table_expansion", "table_poisson"},
      // Seats, bonds and blades
      {"roughness_overload", "braze_strength", "braze_softening", "braze_solidus", "bond_mismatch",
       "bond_neutral_temperature", "bond_strength", "bond_share", "braze_share", "strength_spread",
       "strength"},
      // Steel, and what packs between it
      {"erosion_coefficient", "rubbing_coefficient", "port_discharge", "erosion_resistance",
       "rubbing_resistance", "stickiness", "pad_seating", "blade_bearing_ratio"},
      // Surfaces that boil or stand dry, which a hole drilled as planned need not have
      {"boiling_surface_factor", "steam_convection", "fall_back_time", "flash_time", "level_band",
       "packed_pores_loss", "dry_out_factor", "bed_grain", "burying_height", "suspending_transport",
       "renewal_turns", "still_expansion"}};
  return numbers;
}

/// Which group of breakage_numbers a number belongs to, -1 for none.
int breakage_group(const std::string& name) {
  const std::size_t colon = name.rfind(": ");
  const std::string key = colon == std::string::npos ? name : name.substr(colon + 2);
  const auto& groups = breakage_numbers();
  for (std::size_t g = 0; g < groups.size(); ++g) {
    if (std::find(groups[g].begin(), groups[g].end(), key) != groups[g].end()) return static_cast<int>(g);
  }
  return -1;
}

/// ln of the wear that a rule looks at, over one hole; NaN when there was none or the hole was not finished.
double log_wear(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome,
                const std::string& rule) {
  if (outcome.ended_by != simulation::EndedBy::last_hole) return std::numeric_limits<double>::quiet_NaN();
  const Eigen::ArrayXd gain = outcome.end.worn_height - scenario.bit.starting_wear;
  if (rule == "chip_probability") {
    const Eigen::ArrayXd& before = scenario.bit.starting_chip_hazard;
    const Eigen::ArrayXd& after = outcome.end.chip_hazard;
    return std::log(before.size() == after.size() ? (after - before).maxCoeff() : after.maxCoeff());
  }
  if (rule == "heat_damage") {
    return std::log((outcome.end.heat_damage - scenario.bit.starting_damage).maxCoeff());
  }
  if (rule == "worn_height")
    return std::log(outcome.end.worn_height.maxCoeff() - scenario.bit.starting_wear.maxCoeff());
  double sum = 0.0, count = 0.0;
  for (Eigen::Index i = 0; i < gain.size(); ++i) {
    if (3.0 * scenario.bit.layout.radius(i) <= 2.0 * scenario.bit.layout.bit_radius) continue;
    sum += gain(i);
    count += 1.0;
  }
  return std::log(count > 0.0 ? sum / count : gain.maxCoeff());
}

/// One hole from a condition, as planned: random events are not drawn, so that two runs differ by what was
/// moved alone, and a mishap of one hole is no part of what every hole does. Rods are added in no time, which
/// matters to the quenches of chips alone and spares four fifths of the steps.
scenario::Scenario one_hole_from(const scenario::Scenario& scenario,
                                 const simulation::BitCondition& condition, const std::string& rule,
                                 double tolerance) {
  scenario::Scenario hole = scenario;
  hole.repeat.holes = 1;
  hole.repeat.stop_at = scenario::StopAt::last_hole;
  if (rule != "chip_probability") hole.repeat.connection_time = 0.0;
  start_from(hole, condition);
  hole.bit.starting_damage = condition.heat_damage.min(0.9);
  hole.random_events.drawn = false;
  std::erase_if(hole.upsets, [](const scenario::Upset& upset) { return upset.hole >= 0; });
  hole.stepping.relative_tolerance = std::max(tolerance, scenario.stepping.relative_tolerance);
  hole.stepping.output_every = 0.0;
  return hole;
}

/// Runs of one hole with numbers moved, and how long they take.
class HoleRuns {
 public:
  HoleRuns(const scenario::Scenario& hole, const std::string& rule, const ForecastProgress& progress)
      : hole_(hole), rule_(rule), progress_(progress) {}

  /// ln(wear) with `names` all at `coordinate`.
  double log_wear_at(const std::vector<std::string>& names, double coordinate) {
    const auto began = std::chrono::steady_clock::now();
    const scenario::Scenario trial =
        with_numbers_at(hole_, names, std::vector<double>(names.size(), coordinate));
    const double wear = log_wear(trial, simulation::run(trial, {}, simulation::Rows::left_out), rule_);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - began;
    const std::lock_guard<std::mutex> lock(telling_);
    ++made_;
    seconds_ += took.count();
    tell();
    return wear;
  }
  /// `runs` more are to come, at most; or will not be made after all.
  void expect(int runs) { all_ = made_ + runs; }
  void spare(int runs) {
    const std::lock_guard<std::mutex> lock(telling_);
    spared_ += runs;
    tell();
  }
  double seconds_a_run() const { return seconds_ / std::max(made_, 1); }

 private:
  void tell() const {
    if (progress_ && all_ > 0) progress_(std::min(made_ + spared_, all_), all_);
  }

  const scenario::Scenario& hole_;
  const std::string& rule_;
  const ForecastProgress& progress_;
  std::mutex telling_;
  int made_ = 0, spared_ = 0, all_ = 0;
  double seconds_ = 0.0;
};

/// Whether moving `names` all to their highs or all to their lows changes the wear.
bool matter_together(HoleRuns& runs, const std::vector<std::string>& names, double unmoved, int threads) {
  double together[2] = {unmoved, unmoved};
  base::parallel_for(2, threads,
                     [&](int end) { together[end] = runs.log_wear_at(names, end == 0 ? 1.0 : -1.0); });
  const auto moves = [&](double wear) { return !(std::abs(wear - unmoved) < hardly_matters); };
  return moves(together[0]) || moves(together[1]);
}

/// Which of the numbers need no run of their own: those about breakage, where moving them all together, or
/// all that are about the same thing, changes nothing.
std::vector<bool> idle_numbers(HoleRuns& runs, const std::vector<std::string>& names, double unmoved,
                               int threads) {
  std::vector<std::vector<std::string>> groups(breakage_numbers().size());
  std::vector<std::string> all;
  for (const std::string& name : names) {
    const int group = breakage_group(name);
    if (group < 0) continue;
    all.push_back(name);
    groups[static_cast<std::size_t>(group)].push_back(name);
  }
  std::vector<bool> idle(names.size(), false);
  constexpr std::size_t few = 2;  // as many runs by themselves as together
  if (all.size() <= few) return idle;
  std::vector<bool> still(groups.size(), !matter_together(runs, all, unmoved, threads));
  for (std::size_t g = 0; g < groups.size(); ++g) {
    if (!still[g] && groups[g].size() > few) still[g] = !matter_together(runs, groups[g], unmoved, threads);
  }
  for (std::size_t k = 0; k < names.size(); ++k) {
    const int group = breakage_group(names[k]);
    idle[k] = group >= 0 && still[static_cast<std::size_t>(group)];
  }
  return idle;
}

}  // namespace

double number_at(const scenario::Quantity& quantity, double coordinate) {
  const double end = coordinate >= 0.0 ? quantity.high : quantity.low;
  const double distance = std::abs(coordinate);
  if (quantity.low > 0.0) return quantity.central * std::pow(end / quantity.central, distance);
  return quantity.central + (end - quantity.central) * distance;
}

double sensible_number_at(const std::string& name, const scenario::Quantity& quantity, double coordinate) {
  const double value = number_at(quantity, coordinate);
  const std::optional<scenario::NumberKind> kind = scenario::kind_of_number(name);
  const auto within = [](double at, const base::Range& range) {
    return at <= range.most && (range.least_itself ? at >= range.least : at > range.least);
  };
  const bool sensible = std::isfinite(value) && (!kind || within(value, kind->range));
  return sensible ? value : coordinate > 0.0 ? quantity.high : quantity.low;
}

std::vector<std::string> uncertain_numbers(scenario::Scenario scenario) {
  std::vector<std::string> names;
  scenario::for_each_number(scenario, [&](const std::string& name, scenario::Quantity& quantity) {
    if (quantity.low < quantity.high) names.push_back(name);
  });
  return names;
}

scenario::Scenario with_numbers_at(scenario::Scenario scenario, const std::vector<std::string>& names,
                                   const std::vector<double>& coordinates) {
  scenario::for_each_number(scenario, [&](const std::string& name, scenario::Quantity& quantity) {
    const auto place = std::find(names.begin(), names.end(), name);
    if (place == names.end()) return;
    quantity.central =
        sensible_number_at(name, quantity, coordinates[static_cast<std::size_t>(place - names.begin())]);
  });
  return scenario;
}

std::string deciding_rule(const simulation::RunOutcome& run) {
  if (run.rework_due) return run.rework_due->rule;
  if (run.rules.empty()) return "outer_dull_grade";
  return std::max_element(
             run.rules.begin(), run.rules.end(),
             [](const simulation::RuleUse& a, const simulation::RuleUse& b) { return a.used < b.used; })
      ->rule;
}

std::vector<NumberEffect> number_effects(const scenario::Scenario& scenario,
                                         const simulation::BitCondition& condition, const std::string& rule,
                                         const EffectOptions& options, const ForecastProgress& progress) {
  const std::vector<std::string> names = uncertain_numbers(scenario);
  const scenario::Scenario hole = one_hole_from(scenario, condition, rule, options.slope_tolerance);
  HoleRuns runs(hole, rule, progress);
  const double unmoved = runs.log_wear_at({}, 0.0);
  const std::vector<bool> idle = idle_numbers(runs, names, unmoved, options.threads);
  std::vector<std::size_t> tried;
  for (std::size_t k = 0; k < names.size(); ++k) {
    if (!idle[k]) tried.push_back(k);
  }
  const auto count = static_cast<int>(tried.size());
  runs.expect(2 * count);
  if (options.announce) {
    // About one in three moves the wear enough to be tried at its low end as well.
    constexpr double runs_a_number = 1.35;
    options.announce({2 * count, runs_a_number * count * runs.seconds_a_run() /
                                     std::max(1, std::min(options.threads, count))});
  }
  std::vector<double> high(names.size(), unmoved), low(names.size(), unmoved);
  base::parallel_for(count, options.threads, [&](int place) {
    const std::size_t k = tried[static_cast<std::size_t>(place)];
    high[k] = runs.log_wear_at({names[k]}, 1.0);
  });
  // Most numbers hardly matter; only those that do, or that stop the bit, are moved to their low end as well.
  base::parallel_for(count, options.threads, [&](int place) {
    const std::size_t k = tried[static_cast<std::size_t>(place)];
    const double rise = high[k] - unmoved;
    if (std::abs(rise) < hardly_matters) {
      low[k] = unmoved - rise;
      runs.spare(1);
    } else {
      low[k] = runs.log_wear_at({names[k]}, -1.0);
    }
  });
  std::vector<NumberEffect> effects;
  for (std::size_t k = 0; k < names.size(); ++k) {
    // One-sided where one end no longer drills the hole.
    double slope = 0.5 * (high[k] - low[k]);
    if (!std::isfinite(slope)) slope = std::isfinite(high[k]) ? high[k] - unmoved : unmoved - low[k];
    effects.push_back({names[k], std::isfinite(slope) ? slope : 0.0, 0.0});
  }
  return effects;
}

}  // namespace dullcast::analysis
