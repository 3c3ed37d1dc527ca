#pragma once

#include "models/cutting/blade_contact.hpp"
#include "models/cutting/cutting_force.hpp"

namespace dullcast::cutting {

/// How the bit sits on its bottom.
struct Balance {
  double depth_of_cut = 0.0;  // m/rev, d
  double weight = 0.0;        // N that the bit carries: less than asked where the feed limit binds
  double blade_weight = 0.0;  // N of it on rubbing blades
  double blade_moment = 0.0;  // N m, of that times its radius
  bool feed_limited = false;
  double force_slope = 0.0;  // N/m, dW/dd where it was solved; 0 at a limit: a guess for the next call
  double tried = 0.0;  // m/rev, the last depth of cut at which force was found: the solution, or nearer to
                       // it than was asked for, or within reach of loads that follow
};

/// What balance_weight works with: storage that its caller may keep from one call to the next.
struct BalanceStorage : ForceStorage {
  BladeClearances clearances;
  bool loads_follow = false;  // cutter_loads is asked for where force was found last (Balance::tried)
  double reach = 0.0;  // 1, share of the depth of cut by which the solution may lie off where force was found
};

/// Solves W = axial_force(d) + blade_contact(d) for d (cutting_force.hpp, blade_contact.hpp); d = 0 where the
/// blades alone bear W. A close `guess` with its `guess_slope`
/// (a Balance's depth_of_cut and force_slope; 0 for none) is polished by secants of its logarithm until their
/// correction is below 1e-8 d, or `enough` of it where that is more (the error left is that times the
/// slope's, some hundredths); with a `storage->reach` the force's own
/// slope takes the place of secants, and a last correction within that reach is made without another look,
/// which leaves about its square; anything else goes to a safeguarded root finder on a bracket in d (Alefeld,
/// Potra & Shi, ACM TOMS 21(3), 1995, algorithm 748) that stops when the bracket is narrower than 1e-10 d.
/// W(d) is monotone, so the root is unique. `most_depth_of_cut` (m/rev) is the feed limit over the rotary
/// speed, infinity for none. weight <= 0 is off bottom: d = 0. `storage` is to keep between calls, so that
/// nothing is allocated. Throws std::runtime_error for NaN input, and where cutting pushes no cutter up, so
/// that no depth of cut carries the weight.
Balance balance_weight(const geometry::WornProfile& profile, const RockResistance& rock,
                       const ForceDirections& directions, const Eigen::ArrayXd& carbide_share, double weight,
                       double most_depth_of_cut, const BladeBearing& blades, double guess,
                       double guess_slope = 0.0, BalanceStorage* storage = nullptr, double enough = 0.0);

}  // namespace dullcast::cutting
