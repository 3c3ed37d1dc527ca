#include "engine/statistics/variance_shares.hpp"

#include <cmath>
#include <limits>

#include "models/common/domain.hpp"

namespace dullcast::statistics {
namespace {

/// S and then ST of every factor, from sums over rows; `f` is centred, one column a row of the design.
template <class Rows>
Eigen::ArrayXd shares_of(const Eigen::ArrayXXd& f, const Rows& rows) {
  const Eigen::Index factors = f.rows() - 2;
  Eigen::ArrayXd alone = Eigen::ArrayXd::Zero(factors), total = Eigen::ArrayXd::Zero(factors);
  double sum = 0.0, squares = 0.0;
  for (const auto row : rows) {
    const double A = f(0, row), B = f(1, row);
    sum += A + B;
    squares += A * A + B * B;
    const auto beyond = f.col(row).tail(factors) - A;
    alone += B * beyond;
    total += beyond.square();
  }
  const auto n = static_cast<double>(rows.size());
  const double mean = sum / (2.0 * n);
  // The centre moves with the rows chosen: sum of (B - mean) beyond = sum of B beyond - mean sum of beyond.
  Eigen::ArrayXd moved = Eigen::ArrayXd::Zero(factors);
  if (mean != 0.0) {
    for (const auto row : rows) moved += f.col(row).tail(factors) - f(0, row);
  }
  const double variance = squares / (2.0 * n) - mean * mean;
  Eigen::ArrayXd shares(2 * factors);
  shares << (alone - mean * moved) / (n * variance), total / (2.0 * n * variance);
  if (!(variance > 0.0)) shares.setConstant(std::numeric_limits<double>::quiet_NaN());
  return shares;
}

}  // namespace

VarianceShares variance_shares(const Eigen::ArrayXXd& outputs, const Resampling& how) {
  require_domain(outputs.cols() >= 3, "variance_shares", "each row holds A, B and at least one AB",
                 static_cast<double>(outputs.cols()));
  VarianceShares result;
  const Eigen::Index factors = outputs.cols() - 2;
  Eigen::ArrayXXd f(outputs.cols(), outputs.rows());  // turned, so that a row's outputs stand together
  for (Eigen::Index row = 0; row < outputs.rows(); ++row) {
    if (outputs.row(row).isNaN().any()) {
      ++result.left_out;
    } else {
      f.col(result.rows++) = outputs.row(row).transpose();
    }
  }
  f.conservativeResize(Eigen::NoChange, result.rows);
  result.factors.resize(static_cast<std::size_t>(factors));
  constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
  result.mean = result.rows > 0 ? f.topRows(2).mean() : not_a_number;
  result.variance = result.rows > 0 ? (f.topRows(2) - result.mean).square().mean() : not_a_number;
  if (result.rows > 0) f -= result.mean;
  std::vector<long> all(static_cast<std::size_t>(result.rows));
  for (std::size_t k = 0; k < all.size(); ++k) all[k] = static_cast<long>(k);
  // Rounding in the mean alone must not pass for a variance.
  const bool varies = result.variance > 1e-24 * result.mean * result.mean;
  const Eigen::ArrayXd shares =
      varies ? shares_of(f, all) : Eigen::ArrayXd::Constant(2 * factors, not_a_number);
  std::vector<Interval> intervals;
  if (varies)
    intervals = resampled_intervals(result.rows, how,
                                    [&](const std::vector<long>& chosen) { return shares_of(f, chosen); });
  for (std::size_t k = 0; k < result.factors.size(); ++k) {
    const auto place = static_cast<Eigen::Index>(k);
    VarianceShare& share = result.factors[k];
    share.alone = shares(place);
    share.total = shares(factors + place);
    if (intervals.empty()) continue;
    share.alone_range = intervals[k];
    share.total_range = intervals[k + result.factors.size()];
  }
  return result;
}

}  // namespace dullcast::statistics
