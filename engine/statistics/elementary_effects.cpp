#include "engine/statistics/elementary_effects.hpp"

#include <cmath>
#include <limits>

#include "models/common/domain.hpp"

namespace dullcast::statistics {
namespace {

constexpr const char* here = "elementary_effects";

struct Step {
  Eigen::Index factor = -1;
  double size = 0.0;
};

/// The one factor that differs between two points.
Step step_between(const Eigen::ArrayXXd& coordinates, Eigen::Index from) {
  Step step;
  for (Eigen::Index k = 0; k < coordinates.cols(); ++k) {
    const double moved = coordinates(from + 1, k) - coordinates(from, k);
    if (moved == 0.0) continue;
    require_domain(step.factor < 0, here, "a step moves one factor, this point's moves more",
                   static_cast<double>(from + 1));
    step = {k, moved};
  }
  require_domain(step.factor >= 0, here, "a step moves one factor, this point's moves none",
                 static_cast<double>(from + 1));
  require_domain(std::isfinite(step.size), here, "coordinates are numbers, not at point",
                 static_cast<double>(from + 2));
  return step;
}

/// Effects of one trajectory, one per factor.
Eigen::ArrayXd effects_of_trajectory(const Eigen::ArrayXd& outputs, const Eigen::ArrayXXd& coordinates,
                                     Eigen::Index first) {
  const Eigen::Index factors = coordinates.cols();
  Eigen::ArrayXd effects = Eigen::ArrayXd::Constant(factors, std::numeric_limits<double>::quiet_NaN());
  Eigen::Array<bool, Eigen::Dynamic, 1> moved =
      Eigen::Array<bool, Eigen::Dynamic, 1>::Constant(factors, false);
  for (Eigen::Index from = first; from < first + factors; ++from) {
    const Step step = step_between(coordinates, from);
    require_domain(!moved(step.factor), here,
                   "a trajectory moves each factor once, this point's step moves one again",
                   static_cast<double>(from + 1));
    moved(step.factor) = true;
    effects(step.factor) = (outputs(from + 1) - outputs(from)) / step.size;
  }
  return effects;
}

}  // namespace

ElementaryEffects elementary_effects(const Eigen::ArrayXd& outputs, const Eigen::ArrayXXd& coordinates,
                                     const Resampling& how) {
  const Eigen::Index factors = coordinates.cols(), points = factors + 1;
  require_domain(factors >= 1, here, "there is at least one factor", static_cast<double>(factors));
  require_domain(coordinates.rows() == outputs.size(), here, "there is one row of coordinates a point",
                 static_cast<double>(coordinates.rows()));
  require_domain(outputs.size() % points == 0, here,
                 "points are whole trajectories of one more than the factors",
                 static_cast<double>(outputs.size()));
  ElementaryEffects result;
  Eigen::ArrayXXd effects(outputs.size() / points, factors);  // trajectory, factor
  for (Eigen::Index first = 0; first < outputs.size(); first += points) {
    const Eigen::ArrayXd trajectory = effects_of_trajectory(outputs, coordinates, first);
    if (outputs.segment(first, points).isNaN().any()) {
      ++result.left_out;
    } else {
      effects.row(result.trajectories++) = trajectory.transpose();
    }
  }
  const auto intervals = resampled_intervals(result.trajectories, how, [&](const std::vector<long>& chosen) {
    Eigen::ArrayXd sizes = Eigen::ArrayXd::Zero(factors);
    for (const long trajectory : chosen) sizes += effects.row(trajectory).abs().transpose();
    return Eigen::ArrayXd(sizes / static_cast<double>(chosen.size()));
  });
  for (Eigen::Index k = 0; k < factors; ++k) {
    const auto of_factor = effects.col(k).head(result.trajectories);
    ElementaryEffect effect;
    const auto trajectories = static_cast<double>(result.trajectories);
    effect.mean = of_factor.sum() / trajectories;
    effect.mean_size = of_factor.abs().sum() / trajectories;
    effect.spread =
        std::sqrt((of_factor - effect.mean).square().sum() / (trajectories - 1.0));  // NaN for one trajectory
    if (!intervals.empty()) effect.mean_size_range = intervals[static_cast<std::size_t>(k)];
    result.factors.push_back(effect);
  }
  return result;
}

}  // namespace dullcast::statistics
