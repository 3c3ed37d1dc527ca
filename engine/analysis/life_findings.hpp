#pragma once

#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "engine/statistics/lifetime_curve.hpp"
#include "engine/statistics/weibull_plot.hpp"
#include "engine/storage/sweep_table.hpp"

namespace dullcast::analysis {

/// What a life to rework is counted in.
enum class LifeMeasure { holes, footage, rotating_time };
inline constexpr std::array<LifeMeasure, 3> life_measures{LifeMeasure::holes, LifeMeasure::footage,
                                                          LifeMeasure::rotating_time};
inline constexpr std::array<double, 3> life_shares{0.1, 0.5, 0.9};  // P10, P50, P90

/// When rework falls due over some cases of a sweep.
struct LifeFinding {
  long draws = 0, failed = 0;  // cases that ran, cases that did not
  long due = 0, finished = 0;  // rework fell due; all holes drilled and none due
  long ended_otherwise = 0;    // neither: beyond repair, standstill, a lost blade
  double holes_drilled = 0.0;  // most holes that a case without rework finished
  double finishing = 0.0;      // share of draws that finished without rework; NaN without draws
  statistics::Interval finishing_range;
  /// By measure (hole number, m, s) and share.
  std::array<std::array<statistics::LifeQuantile, 3>, 3> quantiles;
};

/// Lives in the asked measure of `cases` (from 0) that ran: to rework due, or censored where the run ended
/// without. Holes are whole: rework is due *in* hole n, and a run that finished n holes has a life longer
/// than n. Throws std::invalid_argument for a column that is missing.
std::vector<statistics::Life> lives_of(const storage::SweepTable& table, const std::vector<long>& cases,
                                       LifeMeasure measure);

/// Quantiles and the probability of finishing, with their intervals (life_quantile, probability_interval).
/// Runs that ended otherwise count as censored in the quantiles and as not finishing in the probability. In
/// holes all that finish are censored at one length, so that the ranks are exact; in metres and hours the
/// length differs from run to run with the same unknowns that decide the life, which the product-limit curve
/// takes for random.
LifeFinding find_life(const storage::SweepTable& table, const std::vector<long>& cases, double confidence);

/// An outcome's values, one per case. Throws std::invalid_argument, which names it, when the sweep lacks it.
const Eigen::ArrayXd& values_of(const storage::SweepTable& table, const std::string& name);

/// How each case (from 0) of a sweep ended. Looks at the table, which has to outlive it; throws what
/// values_of throws.
class CaseEnds {
 public:
  explicit CaseEnds(const storage::SweepTable& table);
  /// Its run threw, and it has no outcomes.
  bool failed(long k) const { return !((*failed_)(k) == 0.0) || std::isnan((*due_)(k)); }
  bool due(long k) const { return (*due_)(k) > 0.5; }
  /// All holes, and no rework due.
  bool finished(long k) const { return !failed(k) && !due(k) && (*ended_by_)(k) == last_hole_; }

 private:
  const Eigen::ArrayXd *failed_, *due_, *ended_by_;
  double last_hole_ = -1.0;  // its word's number
};

}  // namespace dullcast::analysis
