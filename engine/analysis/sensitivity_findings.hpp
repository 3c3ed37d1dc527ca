#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/statistics/elementary_effects.hpp"
#include "engine/statistics/rank_correlation.hpp"
#include "engine/statistics/variance_shares.hpp"
#include "engine/storage/sweep_table.hpp"

namespace dullcast::analysis {

/// What one factor of a sweep does to an outcome: one of the three, by the sweep's design.
struct FactorSensitivity {
  std::string name;  // of its column, without coordinate_ before it
  std::string told;  // what people call it: "strength of layer 5 (hard sandstone)", "lenses of gravel",
                     // "rotary speed"
  std::optional<statistics::ElementaryEffect> effect;
  std::optional<statistics::VarianceShare> share;
  std::optional<statistics::RankCorrelation> rank;
};

enum class SensitivityKind { elementary_effects, variance_shares, rank_correlation };
const char* sensitivity_name(SensitivityKind kind);

struct Sensitivity {
  SensitivityKind kind = SensitivityKind::rank_correlation;
  std::string outcome, units;              // "life", "cost_per_metre", "hottest_flat", "expected_chips"
  std::vector<FactorSensitivity> factors;  // the strongest first; none where there is no life to rank by
  long used = 0, left_out = 0;             // trajectories, rows or pairs
  /// Of "life", among the runs looked at: lives that ended with rework due, and runs that ended before that,
  /// which have no life and are left out.
  long lives_ended = 0, censored = 0;
};

/// Sensitivities of four outcomes by the design: elementary effects (point p, from 0, is step p % (k + 1) of
/// trajectory p/(k + 1)) and variance shares (member p % (k + 2) of row p/(k + 2): A, B, AB_1 .. AB_k) from
/// the coordinate columns, over the mean of a point's draws (a point with a failed draw has none); rank
/// correlations otherwise. These look at uncertain columns over the draws of `point` (from 0), or over all
/// cases where draws are not alike or there is one a point, and, where the design spreads points over the
/// settings (not a grid), at settings over points. Life
/// is the rotating time to rework due; a run in which it did not fall due has none (the hours that it drilled
/// are no life), so its trajectory, row or pair is left out, which hides what makes lives longer than the
/// runs. Where nothing is left, life has no factors. Throws std::invalid_argument for a table that does not
/// fit its design, and what the estimators throw.
std::vector<Sensitivity> find_sensitivities(const storage::SweepTable& table, std::optional<long> point,
                                            const statistics::Resampling& how);

/// Whether the design is one of the two made for sensitivities.
bool made_for_sensitivities(const storage::SweepTable& table);

/// Rotating time to rework due, s; NaN where it did not fall due and where the case failed.
Eigen::ArrayXd lives_ended(const storage::SweepTable& table);

/// Cases (from 0) of a variance-shares sweep that are plain independent draws: members A and B.
std::vector<long> plain_draws(const storage::SweepTable& table);

}  // namespace dullcast::analysis
