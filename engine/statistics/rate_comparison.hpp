#pragma once

#include "engine/statistics/confidence.hpp"

namespace dullcast::statistics {

/// Interval of the mean of a Poisson count of which `seen` were counted: exact, it covers with at least
/// `confidence`. Garwood, Biometrika 28, 1936 [pub]: half the chi-squared quantiles at a/2 with 2n and at
/// 1 - a/2 with 2n + 2 degrees of freedom, a = 1 - confidence; low is 0 for a count of 0. Throws
/// std::domain_error unless seen >= 0 and 0 < confidence < 1.
Interval poisson_mean_interval(long seen, double confidence);

/// A count and what was expected of it at a rate of 1.
struct CountedRate {
  long seen = 0;
  double expected = 0.0;  // above 0
};

/// Chance that the rate behind `one` is greater than that behind `other`, both Poisson, with Jeffreys' prior
/// rate^(-1/2) for either [hb]: the rates are then gamma variables of shape seen + 1/2 and inverse scale
/// expected, and the chance is an incomplete beta function. Throws std::domain_error for a count below 0 or
/// an expectation that is not above 0 and finite.
double chance_of_greater_rate(const CountedRate& one, const CountedRate& other);

/// The middle (50 %) of what is left to think of a rate.
double middle_rate(const CountedRate& counted);

}  // namespace dullcast::statistics
