#include "engine/analysis/sensitivity_findings.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <string_view>

#include "engine/analysis/life_findings.hpp"
#include "engine/base/words.hpp"

namespace dullcast::analysis {
namespace {

std::vector<const storage::SweepColumn*> columns_of(const storage::SweepTable& table,
                                                    storage::ColumnRole role) {
  std::vector<const storage::SweepColumn*> columns;
  for (const storage::SweepColumn& column : table.columns) {
    if (column.role != role) continue;
    values_of(table, column.name);  // for its length
    columns.push_back(&column);
  }
  return columns;
}

/// Mean over each point's draws; NaN where one failed.
Eigen::ArrayXd by_point(const storage::SweepTable& table, const Eigen::ArrayXd& values) {
  Eigen::ArrayXd means(table.points);
  for (long point = 0; point < table.points; ++point)
    means(point) = values.segment(point * table.draws, table.draws).mean();
  return means;
}

struct Outcome {
  std::string name, units;
  Eigen::ArrayXd values;
  long censored = 0, ended = 0;  // lives; 0 of other outcomes
};

/// Counts the lives of the cases [first, first + count).
void count_lives(const storage::SweepTable& table, long first, long count, Outcome& life) {
  const CaseEnds ends(table);
  life.censored = life.ended = 0;
  for (long k = first; k < first + count; ++k) {
    if (!ends.failed(k)) ++(ends.due(k) ? life.ended : life.censored);
  }
}

std::vector<Outcome> outcomes_of(const storage::SweepTable& table) {
  std::vector<Outcome> outcomes{{"life", "s", lives_ended(table)}};
  count_lives(table, 0, table.cases(), outcomes[0]);
  for (const char* name : {"cost_per_metre", "hottest_flat", "expected_chips"})
    outcomes.push_back({name, table.find(name) ? table.find(name)->units : "", values_of(table, name)});
  return outcomes;
}

/// The factor whose coordinate a column holds.
std::string factor_of(const storage::SweepColumn& column) {
  const std::string before = "coordinate_";
  return column.name.rfind(before, 0) == 0 ? column.name.substr(before.size()) : column.name;
}

FactorSensitivity factor_in(const storage::SweepColumn& column) {
  FactorSensitivity factor;
  factor.name = factor.told = factor_of(column);
  const std::string_view meaning = column.meaning;
  if (meaning.starts_with(storage::multiplies_the))
    factor.told = meaning.substr(storage::multiplies_the.size());
  if (meaning.ends_with(storage::met_by_chance))
    factor.told = meaning.substr(0, meaning.size() - storage::met_by_chance.size());
  factor.told = base::spoken(factor.told);
  return factor;
}

double strength(const FactorSensitivity& factor) {
  // A correlation of too few pairs to say is no strength.
  if (factor.rank && std::isnan(factor.rank->range.low)) return -1.0;
  const double value = factor.effect  ? factor.effect->mean_size
                       : factor.share ? factor.share->total
                                      : std::abs(factor.rank->value);
  return std::isnan(value) ? -1.0 : value;
}

void sort_by_strength(Sensitivity& sensitivity) {
  std::stable_sort(
      sensitivity.factors.begin(), sensitivity.factors.end(),
      [](const FactorSensitivity& a, const FactorSensitivity& b) { return strength(a) > strength(b); });
}

void require_whole(const storage::SweepTable& table, long group, const char* what) {
  if (group > 2 && table.points % group == 0) return;
  throw std::invalid_argument("the sweep's " + std::to_string(table.points) +
                              " points are no whole number of " + what + " of " + std::to_string(group));
}

Eigen::ArrayXXd coordinates_of(const storage::SweepTable& table,
                               const std::vector<const storage::SweepColumn*>& columns) {
  Eigen::ArrayXXd coordinates(table.points, static_cast<Eigen::Index>(columns.size()));
  for (std::size_t k = 0; k < columns.size(); ++k) {
    for (long point = 0; point < table.points; ++point)
      coordinates(point, static_cast<Eigen::Index>(k)) = columns[k]->values(point * table.draws);
  }
  return coordinates;
}

/// What is found of an outcome before any factor is.
Sensitivity begun(SensitivityKind kind, const Outcome& outcome) {
  Sensitivity found;
  found.kind = kind;
  found.outcome = outcome.name;
  found.units = outcome.units;
  found.lives_ended = outcome.ended;
  found.censored = outcome.censored;
  return found;
}

Sensitivity by_trajectories(const storage::SweepTable& table, const Outcome& outcome,
                            const statistics::Resampling& how) {
  const auto columns = columns_of(table, storage::ColumnRole::coordinate);
  if (columns.empty())
    throw std::invalid_argument("the sweep has no coordinates to take elementary effects from");
  Sensitivity found = begun(SensitivityKind::elementary_effects, outcome);
  const statistics::ElementaryEffects effects =
      statistics::elementary_effects(by_point(table, outcome.values), coordinates_of(table, columns), how);
  found.used = effects.trajectories;
  found.left_out = effects.left_out;
  for (std::size_t k = 0; k < columns.size(); ++k)
    found.factors.emplace_back(factor_in(*columns[k])).effect = effects.factors[k];
  return found;
}

/// AB_i stands at A but for factor i, where it stands at B; otherwise the shares would be of something else.
void check_members(const Eigen::ArrayXXd& coordinates, long members) {
  for (Eigen::Index row = 0; row < coordinates.rows(); row += members) {
    for (Eigen::Index i = 0; i + 2 < members; ++i) {
      Eigen::ArrayXXd wanted = coordinates.row(row);
      wanted(0, i) = coordinates(row + 1, i);
      if (!(coordinates.row(row + 2 + i) == wanted).all())
        throw std::invalid_argument("point " + std::to_string(row + 3 + i) +
                                    " of the sweep is not its row's A with one factor of B");
    }
  }
}

Sensitivity by_members(const storage::SweepTable& table, const Outcome& outcome,
                       const statistics::Resampling& how) {
  const auto columns = columns_of(table, storage::ColumnRole::coordinate);
  const long members = static_cast<long>(columns.size()) + 2;
  require_whole(table, members, "rows");
  check_members(coordinates_of(table, columns), members);
  const Eigen::ArrayXd means = by_point(table, outcome.values);
  Eigen::ArrayXXd outputs(table.points / members, members);
  for (long point = 0; point < table.points; ++point)
    outputs(point / members, point % members) = means(point);
  const statistics::VarianceShares shares = statistics::variance_shares(outputs, how);
  Sensitivity found = begun(SensitivityKind::variance_shares, outcome);
  found.used = shares.rows;
  found.left_out = shares.left_out;
  for (std::size_t k = 0; k < columns.size(); ++k)
    found.factors.emplace_back(factor_in(*columns[k])).share = shares.factors[k];
  return found;
}

bool varies(const Eigen::ArrayXd& values) {
  return values.size() > 1 && !(values == values(0)).all();
}

std::optional<Sensitivity> by_ranks(const storage::SweepTable& table, Outcome outcome,
                                    std::optional<long> point, double confidence) {
  const bool over_all = table.draws == 1 || !table.draws_alike;
  const long first = over_all ? 0 : point.value_or(0) * table.draws,
             count = over_all ? table.cases() : table.draws;
  const bool over_draws = over_all || point || table.points == 1;
  if (outcome.name == "life" && over_draws) count_lives(table, first, count, outcome);
  Sensitivity found = begun(SensitivityKind::rank_correlation, outcome);
  const auto add = [&](const storage::SweepColumn& column, const Eigen::ArrayXd& x, const Eigen::ArrayXd& y) {
    if (!column.words.empty() || !varies(x)) return;
    const statistics::RankCorrelation rank = statistics::rank_correlation(x, y, confidence);
    found.used = std::max(found.used, rank.pairs);
    found.left_out = std::max(found.left_out, rank.left_out);
    found.factors.emplace_back(factor_in(column)).rank = rank;
  };
  if (over_draws) {
    for (const storage::SweepColumn* column : columns_of(table, storage::ColumnRole::uncertain))
      add(*column, column->values.segment(first, count), outcome.values.segment(first, count));
  }
  if (table.design != "grid" && table.points > 1) {
    for (const storage::SweepColumn* column : columns_of(table, storage::ColumnRole::setting))
      add(*column, by_point(table, column->values), by_point(table, outcome.values));
  }
  return found.factors.empty() ? std::nullopt : std::optional<Sensitivity>(found);
}

}  // namespace

const char* sensitivity_name(SensitivityKind kind) {
  switch (kind) {
    case SensitivityKind::elementary_effects:
      return "elementary_effects";
    case SensitivityKind::variance_shares:
      return "variance_shares";
    case SensitivityKind::rank_correlation:
      return "rank_correlation";
  }
  throw std::logic_error("sensitivity_name: not a kind");
}

bool made_for_sensitivities(const storage::SweepTable& table) {
  return table.design == "elementary_effects" || table.design == "variance_shares";
}

Eigen::ArrayXd lives_ended(const storage::SweepTable& table) {
  const CaseEnds ends(table);
  Eigen::ArrayXd lives = values_of(table, "due_rotating_time");
  for (long k = 0; k < table.cases(); ++k) {
    if (ends.failed(k) || !ends.due(k)) lives(k) = std::numeric_limits<double>::quiet_NaN();
  }
  return lives;
}

std::vector<long> plain_draws(const storage::SweepTable& table) {
  const long members = static_cast<long>(columns_of(table, storage::ColumnRole::coordinate).size()) + 2;
  std::vector<long> cases;
  for (long k = 0; k < table.cases(); ++k) {
    if (k / table.draws % members < 2) cases.push_back(k);
  }
  return cases;
}

std::vector<Sensitivity> find_sensitivities(const storage::SweepTable& table, std::optional<long> point,
                                            const statistics::Resampling& how) {
  std::vector<Sensitivity> all;
  for (const Outcome& outcome : outcomes_of(table)) {
    std::optional<Sensitivity> found;
    if (table.design == "elementary_effects") {
      found = by_trajectories(table, outcome, how);
    } else if (table.design == "variance_shares") {
      found = by_members(table, outcome, how);
    } else {
      found = by_ranks(table, outcome, point, how.confidence);
    }
    if (!found) continue;
    // Where nothing ended there is no life, and drilling time would stand in its place.
    if (outcome.name == "life" && (found->lives_ended == 0 || found->used == 0)) found->factors.clear();
    sort_by_strength(*found);
    all.push_back(*found);
  }
  return all;
}

}  // namespace dullcast::analysis
