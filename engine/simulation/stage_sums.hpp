#pragma once

#include <Eigen/Core>
#include <array>

namespace dullcast::simulation {

/// Sums over the stages of a step, entry by entry in the order of the stages, several entries at a time.
namespace stage_sums {

using Stages = std::array<Eigen::VectorXd, 4>;
using Weights = std::array<double, 4>;

/// sum += of the first `count` stages (1 to 4), weight times each.
void add(const Stages& stages, const Weights& weights, std::size_t count, Eigen::VectorXd& sum);
/// Greatest |error| over its scale. Whatever is no number counts for nothing.
double greatest_share(const Eigen::VectorXd& error, const Eigen::VectorXd& scale);

}  // namespace stage_sums
}  // namespace dullcast::simulation
