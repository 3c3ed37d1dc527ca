#include "engine/statistics/correlated_shares.hpp"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <stdexcept>

#include "engine/statistics/normal_law.hpp"

namespace dullcast::statistics {

Eigen::MatrixXd correlation_root(const Eigen::MatrixXd& correlation) {
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> parts(correlation);
  const Eigen::VectorXd roots = parts.eigenvalues().cwiseMax(0.0).cwiseSqrt();
  return parts.eigenvectors() * roots.asDiagonal() * parts.eigenvectors().transpose();
}

void make_go_together(std::vector<double>& shares, const Eigen::MatrixXd& root) {
  const auto count = static_cast<Eigen::Index>(shares.size());
  if (root.rows() != count || root.cols() != count)
    throw std::invalid_argument("make_go_together: as many shares as the root has rows are needed");
  constexpr double end = 1e-16;
  Eigen::VectorXd normal(count);
  for (Eigen::Index i = 0; i < count; ++i)
    normal(i) = standard_normal_quantile(std::clamp(shares[static_cast<std::size_t>(i)], end, 1.0 - end));
  const Eigen::VectorXd drawn = root * normal;
  constexpr double nothing = 1e-12;
  for (Eigen::Index i = 0; i < count; ++i) {
    const bool alone =
        (root.row(i).transpose() - Eigen::VectorXd::Unit(count, i)).cwiseAbs().maxCoeff() < nothing;
    if (!alone) shares[static_cast<std::size_t>(i)] = standard_normal_share(drawn(i));
  }
}

}  // namespace dullcast::statistics
