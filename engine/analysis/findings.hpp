#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/analysis/life_findings.hpp"
#include "engine/analysis/sensitivity_findings.hpp"
#include "engine/analysis/trade_off.hpp"
#include "engine/storage/sweep_table.hpp"

namespace dullcast::analysis {

struct FindingsOptions {
  double confidence = 0.95;
  TradeOffLimits limits;
  std::optional<long> point;          // from 1: tell the life at this point rather than at the best
  statistics::Resampling resampling;  // its confidence is set from the one above
};

/// Which cases the life is told over.
enum class LifeScope {
  none,         // a sweep of trajectories says nothing of probabilities; or no point keeps the limits
  all_cases,    // each case is a draw of its own
  plain_draws,  // of a sweep of variance shares: the members that are plain draws
  best_point,
  asked_point
};

/// What the runs of a sweep mean.
struct Findings {
  double confidence = 0.0;
  TradeOffLimits limits;
  long failed = 0;
  std::vector<storage::SweepFailure> first_failures;  // five at most
  LifeScope scope = LifeScope::none;
  std::optional<long> point;  // from 0, that life and sensitivities are told at
  std::optional<LifeFinding> life;
  statistics::LifetimeCurve curve;  // of rotating time, s
  std::optional<statistics::WeibullFit> weibull;
  std::vector<statistics::WeibullPoint> weibull_points;
  std::vector<LifeFinding> life_by_point;  // where points have several draws each
  std::vector<Sensitivity> sensitivities;
  std::optional<TradeOff> trade_off;  // where there are settings at several points
};

/// Finds all of it. A sweep of settings with several draws a point is told at its best point (trade_off), at
/// every point in `life_by_point`; otherwise over all cases, of which those in a sweep of variance shares
/// that are not plain draws are left out, and for a sweep of trajectories not at all: its points are laid out
/// to compare factors. Deterministic. Throws std::invalid_argument for a table that lacks outcomes or does
/// not fit its design and for a point that it does not have, and std::domain_error for a confidence or share
/// of draws outside 0..1.
Findings find_meaning(const storage::SweepTable& table, const FindingsOptions& options);

/// The columns of settings, in their order.
std::vector<const storage::SweepColumn*> settings_of(const storage::SweepTable& table);

}  // namespace dullcast::analysis
