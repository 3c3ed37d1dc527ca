#include "engine/learning/posterior_sampler.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <vector>

#include "engine/base/threads.hpp"
#include "engine/statistics/counter_random.hpp"

namespace dullcast::learning {
namespace {

/// Between and within the chains.
double mixing_of(const Eigen::MatrixXd& draws, int chains, Eigen::Index parameter) {
  const Eigen::Index length = draws.rows() / chains;
  Eigen::ArrayXd means(chains);
  double within = 0.0;
  for (int c = 0; c < chains; ++c) {
    const Eigen::ArrayXd part = draws.col(parameter).segment(c * length, length).array();
    means(c) = part.mean();
    within += (part - means(c)).square().sum() / static_cast<double>(length - 1) / chains;
  }
  const double between = (means - means.mean()).square().sum() / (chains - 1);  // of the chains' means
  const double share = static_cast<double>(length - 1) / static_cast<double>(length);
  return within > 0.0 ? std::sqrt((share * within + between) / within) : 1.0;
}

}  // namespace

Eigen::VectorXd Sampled::deviation() const {
  const Eigen::MatrixXd away = draws.rowwise() - draws.colwise().mean();
  return (away.colwise().squaredNorm() / static_cast<double>(draws.rows() - 1)).cwiseSqrt().transpose();
}

double Sampled::quantile(Eigen::Index parameter, double share) const {
  const Eigen::VectorXd column = draws.col(parameter);
  std::vector<double> values(column.begin(), column.end());
  const auto rank = static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), values.begin() + rank, values.end());
  return values[static_cast<std::size_t>(rank)];
}

Sampled sample(const std::function<double(const Eigen::VectorXd&)>& log_density, const Eigen::VectorXd& mode,
               const Eigen::MatrixXd& covariance, const SamplerOptions& options) {
  if (options.chains < 2 || options.steps < 8)
    throw std::invalid_argument("a sampler needs two chains and eight steps at least");
  const Eigen::LLT<Eigen::MatrixXd> root(covariance);
  if (root.info() != Eigen::Success) throw std::invalid_argument("a sampler needs a covariance");
  const Eigen::Index d = mode.size(), kept = options.steps - options.steps / 2;
  const Eigen::MatrixXd factor = root.matrixL();
  Sampled result;
  result.chains = options.chains;
  result.draws.resize(options.chains * kept, d);
  std::vector<long> taken(static_cast<std::size_t>(options.chains), 0);
  base::parallel_for(options.chains, options.threads, [&](int chain) {
    const auto stream = 2 * static_cast<std::uint64_t>(chain);
    std::uint64_t counter = 0;
    const auto wander = [&](double scale) {
      Eigen::VectorXd normal(d);
      for (Eigen::Index i = 0; i < d; ++i)
        normal(i) = statistics::standard_normal_at(options.seed, stream, counter++);
      return Eigen::VectorXd(scale * factor * normal);
    };
    Eigen::VectorXd x = mode + wander(2.0);
    double density = log_density(x);
    const double scale = 2.38 / std::sqrt(static_cast<double>(d));
    for (int step = 0; step < options.steps; ++step) {
      const Eigen::VectorXd trial = x + wander(scale);
      const double there = log_density(trial);
      const double luck = statistics::uniform_at(options.seed, stream + 1, static_cast<std::uint64_t>(step));
      if (std::log(luck) < there - density) {
        x = trial;
        density = there;
        ++taken[static_cast<std::size_t>(chain)];
      }
      const Eigen::Index row = step - options.steps / 2;
      if (row >= 0) result.draws.row(chain * kept + row) = x.transpose();
    }
  });
  for (const long count : taken)
    result.accepted += static_cast<double>(count) / (options.chains * static_cast<double>(options.steps));
  for (Eigen::Index i = 0; i < d; ++i)
    result.worst_mixing = std::max(result.worst_mixing, mixing_of(result.draws, options.chains, i));
  return result;
}

}  // namespace dullcast::learning
