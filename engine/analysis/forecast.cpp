#include "engine/analysis/forecast.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <mutex>

#include "engine/analysis/layer_hole.hpp"
#include "engine/base/threads.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::analysis {
namespace {

/// A change of ln(wear) too small to tell in a band; its square is nothing beside the leading ones.
constexpr double hardly_matters = 0.01;

/// Numbers that only say when something breaks or how the steel goes. They touch wear, the speed and the heat
/// of a hole only where something does break or blades rub, which one run with all of them moved tells.
constexpr const char* breakage_numbers[] = {
    "weibull_modulus", "edge_hot_share", "edge_damaged_share", "roughness_impacts", "roughness_overload",
    "load_variation", "brittle_strength", "bottom_unevenness", "stone_protrusion", "touch_down_overload",
    "impact_impedance", "chip_size_share", "shock_share", "boundary_undulation", "braze_strength",
    "braze_softening", "braze_solidus", "bond_mismatch", "bond_neutral_temperature", "erosion_coefficient",
    "rubbing_coefficient", "port_discharge", "edge_strength", "bond_strength", "edge_share", "bond_share",
    "braze_share", "strength_spread", "erosion_resistance", "rubbing_resistance", "strength",
    "inclusion_size", "stickiness", "table_modulus", "table_expansion", "table_poisson", "pad_seating",
    "blade_bearing_ratio",
    // Of surfaces that boil or stand dry, which a hole drilled as planned need not have:
    "boiling_surface_factor", "steam_convection", "fall_back_time", "flash_time", "level_band",
    "packed_pores_loss", "dry_out_factor", "bed_grain", "burying_height", "suspending_transport",
    "renewal_turns", "still_expansion"};

bool only_about_breakage(const std::string& name) {
  const std::size_t colon = name.rfind(": ");
  const std::string key = colon == std::string::npos ? name : name.substr(colon + 2);
  return std::find(std::begin(breakage_numbers), std::end(breakage_numbers), key) !=
         std::end(breakage_numbers);
}

std::vector<std::string> uncertain_numbers(scenario::Scenario scenario) {
  std::vector<std::string> names;
  scenario::for_each_number(scenario, [&](const std::string& name, scenario::Quantity& quantity) {
    if (quantity.low < quantity.high) names.push_back(name);
  });
  return names;
}

/// The scenario with each named number moved to its coordinate.
scenario::Scenario moved(scenario::Scenario scenario, const std::vector<std::string>& names,
                         const std::vector<double>& coordinates) {
  scenario::for_each_number(scenario, [&](const std::string& name, scenario::Quantity& quantity) {
    const auto place = std::find(names.begin(), names.end(), name);
    if (place == names.end()) return;
    quantity.central = number_at(quantity, coordinates[static_cast<std::size_t>(place - names.begin())]);
  });
  return scenario;
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

/// Covariance of the numbers, conditioned on the inspection, times a vector of slopes.
std::vector<double> conditioned(const std::vector<NumberEffect>& effects,
                                const std::optional<InspectionEvidence>& evidence) {
  std::vector<double> result(effects.size());
  for (std::size_t k = 0; k < effects.size(); ++k) result[k] = effects[k].slope;
  if (!evidence) return result;
  double shared = 0.0, read = evidence->noise * evidence->noise;
  std::vector<double> inspected(effects.size(), 0.0);
  for (const NumberEffect& known : evidence->effects) {
    read += known.slope * known.slope;
    for (std::size_t k = 0; k < effects.size(); ++k) {
      if (effects[k].name != known.name) continue;
      inspected[k] = known.slope;
      shared += known.slope * effects[k].slope;
    }
  }
  if (!(read > 0.0)) return result;
  for (std::size_t k = 0; k < effects.size(); ++k) result[k] -= inspected[k] * shared / read;
  return result;
}

}  // namespace

std::vector<simulation::LifeEnd> band_of(const Forecast& forecast) {
  const auto end_of = [](const char* end, const simulation::RunOutcome& run) {
    const auto& due = run.rework_due;
    return simulation::LifeEnd{end,
                               due ? 1 : 0,
                               due ? due->hole : static_cast<int>(run.holes.size()) - 1,
                               due ? due->footage : run.footage,
                               due ? due->rotating_time : run.rotating_time,
                               due ? due->elapsed_time : run.elapsed_time,
                               run.hottest.temperature};
  };
  return {end_of("low", forecast.severe), end_of("central", forecast.central), end_of("high", forecast.mild)};
}

double number_at(const scenario::Quantity& quantity, double coordinate) {
  const double end = coordinate >= 0.0 ? quantity.high : quantity.low;
  const double distance = std::abs(coordinate);
  if (quantity.low > 0.0) return quantity.central * std::pow(end / quantity.central, distance);
  return quantity.central + (end - quantity.central) * distance;
}

std::vector<NumberEffect> number_effects(const scenario::Scenario& scenario,
                                         const simulation::BitCondition& condition, const std::string& rule,
                                         const ForecastOptions& options, const ForecastProgress& progress) {
  const std::vector<std::string> names = uncertain_numbers(scenario);
  const scenario::Scenario hole = one_hole_from(scenario, condition, rule, options.slope_tolerance);
  const auto count = static_cast<int>(names.size());
  const auto wear_at = [&](int number, double coordinate) {
    const scenario::Scenario trial = moved(hole, {names[static_cast<std::size_t>(number)]}, {coordinate});
    return log_wear(trial, simulation::run(trial, {}, simulation::Rows::left_out), rule);
  };
  std::mutex telling;
  int done = 0;
  const auto tell = [&] {
    const std::lock_guard<std::mutex> lock(telling);
    if (progress) progress(std::min(++done, 2 * count), 2 * count);
  };
  const double unmoved = log_wear(hole, simulation::run(hole, {}, simulation::Rows::left_out), rule);
  // The numbers about breakage are first moved together, one way and the other.
  std::vector<std::string> about_breakage;
  std::copy_if(names.begin(), names.end(), std::back_inserter(about_breakage), only_about_breakage);
  double together[2] = {unmoved, unmoved};
  if (about_breakage.size() > 2) {
    base::parallel_for(2, options.threads, [&](int end) {
      const scenario::Scenario trial =
          moved(hole, about_breakage, std::vector<double>(about_breakage.size(), end == 0 ? 1.0 : -1.0));
      together[end] = log_wear(trial, simulation::run(trial, {}, simulation::Rows::left_out), rule);
    });
  }
  const bool nothing_breaks = about_breakage.size() > 2 && std::abs(together[0] - unmoved) < hardly_matters &&
                              std::abs(together[1] - unmoved) < hardly_matters;
  std::vector<double> high(names.size()), low(names.size());
  base::parallel_for(count, options.threads, [&](int k) {
    const bool idle = nothing_breaks && only_about_breakage(names[static_cast<std::size_t>(k)]);
    high[static_cast<std::size_t>(k)] = idle ? unmoved : wear_at(k, 1.0);
    tell();
  });
  // Most numbers hardly matter; only those that do, or that stop the bit, are moved to their low end as well.
  base::parallel_for(count, options.threads, [&](int k) {
    const double rise = high[static_cast<std::size_t>(k)] - unmoved;
    low[static_cast<std::size_t>(k)] = std::abs(rise) < hardly_matters ? unmoved - rise : wear_at(k, -1.0);
    tell();
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

scenario::Scenario with_evidence(scenario::Scenario scenario, const InspectionEvidence& evidence) {
  scenario::Quantity& abrasion = scenario.numbers.abrasion_coefficient;
  for (double* value : {&abrasion.low, &abrasion.central, &abrasion.high})
    *value *= evidence.coefficient_factor;
  if (evidence.cutting_wear_share) scenario.numbers.cutting_wear_share = *evidence.cutting_wear_share;
  return scenario;
}

Forecast forecast(const scenario::Scenario& given, const ForecastOptions& options,
                  const ForecastProgress& progress) {
  Forecast result;
  scenario::Scenario scenario = given;
  if (options.evidence) {
    result.calibrated = true;
    result.coefficient_factor = options.evidence->coefficient_factor;
    if (options.evidence->cutting_wear_share)
      result.cutting_wear_share = options.evidence->cutting_wear_share->central;
    scenario = with_evidence(scenario, *options.evidence);
  }
  result.central_scenario = scenario;
  // Work in units of whole runs; the slopes' one-hole runs count for what they are.
  const int holes = std::max(1, scenario.repeat.holes);
  const double slope_work = 2.0 * static_cast<double>(uncertain_numbers(scenario).size()) / holes;
  const double all = options.band ? 3.0 + slope_work : 1.0;
  const auto tell = [&](double done) {
    if (progress) progress(done, all);
  };
  result.central = simulation::run(scenario, [&](double drilled, int asked) { tell(drilled / asked); });

  if (!options.band) return result;

  const simulation::BitCondition& dull =
      result.central.rework_due ? result.central.rework_due->condition : result.central.end;
  std::string rule = "outer_dull_grade";
  if (result.central.rework_due) {
    rule = result.central.rework_due->rule;
  } else if (!result.central.rules.empty()) {
    rule = std::max_element(
               result.central.rules.begin(), result.central.rules.end(),
               [](const simulation::RuleUse& a, const simulation::RuleUse& b) { return a.used < b.used; })
               ->rule;
  }
  result.effects = number_effects(scenario, half_worn(dull), rule, options,
                                  [&](double done, double runs) { tell(1.0 + slope_work * done / runs); });

  const std::vector<double> direction = conditioned(result.effects, options.evidence);
  double variance = 0.0;
  for (std::size_t k = 0; k < direction.size(); ++k) variance += direction[k] * result.effects[k].slope;
  result.half_band = std::sqrt(std::max(0.0, variance));
  std::vector<std::string> names;
  std::vector<double> towards_wear, towards_life;
  for (std::size_t k = 0; k < direction.size(); ++k) {
    const double step = result.half_band > 0.0 ? direction[k] / result.half_band : 0.0;
    names.push_back(result.effects[k].name);
    towards_wear.push_back(step);
    towards_life.push_back(-step);
    // What an inspection has explained may pull the other way; it is no part of what is left.
    result.effects[k].share = std::max(0.0, direction[k] * result.effects[k].slope);
  }
  double shares = 0.0;
  for (const NumberEffect& effect : result.effects) shares += effect.share;
  for (NumberEffect& effect : result.effects) effect.share = shares > 0.0 ? effect.share / shares : 0.0;
  std::stable_sort(result.effects.begin(), result.effects.end(),
                   [](const NumberEffect& a, const NumberEffect& b) { return a.share > b.share; });

  result.severe_scenario = moved(scenario, names, towards_wear);
  result.mild_scenario = moved(scenario, names, towards_life);
  std::mutex telling;
  double drilled[2] = {0.0, 0.0};
  base::parallel_for(2, options.threads, [&](int end) {
    const scenario::Scenario& side = end == 0 ? result.severe_scenario : result.mild_scenario;
    simulation::RunOutcome outcome = simulation::run(side, [&](double holes_drilled, int asked) {
      const std::lock_guard<std::mutex> lock(telling);
      drilled[end] = holes_drilled / asked;
      tell(1.0 + slope_work + drilled[0] + drilled[1]);
    });
    (end == 0 ? result.severe : result.mild) = std::move(outcome);
  });
  return result;
}

}  // namespace dullcast::analysis
