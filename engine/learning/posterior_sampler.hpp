#pragma once

#include <Eigen/Core>
#include <cstdint>
#include <functional>

namespace dullcast::learning {

/// Draws from a density, a row a draw, of several chains one after the other.
struct Sampled {
  Eigen::MatrixXd draws;
  int chains = 0;
  double accepted = 0.0;      // 1, share of the steps that were taken
  double worst_mixing = 1.0;  // 1, of any parameter: R-hat, near 1 once the chains tell the same
  Eigen::VectorXd mean() const { return draws.colwise().mean(); }
  Eigen::VectorXd deviation() const;
  /// The value below which a share of a parameter's draws lies.
  double quantile(Eigen::Index parameter, double share) const;
};

struct SamplerOptions {
  int chains = 4, steps = 2000;  // steps of each chain, of which the first half is thrown away
  std::uint64_t seed = 1;
  int threads = 1;
};

/// Random-walk Metropolis [pub: J. Chem. Phys. 21, 1953] on `log_density`, whose constant does not matter:
/// steps normal with 2.38^2/d times `covariance` [pub: Roberts, Gelman & Gilks, Ann. Appl. Probab. 7, 1997],
/// chains from starts twice as wide as that about `mode`. R-hat as Gelman & Rubin, Stat. Sci. 7, 1992 [pub].
/// To check what is taken to be normal against what is not. log_density is called from several threads. The
/// same seed draws the same on any number of them. Throws std::invalid_argument for fewer than 2 chains or 8
/// steps, and where the covariance is none.
Sampled sample(const std::function<double(const Eigen::VectorXd&)>& log_density, const Eigen::VectorXd& mode,
               const Eigen::MatrixXd& covariance, const SamplerOptions& options);

}  // namespace dullcast::learning
