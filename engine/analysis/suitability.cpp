#include "engine/analysis/suitability.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/scenario/operating_weight.hpp"
#include "models/common/constants.hpp"
#include "models/hydraulics/hole_cleaning.hpp"

namespace dullcast::analysis {
namespace {

/// The 99 % point of a standard normal variable [hb]: a load of exp(-2.326 spread) of the median strength is
/// reached by one pocket in a hundred.
constexpr double ninety_nine_percent_point = 2.3263478740408408;
static_assert(suitability_limit::care_retention_probability == 0.01,
              "the point above belongs to this probability");

void add_passage(const simulation::LayerPassage& passage, LayerGround& ground) {
  const double length = passage.bottom - passage.top;
  ground.drilled += length;
  ground.rotating_time += passage.rotating_time;
  if (passage.hottest_flat > ground.hottest_flat) {
    ground.hottest_flat = passage.hottest_flat;
    ground.hottest_cutter = passage.hottest_cutter;
  }
  ground.chips_per_pass += passage.chip_hazard;
  ground.load_share = std::max(ground.load_share, passage.greatest_load_share);
  ground.solids_fraction += passage.mean_solids_fraction * passage.rotating_time;
  ground.lifted_share = std::min(ground.lifted_share, passage.lifted_share);
  ground.balling_risk = std::max(ground.balling_risk, passage.balling_risk);
}

/// The uphole flow that the plan gives a layer, where it is least.
void add_uphole_flow(const scenario::Scenario& scenario, LayerGround& ground) {
  const double R = scenario.bit.layout.bit_radius, pipe = 0.5 * scenario.string.pipe_diameter;
  const double hole = pi * R * R, annulus = hole - pi * pipe * pipe;
  double least = std::numeric_limits<double>::infinity();
  for (const scenario::OperatingInterval& interval : scenario.plan) {
    if (std::max(interval.from, ground.top) >= std::min(interval.to, ground.bottom)) continue;
    least =
        std::min(least, scenario::fluid_at_bit(scenario.fluid, interval, scenario.inlet_temperature).flow);
  }
  if (!std::isfinite(least)) return;
  ground.uphole_velocity = least / annulus;
  ground.cleaning_index =
      hydraulics::cleaning_index(least, ground.lifted_share, ground.mean_rate_of_penetration * hole);
}

/// Sums of one hole's passages of one layer, which a change of settings may have cut in several.
struct OneHole {
  int hole = -1;
  double drilled = 0.0, worn = 0.0;  // m
  double unchipped = 1.0;            // probability that the worst cutter of each passage came through
  double film = 0.0;                 // s
};

/// Middle one of several, the lower of two; 0 of none.
double median(std::vector<double> values) {
  if (values.empty()) return 0.0;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>((values.size() - 1) / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

double rounded(double value) {
  if (!(std::abs(value) > 0.0) || !std::isfinite(value)) return value;
  const double unit = std::pow(10.0, std::floor(std::log10(std::abs(value))) - 1.0);
  return unit * std::round(value / unit);
}

/// Two figures are all that an estimate is good for.
std::string roughly(double si, const base::Shown& kind, base::ShownUnits units) {
  if (units == base::ShownUnits::both)
    return roughly(si, kind, base::ShownUnits::field) + " (" + roughly(si, kind, base::ShownUnits::si) + ")";
  if (units == base::ShownUnits::field)
    return base::show_number(rounded(si * kind.field_factor + kind.field_offset), 2) + " " + kind.field_unit;
  return base::show_number(rounded(si * kind.si_factor + kind.si_offset), 2) + " " + kind.si_unit;
}

std::string percent(double share) {
  return base::show_number(rounded(100.0 * share), 2) + " %";
}

}  // namespace

std::vector<LayerGround> ground_of(const scenario::Scenario& scenario,
                                   const simulation::RunOutcome& outcome) {
  const auto& layers = scenario.column.layers;
  std::vector<LayerGround> all(layers.size());
  std::vector<OneHole> now(layers.size());
  std::vector<std::vector<double>> wear(layers.size());  // m a metre, of each hole that is past
  const auto finish = [&](std::size_t k) {
    if (now[k].drilled > 0.0) wear[k].push_back(now[k].worn / now[k].drilled);
  };
  for (std::size_t k = 0; k < layers.size(); ++k) {
    all[k].layer = static_cast<int>(k);
    all[k].rock = layers[k].rock.name;
    all[k].top = layers[k].top;
    all[k].bottom = layers[k].bottom;
  }
  const int last_hole = outcome.rework_due ? outcome.rework_due->hole : std::numeric_limits<int>::max();
  for (const simulation::LayerPassage& passage : outcome.passages) {
    if (passage.hole > last_hole) break;
    const auto k = static_cast<std::size_t>(passage.layer);
    LayerGround& ground = all.at(k);
    if (passage.hole != now[k].hole) {
      ++ground.passes;
      finish(k);
      now[k] = OneHole{};
      now[k].hole = passage.hole;
    }
    now[k].drilled += passage.bottom - passage.top;
    now[k].worn += passage.greatest_wear_gain;
    add_passage(passage, ground);
    now[k].unchipped *= 1.0 - passage.greatest_chip_probability;
    now[k].film += passage.time_in_film;
    ground.chip_probability = std::max(ground.chip_probability, 1.0 - now[k].unchipped);
    ground.time_in_film = std::max(ground.time_in_film, now[k].film);
  }
  for (LayerGround& ground : all) {
    const auto k = static_cast<std::size_t>(ground.layer);
    finish(k);
    ground.wear_per_metre = median(wear[k]);
    if (ground.passes > 0) ground.chips_per_pass /= ground.passes;
    if (ground.rotating_time > 0.0) {
      ground.solids_fraction /= ground.rotating_time;
      ground.mean_rate_of_penetration = ground.drilled / ground.rotating_time;
    }
    add_uphole_flow(scenario, ground);
  }
  const bool fell_due_before = outcome.rework_due && outcome.holes_finished > last_hole;
  if (outcome.ended_by == simulation::EndedBy::stopped_drilling && !fell_due_before &&
      !outcome.passages.empty())
    all.at(static_cast<std::size_t>(outcome.passages.back().layer)).stopped = true;
  return all;
}

double wear_allowance(const scenario::Scenario& scenario) {
  if (scenario.rules.worn_height) return *scenario.rules.worn_height;
  return scenario.rules.beyond_repair_share * scenario.bit.layout.exposure.minCoeff();
}

double care_load_share(const scenario::Scenario& scenario) {
  const double spread =
      std::max(scenario.bit.lot.strength_spread.central, scenario.bit.body.strength_spread.central);
  return std::exp(-ninety_nine_percent_point * spread);
}

const char* verdict_words(Verdict verdict) {
  switch (verdict) {
    case Verdict::not_reached:
      return "not reached";
    case Verdict::go:
      return "go";
    case Verdict::with_care:
      return "go with care";
    case Verdict::wrong_bit:
      return "wrong bit";
  }
  return "";
}

std::vector<LayerSuitability> suitability(const scenario::Scenario& scenario,
                                          const simulation::RunOutcome& outcome) {
  namespace at = suitability_limit;
  const double acceleration = scenario.numbers.acceleration_temperature.central;
  const double packed = scenario.numbers.packed_fraction.central;
  const double care_load = care_load_share(scenario);
  std::vector<LayerSuitability> all;
  for (const LayerGround& ground : ground_of(scenario, outcome)) {
    LayerSuitability layer;
    layer.ground = ground;
    layer.metres_to_allowance = ground.wear_per_metre > 0.0 ? wear_allowance(scenario) / ground.wear_per_metre
                                                            : std::numeric_limits<double>::infinity();
    all.push_back(layer);
    if (ground.passes == 0) continue;
    std::vector<Finding>& findings = all.back().findings;
    const auto above = [&](Concern concern, double value, double care, double wrong) {
      if (value >= wrong)
        findings.push_back({concern, Verdict::wrong_bit, value, wrong});
      else if (value >= care)
        findings.push_back({concern, Verdict::with_care, value, care});
    };
    const auto below = [&](Concern concern, double value, double care, double wrong) {
      if (value <= wrong)
        findings.push_back({concern, Verdict::wrong_bit, value, wrong});
      else if (value <= care)
        findings.push_back({concern, Verdict::with_care, value, care});
    };
    constexpr double never = std::numeric_limits<double>::infinity();
    above(Concern::heat, ground.hottest_flat, acceleration, at::damage_temperature);
    if (ground.drilled > 0.0)
      below(Concern::wear, layer.metres_to_allowance, at::care_metres, at::wrong_metres);
    above(Concern::chips, ground.chips_per_pass, at::care_chips, at::wrong_chips);
    above(Concern::retention, ground.load_share, care_load, 1.0);
    if (ground.stopped)
      findings.push_back({Concern::standstill, Verdict::wrong_bit, ground.mean_rate_of_penetration,
                          scenario.rules.least_progress});
    else if (ground.rotating_time > 0.0)
      below(Concern::progress, ground.mean_rate_of_penetration, at::care_progress, at::wrong_progress);
    above(Concern::packing, packed > 0.0 ? ground.solids_fraction / packed : 0.0, at::care_packing, never);
    if (!hydraulics::cleans_hole(ground.lifted_share, ground.cleaning_index))
      findings.push_back(
          {Concern::cleaning, Verdict::with_care, ground.lifted_share, hydraulics::lifting_share});
    above(Concern::balling, ground.balling_risk, at::care_balling, never);
    above(Concern::steam, ground.time_in_film, at::care_film, never);
    std::stable_sort(findings.begin(), findings.end(),
                     [](const Finding& a, const Finding& b) { return a.verdict > b.verdict; });
    all.back().verdict = findings.empty() ? Verdict::go : findings.front().verdict;
  }
  return all;
}

std::string finding_words(const LayerSuitability& layer, const Finding& finding, base::ShownUnits units) {
  const LayerGround& ground = layer.ground;
  switch (finding.concern) {
    case Concern::heat:
      return "a flat reaches " + base::show(finding.value, base::shown::temperature, units) + ", past the " +
             base::show(finding.limit, base::shown::temperature, units) +
             (finding.verdict == Verdict::wrong_bit ? " that ruins diamond"
                                                    : " from which diamond wears fast");
    case Concern::wear:
      return "wear is used up in " + roughly(finding.value, base::shown::depth, units) + " of it";
    case Concern::chips:
      return "about " + base::show_number(rounded(finding.value), 2) +
             " edges chip a pass (one cutter up to " + percent(ground.chip_probability) + ")";
    case Concern::retention:
      return "a seat, bond or blade bears " + percent(finding.value) + " of its median strength";
    case Concern::progress:
      return "only " + base::show(finding.value, base::shown::progress, units);
    case Concern::standstill:
      return "the bit stops drilling in it";
    case Concern::packing:
      return "junk slots fill to " + percent(finding.value) + " of packed";
    case Concern::cleaning:
      return "uphole flow of " + base::show(ground.uphole_velocity, base::shown::fluid_speed, units) +
             (finding.value < finding.limit
                  ? " lifts only " + percent(finding.value) + " of the cuttings"
                  : std::string(" carries them too thick: over 5 % of it is cuttings"));
    case Concern::balling:
      return "balling risk " + base::show_number(finding.value, 2) + " on a scale of 1";
    case Concern::steam:
      return "a cutter spends " + base::show_number(rounded(finding.value), 2) + " s a pass under steam";
  }
  return "";
}

std::vector<std::string> reasons(const LayerSuitability& layer, base::ShownUnits units) {
  std::vector<std::string> all;
  for (const Finding& finding : layer.findings) all.push_back(finding_words(layer, finding, units));
  if (layer.verdict == Verdict::go) {
    all.push_back("flats to " + base::show(layer.ground.hottest_flat, base::shown::temperature, units));
    constexpr double hardly_any_wear = 1e5;  // m to the allowance
    all.push_back(layer.metres_to_allowance < hardly_any_wear
                      ? roughly(layer.metres_to_allowance, base::shown::depth, units) +
                            " to the wear allowance"
                      : std::string("no wear to speak of"));
  }
  return all;
}

}  // namespace dullcast::analysis
