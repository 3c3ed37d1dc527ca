#include "models/cutting/weight_balance.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>
#include <cstdint>
#include <limits>
#include <optional>
#include <stdexcept>

namespace dullcast::cutting {
namespace {

constexpr double bracket_tolerance = 1e-10;
/// The weakest ground under the greatest weight that may be asked for takes thousands of metres.
constexpr double beyond_any_depth = 1e9;  // m/rev
/// A secant's correction this small leaves an error of its square, or of its product with the change of slope
/// across a hand-over: below the bracket's tolerance either way.
constexpr double secant_tolerance = 1e-8;

/// A depth of cut, the slope dW/dd seen there and where force was found last.
struct Root {
  double d = 0.0, slope = 0.0, tried = 0.0;
};

/// Secants from a guess whose slope is known, until their correction is `enough` of the depth of cut: two
/// evaluations as a rule, since between calls little has changed. Nothing when they do not close in, each
/// correction under half of the last. `force` is told where it is likely to be asked for the last time.
/// `own_slope` is dW/dd where force was asked for last, 0 where it is not known: Newton's corrections then,
/// the last of them within `reach` of the depth of cut.
template <typename Force, typename OwnSlope>
std::optional<Root> polish(double weight, Root guess, double enough, double reach, const Force& force,
                           const OwnSlope& own_slope) {
  if (!(guess.d > 0.0) || !(guess.slope > 0.0)) return std::nullopt;
  double last_d = guess.d, last_surplus = force(last_d, reach > 0.0) - weight;
  double slope = guess.slope, last_step = std::numeric_limits<double>::infinity();
  for (int trial = 0; trial < 10; ++trial) {
    const double own = reach > 0.0 ? own_slope(last_d) : 0.0;
    if (own > 0.0) slope = own;
    double step = -last_surplus / slope;
    if (own > 0.0 && std::abs(step) <= reach * last_d) return Root{last_d + step, slope, last_d};
    // Force grows no faster than the square of the depth of cut: a slope that says more is of another time.
    // The guess's own slope is of another time: it is trusted with less.
    const double close = trial == 0 ? 0.3 * enough : enough;
    if (std::abs(step) <= close * last_d && std::abs(last_surplus) <= 3.0 * close * weight)
      return Root{last_d + step, slope, last_d};
    // The first two corrections may be of a slope that was a guess as well.
    if (trial < 2) step = std::clamp(step, -0.8 * last_d, 2.0 * last_d);
    if (trial >= 2 && !(std::abs(step) < 0.5 * last_step)) return std::nullopt;
    // Secants close in by what the slope is wrong by: some hundredths of a guess's.
    const double left = std::abs(step) * (trial == 0 ? 0.05 : std::abs(step) / last_step);
    last_step = std::abs(step);
    const double d = last_d + step, surplus = force(d, reach > 0.0 || left <= enough * last_d) - weight;
    const double seen = (surplus - last_surplus) / step;
    if (!(seen > 0.0)) return std::nullopt;
    slope = seen;
    last_d = d;
    last_surplus = surplus;
  }
  return std::nullopt;
}

/// Depth of cut at which the cutters alone carry `weight`; `guess` is where to look first.
template <typename Force>
Root bracketed(double weight, double guess, const Force& force) {
  double inner = guess, outer = guess;
  double inner_surplus = force(inner) - weight, outer_surplus = inner_surplus;
  double widening = 1e-4;
  for (int trial = 0; inner_surplus > 0.0 || outer_surplus < 0.0; ++trial) {
    if (!std::isfinite(inner_surplus) || !std::isfinite(outer_surplus)) {
      throw std::runtime_error("weight balance: a force or the weight is not a number");
    }
    // Where a face looks outward as far as to draw its cutter in, cutting does not push it up (axial is 0).
    if (trial > 400 || outer > beyond_any_depth) {
      throw std::runtime_error(
          "weight balance: no depth of cut carries the weight: cutting pushes none of these cutters up; "
          "lessen their side rake, or set one where the profile is flatter");
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
  const double slope = (outer_surplus - inner_surplus) / (outer - inner);
  if (inner_surplus == 0.0) return {inner, slope, inner};
  if (outer_surplus == 0.0) return {outer, slope, outer};
  std::uintmax_t most_evaluations = 100;
  const auto bracket = boost::math::tools::toms748_solve(
      [&](double d) { return force(d) - weight; }, inner, outer, inner_surplus, outer_surplus,
      [](double low, double high) { return high - low <= bracket_tolerance * high; }, most_evaluations);
  // The bracket's middle is as good as its width; a step along the slope there leaves no trace of where it
  // began.
  const double middle = 0.5 * (bracket.first + bracket.second);
  const double step = (weight - force(middle)) / slope;
  return {std::clamp(middle + step, bracket.first, bracket.second), slope, middle};
}

}  // namespace

Balance balance_weight(const geometry::WornProfile& profile, const RockResistance& rock,
                       const ForceDirections& directions, const Eigen::ArrayXd& carbide_share, double weight,
                       double most_depth_of_cut, const BladeBearing& blades, double guess, double guess_slope,
                       BalanceStorage* storage, double enough) {
  if (!(weight > 0.0) || !(most_depth_of_cut > 0.0)) {
    if (std::isnan(weight) || std::isnan(most_depth_of_cut)) {
      throw std::runtime_error("weight balance: the weight or the feed limit is not a number");
    }
    return {};
  }
  BalanceStorage own;
  BalanceStorage& kept = storage != nullptr ? *storage : own;
  // Force, its slope and the balance ask for the same depth of cut one after another.
  double carried_at = std::numeric_limits<double>::quiet_NaN();
  BladeContact carried_there;
  const auto blades_carry = [&](double d) -> BladeContact {
    if (blades.surfaces == nullptr || !(d >= blades.limit.depth_of_cut)) return {};
    if (d == carried_at) return carried_there;
    kept.clearances.find(profile, *blades.surfaces, blades.lost_steel);
    carried_there = kept.clearances.contact(rock, blades, d);
    carried_at = d;
    return carried_there;
  };
  const auto force = [&](double d, bool last = false) {
    return axial_force(profile, rock, directions, carbide_share, d, kept, last && kept.loads_follow) +
           blades_carry(d).weight;
  };
  const auto at_depth = [&](double d, double carried) {
    Balance balance;
    const BladeContact contact = blades_carry(d);
    balance.depth_of_cut = balance.tried = d;
    balance.weight = carried;
    balance.blade_weight = contact.weight;
    balance.blade_moment = contact.moment;
    return balance;
  };
  if (blades.limit.depth_of_cut == 0.0) {
    const BladeContact standing = blades_carry(0.0);
    if (standing.weight >= weight) {
      Balance balance;
      balance.weight = balance.blade_weight = weight;
      balance.blade_moment = standing.moment * weight / standing.weight;
      return balance;
    }
  }
  const auto at_feed_limit = [&](double carried) {
    Balance balance = at_depth(most_depth_of_cut, carried);
    balance.feed_limited = true;
    return balance;
  };
  // Unknown ground: start where sharp cutting alone would carry the weight, or where blades begin to.
  const double sharp =
      std::min(weight * rock.drilling_efficiency /
                   (rock.specific_energy * directions.zeta.mean() * profile.outer_radius()),
               blades.limit.depth_of_cut > 0.0 ? blades.limit.depth_of_cut : profile.outer_radius());
  const Root start = guess > 0.0 ? Root{guess, guess_slope, guess} : Root{sharp, weight / sharp, sharp};
  // A guess that comes with a slope is a close one.
  const double nearly = guess > 0.0 && guess_slope > 0.0 ? 0.95 : 0.5;
  const bool limit_is_near = std::isfinite(most_depth_of_cut) && !(start.d < nearly * most_depth_of_cut);
  if (limit_is_near) {
    const double carried = force(most_depth_of_cut, true);
    if (carried <= weight) return at_feed_limit(carried);
  }
  // Blades that bear bring a slope of their own.
  const auto own_slope = [&](double d) { return blades_carry(d).weight > 0.0 ? 0.0 : kept.force_slope; };
  const std::optional<Root> polished =
      polish(weight, start, std::max(enough, secant_tolerance), kept.reach, force, own_slope);
  const Root root = polished ? *polished : bracketed(weight, guess > 0.0 ? guess : sharp, force);
  if (root.d > most_depth_of_cut) return at_feed_limit(force(most_depth_of_cut));
  Balance balance = at_depth(root.d, weight);
  balance.force_slope = root.slope;
  balance.tried = root.tried;
  return balance;
}

}  // namespace dullcast::cutting
