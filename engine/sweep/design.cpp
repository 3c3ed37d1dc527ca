#include "engine/sweep/design.hpp"

#include <boost/random/sobol.hpp>
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

int most_sobol_axes() {
  return static_cast<int>(boost::random::default_sobol_table::max_dimension);
}

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
  const int sobol = kind_ == DesignKind::variance_shares ? 2 * axes : axes;
  const bool uses_sobol = kind_ == DesignKind::variance_shares || kind_ == DesignKind::sobol_sequence;
  if (uses_sobol && sobol > most_sobol_axes()) throw std::domain_error("too many axes for a Sobol sequence");
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
      return sobol_point(p, axes_);
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

Eigen::ArrayXd Design::sobol_point(long p, int axes) const {
  if (axes == 0) return Eigen::ArrayXd(0);
  boost::random::sobol engine(static_cast<std::size_t>(axes));
  // Boost leaves out the sequence's first point, the origin; with it, every 2^m points from 0 are a whole
  // net.
  if (p > 0) engine.seed(unsigned_of(p - 1));
  Eigen::ArrayXd u(axes);
  for (Eigen::Index f = 0; f < axes; ++f) {
    const auto words = statistics::philox4x32_10(
        {0, 0, static_cast<std::uint32_t>(f), static_cast<std::uint32_t>(Purpose::design_shift)},
        {static_cast<std::uint32_t>(seed_), static_cast<std::uint32_t>(seed_ >> 32)});
    const std::uint64_t shift = (std::uint64_t{words[1]} << 32) | words[0];
    // 52 bits, at the middle of their last place: exact in a double, and neither 0 nor 1 ever comes.
    const std::uint64_t digits = p > 0 ? engine() : 0;
    u(f) = (static_cast<double>((digits ^ shift) >> 12) + 0.5) * 0x1p-52;
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
  const Eigen::ArrayXd pair = sobol_point(block, 2 * axes_);
  if (member == 1) return pair.tail(axes_);
  Eigen::ArrayXd u = pair.head(axes_);
  if (member >= 2) u(member - 2) = pair(axes_ + member - 2);
  return u;
}

}  // namespace dullcast::sweep
