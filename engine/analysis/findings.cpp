#include "engine/analysis/findings.hpp"

#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>

namespace dullcast::analysis {
namespace {

constexpr std::size_t failures_told = 5;

std::vector<long> cases_from(long first, long count) {
  std::vector<long> cases(static_cast<std::size_t>(count));
  std::iota(cases.begin(), cases.end(), first);
  return cases;
}

/// A run that made no hole has no cost per metre; as a choice it is infinitely dear.
Eigen::ArrayXd cost_of_choice(const storage::SweepTable& table) {
  Eigen::ArrayXd cost = values_of(table, "cost_per_metre");
  const CaseEnds ends(table);
  for (long k = 0; k < table.cases(); ++k) {
    if (std::isnan(cost(k)) && !ends.failed(k)) cost(k) = std::numeric_limits<double>::infinity();
  }
  return cost;
}

/// 1 where a case finished all holes without rework, 0 where not, NaN where it failed.
Eigen::ArrayXd finished_without_rework(const storage::SweepTable& table) {
  const CaseEnds ends(table);
  Eigen::ArrayXd finished(table.cases());
  for (long k = 0; k < table.cases(); ++k)
    finished(k) = ends.failed(k) ? std::numeric_limits<double>::quiet_NaN() : ends.finished(k) ? 1.0 : 0.0;
  return finished;
}

TradeOff trade_off_of(const storage::SweepTable& table, const FindingsOptions& options) {
  TradeOffCases cases;
  cases.points = table.points;
  cases.draws = table.draws;
  cases.draws_alike = table.draws_alike;
  cases.cost_per_metre = cost_of_choice(table);
  cases.hottest_flat = values_of(table, "hottest_flat");
  cases.expected_chips = values_of(table, "expected_chips");
  cases.finished = finished_without_rework(table);
  return trade_off(cases, options.limits, options.confidence);
}

/// Chooses the cases that life is told over.
std::vector<long> choose_cases(const storage::SweepTable& table, const FindingsOptions& options,
                               Findings& findings) {
  if (!options.point && table.design == "elementary_effects") return {};
  if (options.point) {
    findings.scope = LifeScope::asked_point;
    findings.point = *options.point - 1;
  } else if (table.design == "variance_shares") {
    findings.scope = LifeScope::plain_draws;
    return plain_draws(table);
  } else if (table.points == 1 || table.draws == 1 || !findings.trade_off) {
    findings.scope = LifeScope::all_cases;
    return cases_from(0, table.cases());
  } else if (findings.trade_off->best) {
    findings.scope = LifeScope::best_point;
    findings.point = findings.trade_off->best;
  } else {
    return {};
  }
  return cases_from(*findings.point * table.draws, table.draws);
}

}  // namespace

std::vector<const storage::SweepColumn*> settings_of(const storage::SweepTable& table) {
  std::vector<const storage::SweepColumn*> settings;
  for (const storage::SweepColumn& column : table.columns) {
    if (column.role == storage::ColumnRole::setting) settings.push_back(&column);
  }
  return settings;
}

Findings find_meaning(const storage::SweepTable& table, const FindingsOptions& options) {
  if (table.points < 1 || table.draws < 1) throw std::invalid_argument("the sweep has no cases");
  if (options.point && !(*options.point >= 1 && *options.point <= table.points))
    throw std::invalid_argument("the sweep has points 1 to " + std::to_string(table.points) + ", not " +
                                std::to_string(*options.point));
  statistics::require_confidence(options.confidence, "find_meaning");
  Findings findings;
  findings.confidence = options.confidence;
  findings.limits = options.limits;
  const CaseEnds ends(table);
  for (long k = 0; k < table.cases(); ++k) findings.failed += ends.failed(k) ? 1 : 0;
  for (const storage::SweepFailure& failure : table.failures) {
    if (findings.first_failures.size() < failures_told) findings.first_failures.push_back(failure);
  }
  if (table.points > 1 && !settings_of(table).empty() && !made_for_sensitivities(table))
    findings.trade_off = trade_off_of(table, options);

  const std::vector<long> cases = choose_cases(table, options, findings);
  if (!cases.empty()) {
    findings.life = find_life(table, cases, options.confidence);
    const std::vector<statistics::Life> lives = lives_of(table, cases, LifeMeasure::rotating_time);
    findings.curve = statistics::lifetime_curve(lives, options.confidence);
    findings.weibull = statistics::fit_weibull(lives, options.confidence);
    findings.weibull_points = statistics::weibull_points(lives);
  }
  if (table.draws > 1 && findings.trade_off) {
    for (long point = 0; point < table.points; ++point)
      findings.life_by_point.push_back(
          find_life(table, cases_from(point * table.draws, table.draws), options.confidence));
  }
  statistics::Resampling resampling = options.resampling;
  resampling.confidence = options.confidence;
  findings.sensitivities = find_sensitivities(table, findings.point, resampling);
  return findings;
}

}  // namespace dullcast::analysis
