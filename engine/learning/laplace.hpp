#pragma once

#include "engine/learning/shelf_posterior.hpp"

namespace dullcast::learning {

/// The mode of a density and the normal one that touches it there.
struct Laplace {
  Eigen::VectorXd mode;
  Eigen::MatrixXd covariance;  // the inverse of minus the second derivatives at the mode
};

/// The most probable parameters, from `start`: by limited-memory BFGS (NLopt's) and then Newton's steps with
/// the second derivatives, which also are the covariance's inverse. Parameters that nothing depends on stay 0
/// with variance 1. Throws std::runtime_error where no mode is found.
Laplace laplace(const ShelfPosterior& posterior, const Eigen::VectorXd& start, int threads);

/// Minus the second derivatives at `parameters`, of all parameters: the identity where nothing depends on
/// them.
Eigen::MatrixXd curvature_of(const ShelfPosterior& posterior, const Eigen::VectorXd& parameters, int threads);

/// The mode alone, from `start`.
Eigen::VectorXd most_probable(const ShelfPosterior& posterior, const Eigen::VectorXd& start);

}  // namespace dullcast::learning
