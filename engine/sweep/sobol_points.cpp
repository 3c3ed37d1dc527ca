#include "engine/sweep/sobol_points.hpp"

#include <bit>
#include <boost/random/sobol.hpp>
#include <stdexcept>

#include "engine/statistics/counter_random.hpp"
#include "engine/sweep/streams.hpp"

namespace dullcast::sweep {

int most_sobol_axes() {
  return static_cast<int>(boost::random::default_sobol_table::max_dimension);
}

SobolPoints::SobolPoints(int axes, std::uint64_t count, std::uint64_t seed)
    : axes_(static_cast<std::size_t>(axes)) {
  if (axes > most_sobol_axes()) throw std::domain_error("too many axes for a Sobol sequence");
  if (axes == 0) return;
  for (std::uint32_t f = 0; f < axes_; ++f) {
    const auto words =
        statistics::philox4x32_10({0, 0, f, static_cast<std::uint32_t>(Purpose::design_shift)},
                                  {static_cast<std::uint32_t>(seed), static_cast<std::uint32_t>(seed >> 32)});
    shift_.push_back((std::uint64_t{words[1]} << 32) | words[0]);
  }
  boost::random::sobol engine(axes_);
  const auto digits = static_cast<int>(std::bit_width(count > 0 ? count - 1 : 0));
  for (int k = 0; k < digits; ++k) {
    // The Gray code of 2^(k + 1) - 1 is 2^k. Boost leaves out the sequence's first point, the origin; with
    // it, every 2^m points from 0 are a whole net.
    engine.seed((std::uint64_t{2} << k) - 2);
    for (std::size_t f = 0; f < axes_; ++f) directions_.push_back(engine());
  }
}

Eigen::ArrayXd SobolPoints::point(std::uint64_t p) const {
  std::vector<std::uint64_t> digits = shift_;
  for (std::uint64_t gray = p ^ (p >> 1); gray != 0; gray &= gray - 1) {
    const std::uint64_t* direction =
        directions_.data() + static_cast<std::size_t>(std::countr_zero(gray)) * axes_;
    for (std::size_t f = 0; f < axes_; ++f) digits[f] ^= direction[f];
  }
  Eigen::ArrayXd u(static_cast<Eigen::Index>(axes_));
  for (std::size_t f = 0; f < axes_; ++f) {
    // 52 bits, at the middle of their last place: exact in a double, and neither 0 nor 1 ever comes.
    u(static_cast<Eigen::Index>(f)) = (static_cast<double>(digits[f] >> 12) + 0.5) * 0x1p-52;
  }
  return u;
}

}  // namespace dullcast::sweep
