#include "engine/sweep/design.hpp"

#include <cmath>
#include <stdexcept>

#include "engine/statistics/counter_random.hpp"
#include "engine/statistics/keyed_permutation.hpp"
#include "engine/sweep/streams.hpp"

namespace dullcast::sweep {
namespace {

std::uint64_t unsigned_of(long value) {
  return static_cast<std::uint64_t>(value);
}

}  // namespace

Design::Design(const SweepPlan& plan, int axes)
    : kind_(plan.design.kind), axes_(axes), seed_(unsigned_of(plan.seed)), levels_(plan.design.levels) {
  const long k = axes;
  switch (kind_) {
    case DesignKind::grid:
      for (const Factor& factor : plan.factors) {
        grid_.push_back(factor.levels);
        points_ *= static_cast<long>(factor.levels);
      }
      break;
    case DesignKind::table:
      points_ = static_cast<long>(plan.design.rows.size());
      break;
    case DesignKind::latin_hypercube:
    case DesignKind::sobol_sequence:
      points_ = plan.design.points;
      break;
    case DesignKind::elementary_effects:
      points_ = plan.design.trajectories * (k + 1);
      break;
    case DesignKind::variance_shares:
      base_ = plan.design.points;
      points_ = base_ * (k + 2);
      break;
  }
  if (kind_ == DesignKind::grid && grid_.size() != static_cast<std::size_t>(axes)) {
    throw std::domain_error("a grid has one axis a factor");
  }
  if (kind_ == DesignKind::variance_shares) sobol_.emplace(2 * axes, unsigned_of(base_), seed_);
  if (kind_ == DesignKind::sobol_sequence) sobol_.emplace(axes, unsigned_of(points_), seed_);
}

Eigen::ArrayXd Design::point(long p) const {
  if (p < 0 || p >= points_) throw std::domain_error("a point outside its design");
  switch (kind_) {
    case DesignKind::grid:
      return grid_point(p);
    case DesignKind::table:
      return Eigen::ArrayXd::Zero(axes_);
    case DesignKind::latin_hypercube:
      return latin_point(p);
    case DesignKind::sobol_sequence:
      return sobol_->point(unsigned_of(p));
    case DesignKind::elementary_effects:
      return trajectory_point(p);
    case DesignKind::variance_shares:
      return shares_point(p);
  }
  return Eigen::ArrayXd::Zero(axes_);
}

Eigen::ArrayXd Design::grid_point(long p) const {
  Eigen::ArrayXd u(axes_);
  for (std::size_t f = grid_.size(); f-- > 0;) {
    const long levels = static_cast<long>(grid_[f]);
    u(static_cast<Eigen::Index>(f)) = (static_cast<double>(p % levels) + 0.5) / static_cast<double>(levels);
    p /= levels;
  }
  return u;
}

Eigen::ArrayXd Design::latin_point(long p) const {
  Eigen::ArrayXd u(axes_);
  for (Eigen::Index f = 0; f < axes_; ++f) {
    const std::uint64_t axis = unsigned_of(f);
    const statistics::KeyedPermutation order(unsigned_of(points_), seed_,
                                             stream_of(Purpose::design_order, axis));
    const double jitter =
        statistics::uniform_at(seed_, stream_of(Purpose::design_place, axis), unsigned_of(p));
    u(f) = (static_cast<double>(order(unsigned_of(p))) + jitter) / static_cast<double>(points_);
    // Rounding may reach the slice's end, or 1 itself.
    u(f) = std::min(u(f), std::nextafter(1.0, 0.0));
  }
  return u;
}

Eigen::ArrayXd Design::trajectory_point(long p) const {
  const long trajectory = p / (axes_ + 1), steps = p % (axes_ + 1);
  const int half = levels_ / 2;
  const statistics::KeyedPermutation order(unsigned_of(axes_), seed_,
                                           stream_of(Purpose::design_order, unsigned_of(trajectory)));
  Eigen::ArrayXd u(axes_);
  for (Eigen::Index f = 0; f < axes_; ++f) {
    const double drawn = statistics::uniform_at(
        seed_, stream_of(Purpose::design_place, unsigned_of(trajectory)), unsigned_of(f));
    const int level = std::min(static_cast<int>(drawn * levels_), levels_ - 1);
    const bool moved = static_cast<long>(order(unsigned_of(f))) < steps;
    // A step of half the levels takes any level to its partner in the other half.
    u(f) = ((moved ? (level < half ? level + half : level - half) : level) + 0.5) / levels_;
  }
  return u;
}

Eigen::ArrayXd Design::shares_point(long p) const {
  const long block = p / (axes_ + 2), member = p % (axes_ + 2);
  const Eigen::ArrayXd pair = sobol_->point(unsigned_of(block));
  if (member == 1) return pair.tail(axes_);
  Eigen::ArrayXd u = pair.head(axes_);
  if (member >= 2) u(member - 2) = pair(axes_ + member - 2);
  return u;
}

}  // namespace dullcast::sweep
