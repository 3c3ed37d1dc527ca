#include "models/weight_balance.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <stdexcept>

namespace dullcast {
namespace {

constexpr double bracket_tolerance = 1e-11;

/// Depth of cut at which the cutters alone carry `weight`; `guess` is where to look first.
template <typename Force>
double depth_carrying(double weight, double guess, const Force& force) {
  double inner = guess, outer = guess;
  double inner_surplus = force(inner) - weight, outer_surplus = inner_surplus;
  double widening = 1e-4;
  for (int trial = 0; inner_surplus > 0.0 || outer_surplus < 0.0; ++trial) {
    if (trial > 400 || !std::isfinite(inner_surplus) || !std::isfinite(outer_surplus)) {
      throw std::runtime_error(
          "weight balance: no depth of cut carries the weight (is an input not a number?)");
    }
    if (inner_surplus > 0.0) {
      outer = inner, outer_surplus = inner_surplus;
      inner /= 1.0 + widening;
      inner_surplus = force(inner) - weight;
    } else {
      inner = outer, inner_surplus = outer_surplus;
      outer *= 1.0 + widening;
      outer_surplus = force(outer) - weight;
    }
    widening = std::min(16.0 * widening, 8.0);
  }
  if (inner_surplus == 0.0) return inner;
  if (outer_surplus == 0.0) return outer;
  std::uintmax_t most_evaluations = 100;
  const auto bracket = boost::math::tools::toms748_solve(
      [&](double d) { return force(d) - weight; }, inner, outer, inner_surplus, outer_surplus,
      [](double low, double high) { return high - low <= bracket_tolerance * high; }, most_evaluations);
  return 0.5 * (bracket.first + bracket.second);
}

}  // namespace

Balance balance_weight(const WornProfile& profile, const RockResistance& rock,
                       const ForceDirections& directions, const Eigen::ArrayXd& carbide_share, double weight,
                       double most_depth_of_cut, const RubbingLimit& rubbing, double guess) {
  if (!(weight > 0.0) || !(most_depth_of_cut > 0.0)) {
    if (std::isnan(weight) || std::isnan(most_depth_of_cut)) {
      throw std::runtime_error("weight balance: the weight or the feed limit is not a number");
    }
    return {};
  }
  const auto force = [&](double d) { return axial_force(profile, rock, directions, carbide_share, d); };
  const double limit = std::min(most_depth_of_cut, rubbing.depth_of_cut);
  const auto at_limit = [&] {
    const double carried = force(limit);
    Balance balance;
    balance.depth_of_cut = limit;
    balance.feed_limited = most_depth_of_cut < rubbing.depth_of_cut;
    balance.blade_weight = balance.feed_limited ? 0.0 : weight - carried;
    balance.weight = balance.feed_limited ? carried : weight;
    return balance;
  };
  const bool limit_is_near = std::isfinite(limit) && !(guess > 0.0 && guess < 0.5 * limit);
  if (limit_is_near && force(limit) <= weight) return at_limit();
  // Unknown ground: start where sharp cutting alone would carry the weight.
  const double sharp = weight * rock.drilling_efficiency /
                       (rock.specific_energy * directions.zeta.mean() * profile.outer_radius());
  const double d = depth_carrying(weight, guess > 0.0 ? guess : sharp, force);
  if (d > limit) return at_limit();
  Balance balance;
  balance.depth_of_cut = d;
  balance.weight = weight;
  return balance;
}

}  // namespace dullcast
