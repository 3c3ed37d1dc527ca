#include "engine/learning/laplace.hpp"

#include <nlopt.h>

#include <Eigen/Cholesky>
#include <cmath>
#include <memory>
#include <stdexcept>

#include "engine/base/threads.hpp"

namespace dullcast::learning {
namespace {

/// The posterior by those of its parameters that anything depends on.
struct Reduced {
  const ShelfPosterior& posterior;
  std::vector<Eigen::Index> telling;
  Eigen::VectorXd whole;  // of all parameters; the others stay as they are

  Eigen::Index size() const { return static_cast<Eigen::Index>(telling.size()); }
  Eigen::VectorXd widened(const Eigen::VectorXd& x) const {
    Eigen::VectorXd all = whole;
    for (Eigen::Index i = 0; i < size(); ++i) all(telling[static_cast<std::size_t>(i)]) = x(i);
    return all;
  }
  Eigen::VectorXd narrowed(const Eigen::VectorXd& all) const {
    Eigen::VectorXd x(size());
    for (Eigen::Index i = 0; i < size(); ++i) x(i) = all(telling[static_cast<std::size_t>(i)]);
    return x;
  }
  double operator()(const Eigen::VectorXd& x, Eigen::VectorXd& gradient) const {
    Eigen::VectorXd all;
    const double value = posterior.log_density(widened(x), all);
    gradient = narrowed(all);
    return value;
  }
};

Reduced reduce(const ShelfPosterior& posterior) {
  return {posterior, posterior.telling(), Eigen::VectorXd::Zero(posterior.size())};
}

double for_nlopt(unsigned count, const double* x, double* gradient, void* data) {
  const auto& reduced = *static_cast<const Reduced*>(data);
  Eigen::VectorXd slope;
  const double value = reduced(Eigen::Map<const Eigen::VectorXd>(x, static_cast<Eigen::Index>(count)), slope);
  if (gradient) Eigen::Map<Eigen::VectorXd>(gradient, static_cast<Eigen::Index>(count)) = slope;
  return value;
}

Eigen::VectorXd climb(const Reduced& reduced, const Eigen::VectorXd& start) {
  const std::unique_ptr<nlopt_opt_s, decltype(&nlopt_destroy)> optimiser(
      nlopt_create(NLOPT_LD_LBFGS, static_cast<unsigned>(reduced.size())), &nlopt_destroy);
  if (!optimiser) throw std::bad_alloc();
  nlopt_set_max_objective(optimiser.get(), for_nlopt, const_cast<Reduced*>(&reduced));
  nlopt_set_xtol_abs1(optimiser.get(), 1e-4);
  nlopt_set_ftol_rel(optimiser.get(), 1e-9);
  nlopt_set_maxeval(optimiser.get(), 500);
  Eigen::VectorXd x = reduced.narrowed(start);
  Eigen::VectorXd gradient;
  if (!std::isfinite(reduced(x, gradient)))
    throw std::runtime_error("what was found on the shelf cannot be, by what is predicted of it");
  double best = 0.0;
  // A failure of the last line search leaves x at the best point; Newton's steps go on from there.
  nlopt_optimize(optimiser.get(), x.data(), &best);
  return x;
}

/// Minus the second derivatives, by central differences of the gradient.
Eigen::MatrixXd curvature(const Reduced& reduced, const Eigen::VectorXd& x, int threads) {
  constexpr double step = 1e-3;
  const Eigen::Index n = x.size();
  Eigen::MatrixXd result(n, n);
  base::parallel_for(static_cast<int>(n), threads, [&](int k) {
    Eigen::VectorXd at = x, above, below;
    at(k) = x(k) + step;
    reduced(at, above);
    at(k) = x(k) - step;
    reduced(at, below);
    result.col(k) = (below - above) / (2.0 * step);
  });
  return 0.5 * (result + result.transpose());
}

}  // namespace

Eigen::VectorXd most_probable(const ShelfPosterior& posterior, const Eigen::VectorXd& start) {
  const Reduced reduced = reduce(posterior);
  return reduced.widened(climb(reduced, start));
}

Eigen::MatrixXd curvature_of(const ShelfPosterior& posterior, const Eigen::VectorXd& parameters,
                             int threads) {
  Reduced reduced = reduce(posterior);
  reduced.whole = parameters;
  const Eigen::MatrixXd part = curvature(reduced, reduced.narrowed(parameters), threads);
  Eigen::MatrixXd all = Eigen::MatrixXd::Identity(posterior.size(), posterior.size());
  for (Eigen::Index i = 0; i < reduced.size(); ++i)
    for (Eigen::Index j = 0; j < reduced.size(); ++j)
      all(reduced.telling[static_cast<std::size_t>(i)], reduced.telling[static_cast<std::size_t>(j)]) =
          part(i, j);
  return all;
}

Laplace laplace(const ShelfPosterior& posterior, const Eigen::VectorXd& start, int threads) {
  const Reduced reduced = reduce(posterior);
  Eigen::VectorXd x = climb(reduced, start), gradient, trial_gradient;
  double density = reduced(x, gradient);
  Eigen::LLT<Eigen::MatrixXd> inverse;
  constexpr int most_steps = 4;
  for (int k = 0; k < most_steps; ++k) {
    inverse.compute(curvature(reduced, x, threads));
    if (inverse.info() != Eigen::Success)
      throw std::runtime_error(
          "what the shelf says has no one most probable answer: the density is flat or "
          "bent upward where it is highest");
    if (k + 1 == most_steps) break;
    const Eigen::VectorXd step = inverse.solve(gradient), next = x + step;
    const double there = reduced(next, trial_gradient);
    if (!(there > density)) break;
    x = next;
    density = there;
    gradient = trial_gradient;
    if (step.cwiseAbs().maxCoeff() < 1e-3) break;
  }
  Laplace result;
  result.mode = reduced.widened(x);
  result.covariance = Eigen::MatrixXd::Identity(posterior.size(), posterior.size());
  const Eigen::MatrixXd covariance = inverse.solve(Eigen::MatrixXd::Identity(reduced.size(), reduced.size()));
  for (Eigen::Index i = 0; i < reduced.size(); ++i)
    for (Eigen::Index j = 0; j < reduced.size(); ++j)
      result.covariance(reduced.telling[static_cast<std::size_t>(i)],
                        reduced.telling[static_cast<std::size_t>(j)]) = covariance(i, j);
  return result;
}

}  // namespace dullcast::learning
