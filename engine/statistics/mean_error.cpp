#include "engine/statistics/mean_error.hpp"

#include <cmath>
#include <limits>

namespace dullcast::statistics {

MeanError mean_error(const std::vector<double>& values) {
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  if (values.empty()) return {none, none};
  const auto n = static_cast<double>(values.size());
  MeanError found{0.0, none};
  for (const double value : values) found.mean += value / n;
  double squares = 0.0;
  for (const double value : values) squares += (value - found.mean) * (value - found.mean);
  if (values.size() > 1) found.error = std::sqrt(squares / (n - 1.0) / n);
  return found;
}

}  // namespace dullcast::statistics
