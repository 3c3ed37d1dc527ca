#include "engine/analysis/inspection_evidence.hpp"

#include <algorithm>

namespace dullcast::analysis {

scenario::Scenario with_evidence(scenario::Scenario scenario, const InspectionEvidence& evidence) {
  scenario::Quantity& abrasion = scenario.numbers.abrasion_coefficient;
  for (double* value : {&abrasion.low, &abrasion.central, &abrasion.high})
    *value *= evidence.coefficient_factor;
  if (evidence.cutting_wear_share) scenario.numbers.cutting_wear_share = *evidence.cutting_wear_share;
  return scenario;
}

WhatIsLeft what_is_left(const std::vector<NumberEffect>& effects,
                        const std::optional<InspectionEvidence>& evidence) {
  // The inspected slopes of the numbers here, and the squares of those of numbers that are not here.
  std::vector<double> inspected(effects.size(), 0.0);
  double elsewhere = 0.0, shared = 0.0, read = 0.0, error = 0.0;
  if (evidence) {
    error = evidence->noise * evidence->noise;
    for (const NumberEffect& known : evidence->effects) {
      read += known.slope * known.slope;
      const auto here = std::find_if(effects.begin(), effects.end(),
                                     [&](const NumberEffect& effect) { return effect.name == known.name; });
      if (here == effects.end()) {
        elsewhere += known.slope * known.slope;
      } else {
        inspected[static_cast<std::size_t>(here - effects.begin())] = known.slope;
        shared += known.slope * here->slope;
      }
    }
  }
  const double taught = read + error > 0.0 ? shared / (read + error) : 0.0;
  WhatIsLeft left;
  left.inspection_share = taught * taught * (error + elsewhere);
  double all = left.inspection_share;
  for (std::size_t k = 0; k < effects.size(); ++k) {
    const double otherwise = effects[k].slope - taught * inspected[k];
    left.pull.push_back(otherwise);
    left.variance += otherwise * effects[k].slope;
    left.shares.push_back(otherwise * otherwise);
    all += otherwise * otherwise;
  }
  left.variance = std::max(0.0, left.variance);
  for (double& share : left.shares) share = all > 0.0 ? share / all : 0.0;
  left.inspection_share = all > 0.0 ? left.inspection_share / all : 0.0;
  return left;
}

void condition_draw(std::vector<double>& coordinates, const std::vector<std::string>& names,
                    const InspectionEvidence& evidence, const std::vector<double>& elsewhere, double error) {
  double read = evidence.noise * evidence.noise, reading = evidence.noise * error;
  std::vector<double> inspected(names.size(), 0.0);
  std::size_t other = 0;
  for (const NumberEffect& known : evidence.effects) {
    const auto here = std::find(names.begin(), names.end(), known.name);
    read += known.slope * known.slope;
    if (here == names.end()) {
      reading += known.slope * elsewhere[other++];
    } else {
      const auto k = static_cast<std::size_t>(here - names.begin());
      inspected[k] = known.slope;
      reading += known.slope * coordinates[k];
    }
  }
  if (!(read > 0.0)) return;
  for (std::size_t k = 0; k < names.size(); ++k) coordinates[k] -= inspected[k] * reading / read;
}

}  // namespace dullcast::analysis
