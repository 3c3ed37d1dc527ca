#include "engine/analysis/failure_outlook.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "models/failure/sudden_failure.hpp"

namespace dullcast::analysis {
namespace {

/// Probability that at least one of several parts fails, and the one most at risk.
FailureOutlook any_fails(FailureKind kind, const Eigen::ArrayXd& loads, double spread) {
  FailureOutlook outlook;
  outlook.kind = kind;
  double all_hold = 1.0, greatest = 0.0;
  for (Eigen::Index i = 0; i < loads.size(); ++i) {
    const double probability = failure::lognormal_failure_probability(loads(i), spread);
    all_hold *= 1.0 - probability;
    if (probability > greatest) {
      greatest = probability;
      outlook.cutter = static_cast<int>(i);
    }
  }
  outlook.probability = 1.0 - all_hold;
  return outlook;
}

FailureOutlook any_chips(const scenario::Scenario& scenario, const Eigen::ArrayXd& hazard) {
  FailureOutlook outlook;
  outlook.kind = FailureKind::chip;
  if (hazard.size() == 0) return outlook;
  Eigen::ArrayXd gained = hazard;
  const Eigen::ArrayXd& before = scenario.bit.starting_chip_hazard;
  if (before.size() == hazard.size()) gained -= before;
  Eigen::Index worst = 0;
  if (gained.maxCoeff(&worst) > 0.0) outlook.cutter = static_cast<int>(worst);
  outlook.probability = -std::expm1(-gained.sum());
  return outlook;
}

std::optional<FailureKind> failure_of(simulation::EventKind kind) {
  switch (kind) {
    case simulation::EventKind::chip:
      return FailureKind::chip;
    case simulation::EventKind::table_ruined:
      return FailureKind::table_ruined;
    case simulation::EventKind::table_lost:
      return FailureKind::table_lost;
    case simulation::EventKind::cutter_lost:
      return FailureKind::cutter_lost;
    case simulation::EventKind::blade_sheared:
      return FailureKind::blade_sheared;
    default:
      return std::nullopt;
  }
}

}  // namespace

const char* failure_words(FailureKind kind) {
  switch (kind) {
    case FailureKind::chip:
      return "an edge chips";
    case FailureKind::table_ruined:
      return "heat ruins a diamond table";
    case FailureKind::table_lost:
      return "a diamond table comes off its carbide";
    case FailureKind::cutter_lost:
      return "a cutter leaves its pocket";
    case FailureKind::blade_sheared:
      return "a blade shears off";
  }
  return "";
}

std::vector<FailureOutlook> failure_outlook(const scenario::Scenario& scenario,
                                            const simulation::RunOutcome& outcome) {
  const simulation::BitCondition& bit = outcome.rework_due ? outcome.rework_due->condition : outcome.end;
  const double until =
      outcome.rework_due ? outcome.rework_due->footage : std::numeric_limits<double>::infinity();
  const double cutter_spread = scenario.bit.lot.strength_spread.central;
  std::vector<FailureOutlook> all;
  all.push_back(any_chips(scenario, bit.chip_hazard));
  FailureOutlook heat;
  heat.kind = FailureKind::table_ruined;
  Eigen::Index hottest = 0;
  if (bit.heat_damage.size() > 0 && bit.heat_damage.maxCoeff(&hottest) > 0.0) {
    heat.probability = std::min(1.0, bit.heat_damage(hottest));
    heat.cutter = static_cast<int>(hottest);
  }
  all.push_back(heat);
  all.push_back(any_fails(FailureKind::table_lost, bit.bond_load, cutter_spread));
  all.push_back(any_fails(FailureKind::cutter_lost, bit.pocket_load, cutter_spread));
  all.push_back(any_fails(
      FailureKind::blade_sheared,
      Eigen::ArrayXd::Constant(std::max<Eigen::Index>(scenario.bit.layout.blades, 1), bit.blade_load),
      scenario.bit.body.strength_spread.central));
  all.back().cutter = -1;

  std::vector<FailureOutlook> happened;
  for (const simulation::Event& event : outcome.events) {
    const std::optional<FailureKind> kind = failure_of(event.kind);
    if (!kind || event.footage > until) continue;
    auto known = std::find_if(happened.begin(), happened.end(),
                              [&](const FailureOutlook& one) { return one.kind == *kind; });
    if (known == happened.end()) {
      happened.push_back({*kind, true, 0, 1.0, event.cutter, event.hole, event.depth, event.footage});
      known = happened.end() - 1;
    }
    ++known->times;
  }
  std::erase_if(all, [&](const FailureOutlook& one) {
    return std::any_of(happened.begin(), happened.end(),
                       [&](const FailureOutlook& other) { return other.kind == one.kind; });
  });
  std::stable_sort(all.begin(), all.end(), [](const FailureOutlook& a, const FailureOutlook& b) {
    return a.probability > b.probability;
  });
  all.insert(all.begin(), happened.begin(), happened.end());
  return all;
}

}  // namespace dullcast::analysis
