#pragma once

#include <string>

namespace dullcast::statistics {

/// How an uncertain value is spread, by its quantile function, so that any design of points in the unit cube
/// and any stream of uniform numbers can draw from it.
struct Distribution {
  enum class Kind {
    fixed,        // a
    normal,       // mean a, standard deviation b
    lognormal,    // median a, standard deviation b of the logarithm
    uniform,      // from a to b
    triangular,   // least a, likeliest b, greatest c
    percentiles,  // 10 %, 50 % and 90 % at a, b, c
  };
  Kind kind = Kind::fixed;
  double a = 0.0, b = 0.0, c = 0.0;  // SI
  double not_below = -1e300, not_above = 1e300;
};

/// The value below which the share u of the distribution lies, u in (0, 1), given that it lies between
/// not_below and not_above: F^-1(F(lo) + u (F(hi) - F(lo))). Percentiles go between and beyond their three
/// points as normal in the logarithm where all three are above 0, as normal otherwise, with one slope below
/// the median and one above, as the library's low, central and high do. Throws std::domain_error for u
/// outside [0, 1] (NaN included), a spread below 0, percentiles or bounds out of order, a lognormal whose
/// median is not above 0, a parameter that is not finite, bounds with less than 1e-9 of the distribution
/// between them. At u = 0 and 1 unbounded distributions stop at 1e-16 from the end.
double quantile(const Distribution& distribution, double u);

/// The share of the distribution up to x, x itself included, without its bounds; the inverse of quantile()
/// without bounds. NaN for NaN. Throws std::domain_error for parameters as quantile() does.
double cdf(const Distribution& distribution, double x);

/// "normal, mean 3, deviation 1": for people, in SI.
std::string distribution_words(const Distribution& distribution);

}  // namespace dullcast::statistics
